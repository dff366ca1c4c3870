package product

import (
	"bytes"
	"image"
	"io"
)

// drawing is a picture that is drawn and packed beside whatever else goes on.
type drawing struct {
	done chan struct{}
	b    bytes.Buffer
	err  error
}

// draw begins a picture as a PNG. What it shows may not change before it is done; see
// [drawing.png].
func draw(picture func() *image.RGBA, texts ...Text) *drawing {
	d := &drawing{done: make(chan struct{})}
	go func() {
		defer close(d.done)
		d.err = EncodePNG(&d.b, picture(), texts...)
	}()
	return d
}

// png waits for the picture.
func (d *drawing) png() ([]byte, error) {
	<-d.done
	return d.b.Bytes(), d.err
}

// writeTo waits for the picture and writes it.
func (d *drawing) writeTo(out io.Writer) error {
	png, err := d.png()
	if err != nil {
		return err
	}
	_, err = out.Write(png)
	return err
}

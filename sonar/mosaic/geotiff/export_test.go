package geotiff

import "io"

// WriteBig writes BigTIFF whatever the size, so that tests need not fill 4 GiB.
func WriteBig[T Sample](w io.Writer, r Raster[T]) error {
	if err := r.check(); err != nil {
		return err
	}
	c, err := newCOG(&r)
	if err != nil {
		return err
	}
	return c.write(w, format{big: true})
}

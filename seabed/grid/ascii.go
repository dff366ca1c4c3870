package grid

import (
	"bytes"
	"fmt"
	"math"
	"strconv"
	"strings"
)

// readASCIIGrid reads an ESRI ASCII grid: a head of keys with values, then the rows
// from the north.
func readASCIIGrid(data []byte, o Options) (*Raster, error) {
	words := fields{data: data}
	head, first, err := words.head()
	if err != nil {
		return nil, err
	}
	r := &Raster{NX: int(head["ncols"]), NY: int(head["nrows"]), DX: head["cellsize"], DY: head["cellsize"]}
	if v, ok := head["dx"]; ok {
		r.DX = v
	}
	if v, ok := head["dy"]; ok {
		r.DY = v
	}
	if n := float64(r.NX) * float64(r.NY); r.NX < 1 || r.NY < 1 || n > most || n > float64(len(data)) {
		return nil, fmt.Errorf("it claims %g x %g cells, which its %d bytes do not hold", head["ncols"], head["nrows"], len(data))
	}
	if !(r.DX > 0 && r.DY > 0) {
		return nil, fmt.Errorf("its cellsize is %g, want more than 0", head["cellsize"])
	}
	r.X0, r.Y0 = head["xllcenter"], head["yllcenter"]
	if x, atCorner := head["xllcorner"]; atCorner {
		r.X0 = x + r.DX/2
	}
	if y, atCorner := head["yllcorner"]; atCorner {
		r.Y0 = y + r.DY/2
	}
	missing, hasMissing := head["nodata_value"]
	r.Z = make([]float32, r.NX*r.NY)
	word, ok := first, true
	for n := range r.Z {
		if !ok {
			return nil, fmt.Errorf("it holds %d of %d values", n, len(r.Z))
		}
		v, err := strconv.ParseFloat(word, 64)
		if err != nil {
			return nil, fmt.Errorf("value %d is %.20q, want a number", n+1, word)
		}
		if hasMissing && v == missing || math.IsInf(v, 0) {
			v = math.NaN()
		}
		r.Z[r.at(n%r.NX, r.NY-1-n/r.NX)] = float32(v)
		word, ok = words.next()
	}
	return r, r.finish(o, Auto)
}

// fields cuts a text at white space, a word at a time.
type fields struct{ data []byte }

// head reads keys with their values, and returns the first word that is no key but a
// number, besides.
func (f *fields) head() (keys map[string]float64, first string, err error) {
	keys = map[string]float64{}
	for {
		w, ok := f.next()
		if !ok {
			return nil, "", errCut
		}
		if c := w[0]; c >= '0' && c <= '9' || c == '-' || c == '+' || c == '.' || strings.EqualFold(w, "nan") {
			return keys, w, nil
		}
		v, ok := f.next()
		n, err := strconv.ParseFloat(v, 64)
		if !ok || err != nil {
			return nil, "", fmt.Errorf("%.20s is %.20q, want a number", w, v)
		}
		keys[strings.ToLower(w)] = n
	}
}

func (f *fields) next() (string, bool) {
	f.data = bytes.TrimLeft(f.data, " \t\r\n\f\v")
	if len(f.data) == 0 {
		return "", false
	}
	n := bytes.IndexAny(f.data, " \t\r\n\f\v")
	if n < 0 {
		n = len(f.data)
	}
	w := string(f.data[:n])
	f.data = f.data[n:]
	return w, true
}

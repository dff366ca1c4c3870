package pingfile

import (
	"io"

	"dryline/sim/dataset/cdf"
	"dryline/sim/dataset/zarr"
)

// zarrRows is how many pings a chunk has: of default size 2 MB of samples, which come to
// half of that.
const zarrRows = 256

// zarrTypes are the types of variables as NumPy has them: numbers stay as they lie in the
// records.
var zarrTypes = map[cdf.Type]string{
	cdf.Byte: "|i1", cdf.Char: "|S1", cdf.Short: ">i2", cdf.Int: ">i4", cdf.Float: ">f4", cdf.Double: ">f8",
	cdf.UByte: "|u1", cdf.UShort: ">u2", cdf.UInt: ">u4", cdf.Int64: ">i8", cdf.UInt64: ">u8",
}

// plain is attributes as JSON has them, and the fill value apart.
func plain(attrs []cdf.Attr) (m map[string]any, fill any) {
	m = map[string]any{}
	for _, a := range attrs {
		v := a.Value
		if b, ok := v.([]uint8); ok { // which JSON would take for text
			var list []int
			for _, x := range b {
				list = append(list, int(x))
			}
			v = list
		}
		if a.Name == "_FillValue" {
			fill = v
			continue
		}
		m[a.Name] = v
	}
	return m, fill
}

// writeZarr writes the records of a file, the same variables by the same names as in
// netCDF.
func (f *file) writeZarr(out io.Writer, pings int64) error {
	schema := f.layout.Schema()
	attrs, _ := plain(schema.Attrs)
	w, err := zarr.NewWriter(out, attrs)
	if err != nil {
		return err
	}
	lengths := map[string]int64{}
	for _, d := range schema.Dims {
		lengths[d.Name] = d.Len
	}
	type growing struct {
		array *zarr.Array
		slab  []byte // in the record
		rows  []byte
	}
	var grow []growing
	for i := range schema.Vars {
		v := &schema.Vars[i]
		a := &zarr.Array{Name: v.Name, Type: zarrTypes[v.Type], Dims: v.Dims, Shape: []int64{}}
		a.Attrs, a.Fill = plain(v.Attrs)
		for _, d := range v.Dims {
			n := lengths[d]
			if n == 0 {
				n, a.Rows = pings, zarrRows
			}
			a.Shape = append(a.Shape, n)
		}
		if err := w.Describe(a); err != nil {
			return err
		}
		if slab := f.layout.Slab(f.record, v.Name); slab != nil {
			grow = append(grow, growing{array: a, slab: slab})
			continue
		}
		values, err := cdf.Encode(v.Data)
		if err != nil {
			return err
		}
		if err := w.Chunk(a, 0, values, 0); err != nil {
			return err
		}
	}
	flush := func(n int64) error {
		for i := range grow {
			g := &grow[i]
			if err := w.Chunk(g.array, n, g.rows, int64(len(g.slab))); err != nil {
				return err
			}
			g.rows = g.rows[:0]
		}
		return nil
	}
	size := f.layout.RecordSize()
	for n := range pings {
		if _, err := f.backing.ReadAt(f.record, n*size); err != nil && err != io.EOF {
			return err
		}
		for i := range grow {
			grow[i].rows = append(grow[i].rows, grow[i].slab...)
		}
		if (n+1)%zarrRows == 0 || n+1 == pings {
			if err := flush(n / zarrRows); err != nil {
				return err
			}
		}
	}
	return w.Close()
}

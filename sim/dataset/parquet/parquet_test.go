package parquet_test

import (
	"bytes"
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	library "github.com/parquet-go/parquet-go"

	"dryline/sim/dataset/parquet"
)

type row struct {
	Flag  bool    `parquet:"flag"`
	Name  string  `parquet:"name"`
	Count int64   `parquet:"count"`
	Size  float64 `parquet:"size"`
}

// What is written is what a library of the format reads, with more columns than a short
// list of the header's protocol holds and more rows than a byte of flags.
func TestTheLibraryReadsIt(t *testing.T) {
	for _, n := range []int{0, 1, 9, 5000} {
		var want []row
		flags, names, counts, sizes := []bool{}, []string{}, []int64{}, []float64{}
		for i := range n {
			r := row{i%3 == 0, []string{"", "buoy", "wrack ° für"}[i%3], int64(i-2) << 40, float64(i) / 7}
			if i == 4 {
				r.Size = math.Inf(-1)
			}
			want = append(want, r)
			flags, names, counts, sizes = append(flags, r.Flag), append(names, r.Name), append(counts, r.Count), append(sizes, r.Size)
		}
		columns := []parquet.Column{{Name: "flag", Values: flags}, {Name: "name", Values: names}, {Name: "count", Values: counts}, {Name: "size", Values: sizes}}
		for len(columns) < 20 {
			columns = append(columns, parquet.Column{Name: "more" + string(rune('a'+len(columns))), Values: sizes})
		}
		var b bytes.Buffer
		if err := parquet.Write(&b, "table", columns); err != nil {
			t.Fatal(err)
		}
		f, err := library.OpenFile(bytes.NewReader(b.Bytes()), int64(b.Len()))
		if err != nil {
			t.Fatal(err)
		}
		if got := len(f.Schema().Columns()); got != 20 || f.NumRows() != int64(n) {
			t.Errorf("%d columns and %d rows, want 20 and %d", got, f.NumRows(), n)
		}
		got, err := library.Read[row](bytes.NewReader(b.Bytes()), int64(b.Len()))
		if err != nil {
			t.Fatal(err)
		}
		if len(got)+len(want) > 0 {
			if diff := cmp.Diff(want, got); diff != "" {
				t.Errorf("%d rows: %s", n, diff)
			}
		}
	}
}

func TestUnevenColumnsAreRefused(t *testing.T) {
	if err := parquet.Write(new(bytes.Buffer), "t", []parquet.Column{{"a", []int64{1}}, {"b", []int64{1, 2}}}); err == nil {
		t.Error("columns of 1 and 2 rows make a table")
	}
	if err := parquet.Write(new(bytes.Buffer), "t", []parquet.Column{{"a", []int32{1}}}); err == nil {
		t.Error("a column of a type that is not provided for makes a table")
	}
}

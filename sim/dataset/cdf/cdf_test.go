package cdf_test

import (
	"bytes"
	"encoding/binary"
	"encoding/hex"
	"encoding/json"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"dryline/sim/dataset/cdf"
	"dryline/sim/dataset/cdf/cdftest"
)

// full has a bit of everything that the format can hold, and three records.
func full(t *testing.T) []byte {
	t.Helper()
	l, err := cdf.Lay(cdf.Schema{
		Dims:  []cdf.Dim{{Name: "ping"}, {Name: "side", Len: 2}, {Name: "sample", Len: 3}, {Name: "letter", Len: 5}},
		Attrs: []cdf.Attr{{Name: "title", Value: "Tiefe 5 m, Kabel 12° schräg"}, {Name: "empty", Value: ""}, {Name: "seed", Value: uint64(math.MaxUint64)}},
		Vars: []cdf.Var{
			{Name: "odd", Type: cdf.UByte, Dims: []string{"sample"}, Data: []uint8{1, 2, 255}, Attrs: []cdf.Attr{
				{Name: "bytes", Value: []int8{-1, 2}}, {Name: "shorts", Value: []int16{-3}}, {Name: "ints", Value: []int32{-70000, 1}},
				{Name: "floats", Value: float32(0.5)}, {Name: "doubles", Value: []float64{math.Pi}}, {Name: "ubytes", Value: []uint8{7, 8, 9}},
				{Name: "ushorts", Value: uint16(65535)}, {Name: "uints", Value: uint32(4e9)}, {Name: "longs", Value: int64(-1 << 60)},
			}},
			{Name: "samples", Type: cdf.UShort, Dims: []string{"ping", "side", "sample"}},
			{Name: "word", Type: cdf.Char, Dims: []string{"letter"}, Data: "hello"},
			{Name: "flag", Type: cdf.UByte, Dims: []string{"ping"}},
			{Name: "time", Type: cdf.Double, Dims: []string{"ping"}, Attrs: []cdf.Attr{{Name: "units", Value: "s"}}},
			{Name: "number", Type: cdf.UInt64, Dims: []string{"ping"}},
			{Name: "place", Type: cdf.Float, Dims: []string{"ping", "side"}},
			{Name: "single", Type: cdf.Double, Data: 2.5},
		},
	})
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := l.WriteHead(&b, 3); err != nil {
		t.Fatal(err)
	}
	for k := range 3 {
		r := make([]byte, l.RecordSize())
		cdf.PutUint16(l.Slab(r, "samples"), uint16(k), 1, 2, 3, 40000, 65535)
		l.Slab(r, "flag")[0] = uint8(k + 1)
		cdf.PutFloat64(l.Slab(r, "time"), 1e9+float64(k)/3)
		cdf.PutUint64(l.Slab(r, "number"), uint64(k)<<33)
		if _, err := binary.Encode(l.Slab(r, "place"), binary.BigEndian, []float32{float32(k), -0.25}); err != nil {
			t.Fatal(err)
		}
		b.Write(r)
	}
	return b.Bytes()
}

// A file by hand, from the grammar of the published format: one dimension that grows,
// one variable over it, one attribute, and two records of a short each, which as the
// only ones are not padded.
func TestBytesByHand(t *testing.T) {
	l, err := cdf.Lay(cdf.Schema{
		Dims: []cdf.Dim{{Name: "t"}},
		Vars: []cdf.Var{{Name: "v", Type: cdf.UShort, Dims: []string{"t"}, Attrs: []cdf.Attr{{Name: "units", Value: "m"}}}},
	})
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := l.WriteHead(&b, 2); err != nil {
		t.Fatal(err)
	}
	for _, v := range []uint16{1, 0xabcd} {
		r := make([]byte, l.RecordSize())
		cdf.PutUint16(l.Slab(r, "v"), v)
		b.Write(r)
	}
	want := strings.Join([]string{
		"43444605", "0000000000000002", // magic, records
		"0000000a", "0000000000000001", // dimensions
		"0000000000000001", "74000000", "0000000000000000", // t, which grows
		"00000000", "0000000000000000", // no attributes of the file
		"0000000b", "0000000000000001", // variables
		"0000000000000001", "76000000", "0000000000000001", "0000000000000000", // v over t
		"0000000c", "0000000000000001", // its attributes
		"0000000000000005", "756e697473000000", "00000002", "0000000000000001", "6d000000", // units = "m"
		"00000008", "0000000000000004", "00000000000000a0", // ushort, padded size, where it begins: byte 160
		"0001", "abcd",
	}, "")
	if got := hex.EncodeToString(b.Bytes()); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

func TestReadBackByTheGrammar(t *testing.T) {
	f := cdftest.Read(t, full(t))
	if f.Records != 3 || f.Attrs["title"] != "Tiefe 5 m, Kabel 12° schräg" || f.Attrs["empty"] != "" {
		t.Errorf("%d records, attributes %v", f.Records, f.Attrs)
	}
	third := 1e9 + 1.0/3
	for name, want := range map[string][]float64{
		"odd": {1, 2, 255}, "samples": {0, 1, 2, 3, 40000, 65535, 1, 1, 2, 3, 40000, 65535, 2, 1, 2, 3, 40000, 65535},
		"flag": {1, 2, 3}, "time": {1e9, third, 1e9 + 2.0/3}, "number": {0, 1 << 33, 2 << 33}, "place": {0, -0.25, 1, -0.25, 2, -0.25}, "single": {2.5},
	} {
		if diff := cmp.Diff(want, f.Vars[name].Values); diff != "" {
			t.Errorf("%s: %s", name, diff)
		}
	}
	want := map[string]any{"bytes": []float64{-1, 2}, "shorts": []float64{-3}, "ints": []float64{-70000, 1}, "floats": []float64{0.5},
		"doubles": []float64{math.Pi}, "ubytes": []float64{7, 8, 9}, "ushorts": []float64{65535}, "uints": []float64{4e9}, "longs": []float64{-1 << 60}}
	if diff := cmp.Diff(want, f.Vars["odd"].Attrs); diff != "" {
		t.Error(diff)
	}
	if f.Vars["word"].Text != "hello" {
		t.Errorf("text %q", f.Vars["word"].Text)
	}
}

func TestFaultySchemas(t *testing.T) {
	for name, s := range map[string]cdf.Schema{
		"two record dimensions":  {Dims: []cdf.Dim{{Name: "a"}, {Name: "b"}}},
		"a dimension twice":      {Dims: []cdf.Dim{{Name: "a", Len: 1}, {Name: "a", Len: 2}}},
		"no such dimension":      {Vars: []cdf.Var{{Name: "v", Type: cdf.Int, Dims: []string{"x"}}}},
		"records not first":      {Dims: []cdf.Dim{{Name: "t"}, {Name: "x", Len: 2}}, Vars: []cdf.Var{{Name: "v", Type: cdf.Int, Dims: []string{"x", "t"}}}},
		"too few values":         {Dims: []cdf.Dim{{Name: "x", Len: 2}}, Vars: []cdf.Var{{Name: "v", Type: cdf.Int, Dims: []string{"x"}, Data: []int32{1}}}},
		"values of another type": {Dims: []cdf.Dim{{Name: "x", Len: 1}}, Vars: []cdf.Var{{Name: "v", Type: cdf.Int, Dims: []string{"x"}, Data: []float32{1}}}},
		"a name with a slash":    {Dims: []cdf.Dim{{Name: "a/b", Len: 1}}},
		"an unknown attribute":   {Attrs: []cdf.Attr{{Name: "a", Value: true}}},
	} {
		if _, err := cdf.Lay(s); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}

// The Python that Debian's python3-netcdf4 and python3-xarray are for, and ncdump.
func tool(t *testing.T, ok bool, what string) {
	t.Helper()
	if ok {
		return
	}
	if os.Getenv("DRYLINE_REQUIRE_TOOLS") == "1" {
		t.Fatalf("%s is not installed, and DRYLINE_REQUIRE_TOOLS=1 asks for it", what)
	}
	t.Skipf("%s is not installed; DRYLINE_REQUIRE_TOOLS=1 makes this fail", what)
}

func TestOutsideReaders(t *testing.T) {
	path := filepath.Join(t.TempDir(), "full.nc")
	if err := os.WriteFile(path, full(t), 0o644); err != nil {
		t.Fatal(err)
	}
	t.Run("ncdump", func(t *testing.T) {
		_, err := exec.LookPath("ncdump")
		tool(t, err == nil, "ncdump")
		// It shows 65535 as a gap: without a _FillValue it takes the format's default.
		out, err := exec.Command("ncdump", path).CombinedOutput()
		if err != nil {
			t.Fatalf("%v\n%s", err, out)
		}
		for _, want := range []string{
			"ping = UNLIMITED ; // (3 currently)", "ushort samples(ping, side, sample) ;", "time:units = \"s\" ;",
			":seed = 18446744073709551615ULL ;", "2, 1, 2,", "3, 40000, _ ;", "word = \"hello\" ;", "number = 0, 8589934592, 17179869184 ;",
		} {
			if !strings.Contains(string(out), want) {
				t.Errorf("no %q in\n%s", want, out)
			}
		}
	})
	t.Run("xarray", func(t *testing.T) {
		python := "/usr/bin/python3"
		tool(t, exec.Command(python, "-c", "import xarray, netCDF4").Run() == nil, "xarray with netCDF4")
		out, err := exec.Command(python, "-c", `
import json, sys, xarray
d = xarray.open_dataset(sys.argv[1], decode_times=False)
print(json.dumps({"dims": list(d["samples"].dims), "dtype": str(d["samples"].dtype), "last": d["samples"].values[2].tolist(),
 "time": d["time"].values.tolist(), "title": d.attrs["title"], "odd": d["odd"].values.tolist()}))`, path).Output()
		if err != nil {
			t.Fatalf("%v", err)
		}
		var got map[string]any
		if err := json.Unmarshal(out, &got); err != nil {
			t.Fatalf("%v: %s", err, out)
		}
		want := map[string]any{
			"dims": []any{"ping", "side", "sample"}, "dtype": "uint16", "last": []any{[]any{2.0, 1.0, 2.0}, []any{3.0, 40000.0, 65535.0}},
			"time": []any{1e9, 1e9 + 1.0/3, 1e9 + 2.0/3}, "title": "Tiefe 5 m, Kabel 12° schräg", "odd": []any{1.0, 2.0, 255.0},
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Error(diff)
		}
	})
}

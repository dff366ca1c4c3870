package pingfile_test

import (
	"archive/zip"
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"dryline/sim/dataset/cdf/cdftest"
)

// The Zarr file has what the netCDF file has: by the standard library for the samples of
// all pings, by xarray and GDAL for everything.
func TestZarrIsTheSameAsNetCDF(t *testing.T) {
	_, files, _ := fly(t, tiny(t))
	nc, packed := files.Content("pings-L1-450.nc"), files.Content("pings-L1-450.zarr.zip")
	if len(packed) == 0 || len(packed) > len(nc)/2 {
		t.Fatalf("%d bytes of Zarr, %d of netCDF", len(packed), len(nc))
	}
	z, err := zip.NewReader(bytes.NewReader(packed), int64(len(packed)))
	if err != nil {
		t.Fatal(err)
	}
	read := func(name string) []byte {
		f, err := z.Open(name)
		if err != nil {
			t.Fatal(err)
		}
		b, err := io.ReadAll(f)
		if err != nil {
			t.Fatal(err)
		}
		return b
	}
	f := cdftest.Read(t, nc, "samples")
	want := f.Vars["samples"].Values
	var about struct {
		Shape, Chunks []int
		Dtype         string
		Fill          any `json:"fill_value"`
	}
	if err := json.Unmarshal(read("samples/.zarray"), &about); err != nil {
		t.Fatal(err)
	}
	if about.Dtype != ">u2" || about.Shape[0] != f.Records || about.Fill != nil {
		t.Fatalf("%+v", about)
	}
	row := about.Shape[1] * about.Shape[2]
	for n := 0; n*about.Chunks[0] < f.Records; n++ {
		r, err := zlib.NewReader(bytes.NewReader(read(fmt.Sprintf("samples/%d.0.0", n))))
		if err != nil {
			t.Fatal(err)
		}
		b, err := io.ReadAll(r)
		if err != nil || len(b) != 2*row*about.Chunks[0] {
			t.Fatalf("chunk %d: %d bytes, %v", n, len(b), err)
		}
		for i := range min(about.Chunks[0], f.Records-n*about.Chunks[0]) * row {
			if got := float64(binary.BigEndian.Uint16(b[2*i:])); got != want[n*about.Chunks[0]*row+i] {
				t.Fatalf("chunk %d, sample %d: %v, want %v", n, i, got, want[n*about.Chunks[0]*row+i])
			}
		}
	}

	const python = "/usr/bin/python3"
	_, missing := exec.LookPath("gdalmdiminfo")
	if missing == nil {
		_, missing = exec.LookPath("ncdump")
	}
	if missing == nil {
		missing = exec.Command(python, "-c", "import xarray, netCDF4, zarr").Run()
	}
	if missing != nil {
		if os.Getenv("DRYLINE_REQUIRE_TOOLS") == "1" {
			t.Fatal("gdalmdiminfo, ncdump, or xarray, netCDF4 and zarr for /usr/bin/python3, are required by DRYLINE_REQUIRE_TOOLS=1")
		}
		t.Skip("gdalmdiminfo, ncdump, or xarray, netCDF4 and zarr for /usr/bin/python3, are not installed; DRYLINE_REQUIRE_TOOLS=1 makes this fail")
	}
	dir := t.TempDir()
	a, b := filepath.Join(dir, "a.nc"), filepath.Join(dir, "b.zarr.zip")
	for path, content := range map[string][]byte{a: nc, b: packed} {
		if err := os.WriteFile(path, content, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	out, err := exec.Command(python, "-W", "ignore", "-c", `
import sys, numpy, xarray as xr, zarr
n = xr.open_dataset(sys.argv[1])
z = xr.open_dataset(zarr.ZipStore(sys.argv[2], mode="r"), engine="zarr", consolidated=True)
xr.testing.assert_equal(n.drop_vars(["side_name", "object_name", "object_kind"]), z.drop_vars(["side_name", "object_name", "object_kind"]))
for v in n.variables:
    assert n[v].attrs.get("units") == z[v].attrs.get("units"), v
assert set(n.attrs) == set(z.attrs) and n.attrs["synthetic"] == "true"
assert list(n.side_name.values) == list(z.side_name.values) == [b"port", b"starboard"]
assert n.samples.dims == ("ping", "side", "sample") and n.samples.dtype == "uint16"
assert "label" in n and str(n.ping_time.dtype).startswith("datetime64")
for v, unit in dict(true_x="m", heading="degree", sample_interval="s", ground_range="m", true_sound_speed="m s-1", frequency="Hz", latitude="degrees_north").items():
    assert n[v].attrs["units"] == unit, v
for v in ("samples", "label", "object", "sediment", "true_x", "true_z", "altitude", "bottom_sample", "true_bottom_sample"):
    a = xr.open_dataset(sys.argv[1], mask_and_scale=False)[v].values.astype(float).ravel()
    print("sum", v, repr(float((a * (1 + numpy.arange(a.size) % 7)).sum())))
print("the same,", len(n.variables), "variables")`, a, b).CombinedOutput()
	if err != nil || !strings.Contains(string(out), "\nthe same") {
		t.Fatalf("xarray: %v\n%s", err, out)
	}
	// What xarray has is what our own reader of the format has, which TestTruthOfPings holds against
	// the engine.
	f = cdftest.Read(t, nc)
	for line := range strings.Lines(string(out)) {
		var name string
		var got, want float64
		if _, err := fmt.Sscanf(line, "sum %s %g", &name, &got); err != nil {
			continue
		}
		for i, v := range f.Vars[name].Values {
			want += v * float64(1+i%7)
		}
		if math.Abs(got-want) > 1e-9*math.Abs(want) || want == 0 {
			t.Errorf("%s sums up to %v by xarray, to %v in the file", name, got, want)
		}
	}
	out, err = exec.Command("ncdump", "-h", a).CombinedOutput()
	for _, want := range []string{
		fmt.Sprintf("ping = UNLIMITED ; // (%d currently)", f.Records), "ushort samples(ping, side, sample) ;", "ubyte label(ping, side, sample) ;", "int true_bottom_sample(ping, side) ;",
		`label:flag_meanings = "noise water floor object shadow layover surface" ;`, `:Conventions = "CF-1.11, ACDD-1.3" ;`, `:synthetic = "true" ;`, `true_x:units = "m" ;`,
	} {
		if err != nil || !strings.Contains(string(out), want) {
			t.Errorf("ncdump has no %q: %v\n%.3000s", want, err, out)
		}
	}
	out, err = exec.Command("gdalmdiminfo", `ZARR:"/vsizip/`+b+`"`).CombinedOutput()
	if err != nil || !strings.Contains(string(out), `"samples":`) || !strings.Contains(string(out), `"full_name": "/ping"`) {
		t.Errorf("GDAL: %v\n%.2000s", err, out)
	}
}

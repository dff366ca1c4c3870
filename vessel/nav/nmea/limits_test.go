package nmea

import (
	"bytes"
	"math"
	"testing"

	"pgregory.net/rapid"

	"dryline/vessel/nav"
	"dryline/vessel/nav/geodesy"
)

// anything draws numbers an instrument shows and numbers it never should.
func anything() *rapid.Generator[float64] {
	return rapid.OneOf(
		rapid.Float64Range(-1000, 1000),
		rapid.Float64(),
		rapid.SampledFrom([]float64{math.NaN(), math.Inf(1), math.Inf(-1), 99999.49, -99999.49, 2 * math.Pi, -1e-9}),
	)
}

// Whatever the displays show, every sentence is one: within 82 bytes ("NMEA
// Revealed" v2.24, gpsd project), printable, with a checksum an independent
// parser accepts.
func TestEverySentenceIsOne(t *testing.T) {
	src := place(t)
	rapid.Check(t, func(t *rapid.T) {
		number := func(name string) float64 { return anything().Draw(t, name) }
		bearing := func(name string) geodesy.TrueBearing { return geodesy.TrueBearing(number(name)) }
		r := &nav.Reading{
			Time:  rapid.Float64Range(0, 1e7).Draw(t, "time"),
			Valid: nav.Set(rapid.Uint16().Draw(t, "valid")),
			X:     number("x"), Y: number("y"), FixTime: rapid.Float64Range(0, 1e7).Draw(t, "fix time"),
			Quality:    nav.Quality(rapid.IntRange(0, 3).Draw(t, "quality")),
			Satellites: rapid.IntRange(-1, 1000).Draw(t, "satellites"), HDOP: number("hdop"),
			SpeedOverGround: number("speed"), Course: bearing("course"), Heading: bearing("heading"),
			RateOfTurn: number("turn"), Heave: number("heave"), Pitch: number("pitch"), Roll: number("roll"),
			CableOut: number("cable"), FishDepth: number("depth"), FishAltitude: number("altitude"),
			FishHeading: bearing("fish heading"), FishPitch: number("fish pitch"), FishRoll: number("fish roll"),
			WindSpeed: number("wind"), WindFrom: number("wind from"),
			TrueWindSpeed: number("true wind"), TrueWindFrom: bearing("true wind from"),
		}
		s := *src
		s.Plain = rapid.Bool().Draw(t, "plain")
		for _, k := range Kinds() {
			text := s.Append([]byte("before"), k, r)
			if !bytes.HasPrefix(text, []byte("before$")) {
				t.Fatalf("%s: got %q, want it appended", k, text)
			}
			for line := range bytes.SplitAfterSeq(text[len("before"):], []byte("\n")) {
				if len(line) == 0 {
					continue
				}
				body, ok := bytes.CutSuffix(line, []byte("\r\n"))
				if !ok || len(line) > MaxLength || body[0] != '$' {
					t.Fatalf("%s: got %q of %d bytes", k, line, len(line))
				}
				for _, c := range body {
					if c < ' ' || c > '~' {
						t.Fatalf("%s: got %q", k, line)
					}
				}
				star := len(body) - 3
				if bytes.IndexByte(body, '*') != star || Checksum(body[1:star]) != unhex(body[star+1])<<4|unhex(body[star+2]) {
					t.Fatalf("%s: got %q, want one right checksum", k, line)
				}
			}
		}
	})
}

func unhex(c byte) byte {
	if c >= 'A' {
		return c - 'A' + 10
	}
	return c - '0'
}

func TestAppendDoesNotAllocate(t *testing.T) {
	src, r := place(t), shown()
	buf := make([]byte, 0, 1024)
	for _, k := range Kinds() {
		if n := testing.AllocsPerRun(100, func() { buf = src.Append(buf[:0], k, r) }); n != 0 {
			t.Errorf("%s: got %v allocations, want none", k, n)
		}
	}
}

func BenchmarkAppendAll(b *testing.B) {
	src, r := place(b), shown()
	kinds := Kinds()
	buf := make([]byte, 0, 2048)
	for b.Loop() {
		buf = buf[:0]
		for _, k := range kinds {
			buf = src.Append(buf, k, r)
		}
	}
	b.SetBytes(int64(len(buf)))
}

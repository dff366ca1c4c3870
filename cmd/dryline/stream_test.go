package main

import (
	"bufio"
	"bytes"
	"context"
	"fmt"
	"io"
	"math"
	"net"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	parser "github.com/adrianmo/go-nmea"

	"dryline/scenarios"
	"dryline/sim/order"
	"dryline/vessel/nav"
	"dryline/vessel/nav/nmea"
)

const pond = `title: A pond
briefing: One short line over mud.
seed: 3
place: {name: Fenwarra Inlet, latitude_deg: 47.2, longitude_deg: -33.4}
seabed: {east_m: 300, north_m: 500, depth_m: 14, sediment: {base: mud}}
sonar:
  range_scale_m: 50
  samples: 200
  rays: 1
  channels:
    - {name: "450", frequency_khz: 450}
lines:
  - {name: L1, from: [100, 220], to: [100, 250]}
plan: {cable_out_m: 15, run_in_m: 20, run_out_m: 5}
`

// enough bounds a test that would otherwise hang.
const enough = 60 * time.Second

// pondPlayer is a player of a short exercise that never waits for the clock.
func pondPlayer(t *testing.T, rate float64, outlets ...outlet) *player {
	t.Helper()
	ex, err := scenarios.Parse("pond.yaml", []byte(pond))
	if err != nil {
		t.Fatal(err)
	}
	s, err := instruments(ex, 3)
	if err != nil {
		t.Fatal(err)
	}
	return &player{
		passage: s, kinds: nmea.Kinds(), rate: rate, outlets: outlets, wait: func(context.Context, float64) {},
		source: nmea.Source{Grid: ex.Place.Grid, Start: ex.Start, Plain: true},
	}
}

// play plays to the end, within bounds.
func play(t *testing.T, p *player) int {
	t.Helper()
	ctx, cancel := context.WithTimeout(context.Background(), enough)
	defer cancel()
	made := p.play(ctx)
	if got := p.passage.Ended(); got != order.ReasonFinished {
		t.Fatalf("got %q, want the exercise run to its end", got)
	}
	return made
}

// agrees checks a sentence of the fix against what the session showed.
func agrees(t *testing.T, line string, p *player, r nav.Reading) {
	t.Helper()
	parsed, err := parser.Parse(strings.TrimSpace(line))
	if err != nil {
		t.Fatalf("%q: %v", line, err)
	}
	rmc, ok := parsed.(parser.RMC)
	if !ok {
		return
	}
	lat, lon := p.source.Grid.ToLatLon(r.X, r.Y).Degrees()
	const half = 0.5e-6/60 + 1e-11 // of the last digit, degrees
	if math.Abs(rmc.Latitude-lat) > half || math.Abs(rmc.Longitude-lon) > half {
		t.Errorf("at %g s: got %.9f, %.9f, want %.9f, %.9f", r.Time, rmc.Latitude, rmc.Longitude, lat, lon)
	}
}

func TestStreamUDP(t *testing.T) {
	socket, err := net.ListenPacket("udp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer socket.Close()
	out, err := openUDP(socket.LocalAddr().String(), io.Discard)
	if err != nil {
		t.Fatal(err)
	}
	defer out.close()
	p := pondPlayer(t, 2, out)
	var shown []nav.Reading
	received := 0
	buf := make([]byte, 2*nmea.MaxLength)
	drain := func() {
		for received < int(out.sent) {
			socket.SetReadDeadline(time.Now().Add(enough))
			n, _, err := socket.ReadFrom(buf)
			if err != nil {
				t.Fatalf("after %d of %d sentences: %v", received, out.sent, err)
			}
			received++
			agrees(t, string(buf[:n]), p, shown[len(shown)-1])
		}
	}
	p.wait = func(context.Context, float64) {
		drain() // the last report's, so that none waits long enough to be lost
		shown = append(shown, p.passage.Reading())
	}
	made := play(t, p)
	drain()
	if made != received || received < 100 {
		t.Errorf("got %d of %d sentences", received, made)
	}
	for i, r := range shown {
		if want := float64(i+1) / 2; math.Abs(r.Time-want) > 1e-9 {
			t.Fatalf("report %d: got it at %g s, want %g", i, r.Time, want)
		}
	}
}

// Two clients: one leaves in the middle, the other hears all of it.
func TestStreamTCP(t *testing.T) {
	out, err := openTCP("127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer out.close()
	out.grace = enough
	leaver, stayer := dial(t, out), dial(t, out)
	p := pondPlayer(t, 1, out)
	var shown []nav.Reading
	lines := bufio.NewReader(stayer)
	received := 0
	listen := func() { // to a report
		for range nmeaLines {
			line, err := lines.ReadString('\n')
			if err != nil {
				t.Fatalf("after %d sentences: %v", received, err)
			}
			received++
			agrees(t, line, p, shown[len(shown)-1])
		}
	}
	p.wait = func(context.Context, float64) {
		if len(shown) > 0 {
			listen()
		}
		if shown = append(shown, p.passage.Reading()); len(shown) == 5 {
			leaver.Close()
		}
	}
	made := play(t, p)
	listen()
	out.close()
	if made != received {
		t.Errorf("got %d of %d sentences", received, made)
	}
	if out.served != 2 || out.cut != 1 {
		t.Errorf("got %d clients, %d gone early, want 2, 1", out.served, out.cut)
	}
}

// nmeaLines is how many sentences there are to a report of every kind: MWV has
// two, XDR three.
const nmeaLines = 8 + 2 + 3

func dial(t *testing.T, out *tcpOutlet) *net.TCPConn {
	t.Helper()
	before := clients(out)
	conn, err := net.Dial("tcp", out.listener.Addr().String())
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { conn.Close() })
	conn.SetDeadline(time.Now().Add(enough))
	for until := time.Now().Add(enough); clients(out) == before; time.Sleep(time.Millisecond) {
		if time.Now().After(until) {
			t.Fatal("the client was not served")
		}
	}
	return conn.(*net.TCPConn)
}

func clients(out *tcpOutlet) int {
	out.mu.Lock()
	defer out.mu.Unlock()
	return out.served
}

// A client that never reads loses sentences, or is cut off; the stream goes on
// to the end of the exercise.
func TestStreamDeafClient(t *testing.T) {
	for _, row := range []struct {
		name     string
		patience time.Duration
		cut      int
	}{
		{"is borne with", time.Hour, 0},
		{"is cut off", time.Millisecond, 1},
	} {
		t.Run(row.name, func(t *testing.T) {
			out, err := openTCP("127.0.0.1:0")
			if err != nil {
				t.Fatal(err)
			}
			defer out.close()
			out.patience, out.grace = row.patience, 10*time.Millisecond
			here, there := net.Pipe() // has no buffer: not one sentence goes
			defer there.Close()
			out.serve(here)
			p := pondPlayer(t, 10, out)
			if row.cut > 0 {
				p.wait = func(context.Context, float64) {
					if len(out.clients) > 0 && p.passage.Tick() == 50 {
						<-out.clients[0].done // whose patience has begun with the first report
					}
				}
			}
			made := play(t, p)
			out.close()
			if out.cut != row.cut || out.sent != 0 {
				t.Errorf("got %d cut off, %d sent, want %d and none", out.cut, out.sent, row.cut)
			}
			if row.cut == 0 && out.dropped != int64(made) {
				t.Errorf("got %d dropped, want all %d", out.dropped, made)
			}
		})
	}
}

// A real socket whose client never reads.
func TestStreamDeafSocket(t *testing.T) {
	out, err := openTCP("127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer out.close()
	out.patience, out.grace = time.Hour, 10*time.Millisecond
	dial(t, out).SetReadBuffer(4 << 10)
	p := pondPlayer(t, 10, out)
	p.kinds = append(p.kinds, p.kinds...) // more than the sockets hold
	p.kinds = append(p.kinds, p.kinds...)
	made := play(t, p)
	out.close()
	if out.dropped == 0 || out.sent+out.dropped != int64(made) {
		t.Errorf("got %d sent, %d dropped of %d, want some dropped and all counted", out.sent, out.dropped, made)
	}
}

// The oldest go first.
func TestDripDropsOldest(t *testing.T) {
	let := make(chan struct{})
	var got bytes.Buffer
	started := make(chan struct{}, 10)
	d := newDrip(3, func(b []byte) error { started <- struct{}{}; <-let; got.Write(b); return nil })
	d.put([][]byte{[]byte("0")})
	<-started // the writer has it, and the queue is empty
	for i := 1; i < 9; i++ {
		d.put([][]byte{fmt.Append(nil, i)})
	}
	close(let)
	d.finish(enough, func() {})
	if got.String() != "0678" || d.sent.Load() != 4 || d.dropped.Load() != 5 {
		t.Errorf("got %q, %d sent, %d dropped, want 0678, 4, 5", got.String(), d.sent.Load(), d.dropped.Load())
	}
}

func TestStreamInterrupted(t *testing.T) {
	p := pondPlayer(t, 1)
	ctx, cancel := context.WithCancel(context.Background())
	p.wait = func(_ context.Context, due float64) {
		if due > 2.5 {
			cancel()
		}
	}
	if made := p.play(ctx); made != 2*nmeaLines || p.passage.Ended() != order.ReasonInterrupted {
		t.Errorf("got %d sentences, %q, want two reports of %d, interrupted", made, p.passage.Ended(), nmeaLines)
	}
}

func TestStreamPortInUse(t *testing.T) {
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer listener.Close()
	file := filepath.Join(t.TempDir(), "pond.yaml")
	if err := os.WriteFile(file, []byte(pond), 0o600); err != nil {
		t.Fatal(err)
	}
	var stdout, stderr bytes.Buffer
	status := Main([]string{"stream", file, "--tcp", listener.Addr().String()}, &stdout, &stderr)
	if status != exitFailure || strings.Count(stderr.String(), "\n") != 1 || !strings.Contains(stderr.String(), "--tcp") {
		t.Errorf("got status %d, %q, want 1 and one line about --tcp", status, stderr.String())
	}
}

func TestStreamAddress(t *testing.T) {
	for _, row := range []struct {
		text, want string
		own        bool
	}{
		{"10110", "127.0.0.1:10110", true},
		{":10110", "127.0.0.1:10110", true},
		{"localhost:2000", "localhost:2000", true},
		{"[::1]:2000", "[::1]:2000", true},
		{"0.0.0.0:2000", "0.0.0.0:2000", false},
		{"192.0.2.7:2000", "192.0.2.7:2000", false}, // TEST-NET-1, RFC 5737
		{"bridge.example:2000", "bridge.example:2000", false},
	} {
		got, err := address(row.text, 1)
		if err != nil || got != row.want || loopback(got) != row.own {
			t.Errorf("%s: got %s, %v, own %t, want %s, own %t", row.text, got, err, loopback(got), row.want, row.own)
		}
	}
	for _, bad := range []string{"", "0", "65536", "-1", "port", "host", "::1:10110", "127.0.0.1"} {
		if got, err := address(bad, 1); err == nil {
			t.Errorf("%q: got %s, want an error", bad, got)
		}
	}
}

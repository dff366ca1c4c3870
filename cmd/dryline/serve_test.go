package main

import (
	"bufio"
	"bytes"
	"compress/gzip"
	"context"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// tinyWasm is the smallest module there is: the preamble alone (WebAssembly Core
// Specification 1.0, 5.5.16), here with a custom section that compresses well.
var tinyWasm = append([]byte("\x00asm\x01\x00\x00\x00\x00\xc8\x01\x01x"), bytes.Repeat([]byte{'.'}, 198)...)

func tinySite(t *testing.T, own bool) *site {
	t.Helper()
	s, err := newSite(bundle{wasm: tinyWasm, glue: []byte("// glue")}, own)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// ask sends a request to a site and returns what it answers.
func ask(s http.Handler, method, path, host string, header http.Header) *http.Response {
	r := httptest.NewRequest(method, "http://"+host+path, nil)
	r.Host = host
	for k, v := range header {
		r.Header[k] = v
	}
	w := httptest.NewRecorder()
	s.ServeHTTP(w, r)
	return w.Result()
}

// Methods and statuses are those of RFC 9110 (9.1, 15.5.6, 15.5.20).
func TestServeAnswers(t *testing.T) {
	for _, row := range []struct {
		name         string
		method, path string
		status       int
		kind         string
	}{
		{"page", "GET", "/", 200, "text/html; charset=utf-8"},
		{"script", "GET", "/page.js", 200, "text/javascript; charset=utf-8"},
		{"script of the sessions", "GET", "/sessions.js", 200, "text/javascript; charset=utf-8"},
		{"style", "GET", "/style.css", 200, "text/css; charset=utf-8"},
		{"glue", "GET", "/wasm_exec.js", 200, "text/javascript; charset=utf-8"},
		{"bundle", "GET", "/dryline.wasm", 200, "application/wasm"},
		{"head", "HEAD", "/dryline.wasm", 200, "application/wasm"},
		{"elsewhere", "GET", "/etc/passwd", 404, ""},
		{"above", "GET", "/../serve.go", 404, ""},
		{"query", "GET", "/?x=1", 200, "text/html; charset=utf-8"},
		{"post", "POST", "/", 405, ""},
		{"put", "PUT", "/dryline.wasm", 405, ""},
		{"delete", "DELETE", "/", 405, ""},
		{"options", "OPTIONS", "/", 405, ""},
	} {
		t.Run(row.name, func(t *testing.T) {
			got := ask(tinySite(t, true), row.method, row.path, "127.0.0.1:8474", nil)
			if got.StatusCode != row.status {
				t.Errorf("got status %d, want %d", got.StatusCode, row.status)
			}
			if row.kind != "" && got.Header.Get("Content-Type") != row.kind {
				t.Errorf("got kind %q, want %q", got.Header.Get("Content-Type"), row.kind)
			}
			if allow := got.Header.Get("Allow"); row.status == 405 && allow != "GET, HEAD" {
				t.Errorf("got Allow %q, want GET, HEAD", allow)
			}
			// On every answer, a refusal too.
			for key, want := range map[string]string{
				"X-Content-Type-Options":     "nosniff",
				"Referrer-Policy":            "no-referrer",
				"Cross-Origin-Opener-Policy": "same-origin",
				"Cache-Control":              "no-cache",
			} {
				if have := got.Header.Get(key); have != want {
					t.Errorf("%s: got %q, want %q", key, have, want)
				}
			}
			allowed := map[string]string{}
			for d := range strings.SplitSeq(got.Header.Get("Content-Security-Policy"), ";") {
				name, sources, _ := strings.Cut(strings.TrimSpace(d), " ")
				allowed[name] = sources
			}
			for name, want := range map[string]string{
				"default-src": "'self'", "script-src": "'self' 'wasm-unsafe-eval'", "style-src": "'self'", "connect-src": "'self'",
				"object-src": "'none'", "frame-ancestors": "'none'", "base-uri": "'none'",
			} {
				if allowed[name] != want {
					t.Errorf("policy %s: got %q, want %q", name, allowed[name], want)
				}
			}
			if body, _ := io.ReadAll(got.Body); row.method == "HEAD" && len(body) > 0 {
				t.Errorf("got %d bytes for HEAD, want none", len(body))
			}
		})
	}
}

// A page elsewhere whose name is made to lead here sends its own name as Host.
func TestServeHost(t *testing.T) {
	for _, row := range []struct {
		host string
		own  bool // a name of this computer
	}{
		{"localhost", true}, {"localhost:8474", true}, {"LOCALHOST:1", true},
		{"127.0.0.1", true}, {"127.0.0.1:8474", true}, {"[::1]", true}, {"[::1]:8474", true},
		{"rebound.example", false}, {"rebound.example:8474", false}, {"localhost.rebound.example", false},
		{"127.0.0.1.rebound.example:8474", false}, {"192.0.2.7:8474", false}, {"127.0.0.2", false}, {"", false},
		{"localhost:", false}, {"localhost:x", false}, {"::1", false}, {"[::1", false}, {"localhost:1:2", false},
	} {
		for _, own := range []bool{true, false} {
			want := http.StatusOK
			if own && !row.own {
				want = http.StatusMisdirectedRequest
			}
			r := httptest.NewRequest("GET", "/", nil)
			r.Host = row.host
			w := httptest.NewRecorder()
			tinySite(t, own).ServeHTTP(w, r)
			if w.Code != want {
				t.Errorf("host %q, this computer only %t: got status %d, want %d", row.host, own, w.Code, want)
			}
		}
	}
}

// Which codings are acceptable: RFC 9110, 12.5.3, whose examples these rows begin
// with.
func TestServeGzip(t *testing.T) {
	for _, row := range []struct {
		accept []string
		want   bool
	}{
		{[]string{"compress, gzip"}, true},
		{[]string{""}, false},
		{[]string{"*"}, true},
		{[]string{"compress;q=0.5, gzip;q=1.0"}, true},
		{[]string{"gzip;q=1.0, identity; q=0.5, *;q=0"}, true},
		{nil, false},
		{[]string{"gzip;q=0"}, false},
		{[]string{"*;q=0"}, false},
		{[]string{"gzip;q=0, *"}, false},
		{[]string{"br", "GZIP"}, true},
		{[]string{"gzipped"}, false},
		{[]string{"gzip;q=x"}, false},
	} {
		s := tinySite(t, true)
		header := http.Header{}
		if row.accept != nil {
			header["Accept-Encoding"] = row.accept
		}
		got := ask(s, "GET", "/dryline.wasm", "localhost", header)
		body, err := io.ReadAll(got.Body)
		if err != nil {
			t.Fatal(err)
		}
		zipped := got.Header.Get("Content-Encoding") == "gzip"
		if zipped != row.want {
			t.Errorf("%q: got gzip %t, want %t", row.accept, zipped, row.want)
		}
		if zipped {
			if len(body) >= len(tinyWasm) {
				t.Errorf("got %d bytes of %d, want fewer", len(body), len(tinyWasm))
			}
			z, err := gzip.NewReader(bytes.NewReader(body))
			if err != nil {
				t.Fatal(err)
			}
			if body, err = io.ReadAll(z); err != nil {
				t.Fatal(err)
			}
		}
		if !bytes.Equal(body, tinyWasm) {
			t.Errorf("%q: got another bundle", row.accept)
		}
		if vary := got.Header.Get("Vary"); vary != "Accept-Encoding" {
			t.Errorf("%q: got Vary %q, want Accept-Encoding", row.accept, vary)
		}

		// Asked again with its tag, it says that nothing has changed; the tag of
		// the other form is not its own (RFC 9110, 8.8.3).
		tag := got.Header.Get("ETag")
		header.Set("If-None-Match", tag)
		if again := ask(s, "GET", "/dryline.wasm", "localhost", header); again.StatusCode != http.StatusNotModified {
			t.Errorf("%q: got status %d for tag %s, want 304", row.accept, again.StatusCode, tag)
		}
		other := strings.TrimSuffix(tag, `-gzip"`)
		if other == tag {
			other = strings.TrimSuffix(tag, `"`) + "-gzip"
		}
		header.Set("If-None-Match", other+`"`)
		if again := ask(s, "GET", "/dryline.wasm", "localhost", header); again.StatusCode != http.StatusOK {
			t.Errorf("%q: got status %d for the other form's tag, want 200", row.accept, again.StatusCode)
		}
	}
}

// served runs the server itself on a free port until the test ends.
func served(t *testing.T, s *site) string {
	t.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	ended := make(chan error, 1)
	go func() { ended <- serve(ctx, newServer(s), l) }()
	t.Cleanup(func() {
		cancel()
		select {
		case err := <-ended:
			if err != nil {
				t.Errorf("got %v at the end, want none", err)
			}
		case <-time.After(enough):
			t.Error("the server does not end")
		}
	})
	return l.Addr().String()
}

func TestServeLimits(t *testing.T) {
	at := served(t, tinySite(t, true))
	for _, row := range []struct {
		name, request string
		status        int
	}{
		{"plain", "GET / HTTP/1.1\r\nHost: localhost\r\n\r\n", 200},
		{"no host", "GET / HTTP/1.1\r\n\r\n", 400},
		{"long header", "GET / HTTP/1.1\r\nHost: localhost\r\nX: " + strings.Repeat("x", 64<<10) + "\r\n\r\n", 431}, // RFC 6585, 5
		{"large body", fmt.Sprintf("GET / HTTP/1.1\r\nHost: localhost\r\nContent-Length: %d\r\n\r\n", mostBody+1), 413},
	} {
		t.Run(row.name, func(t *testing.T) {
			conn, err := net.Dial("tcp", at)
			if err != nil {
				t.Fatal(err)
			}
			defer conn.Close()
			conn.SetDeadline(time.Now().Add(enough))
			go io.WriteString(conn, row.request) // may be cut off
			got, err := http.ReadResponse(bufio.NewReader(conn), nil)
			if err != nil {
				t.Fatal(err)
			}
			if got.StatusCode != row.status {
				t.Errorf("got status %d, want %d", got.StatusCode, row.status)
			}
		})
	}
	s := newServer(tinySite(t, true))
	for name, limit := range map[string]time.Duration{
		"header": s.ReadHeaderTimeout, "read": s.ReadTimeout, "write": s.WriteTimeout, "idle": s.IdleTimeout,
	} {
		if limit <= 0 {
			t.Errorf("%s: got no limit of time", name)
		}
	}
}

// A client that never ends its request does not keep the server.
func TestServeEnds(t *testing.T) {
	at := served(t, tinySite(t, true))
	conn, err := net.Dial("tcp", at)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { conn.Close() })
	if _, err := io.WriteString(conn, "GET / HTTP/1.1\r\nHost:"); err != nil {
		t.Fatal(err)
	}
}

func TestServePortInUse(t *testing.T) {
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	var stdout, stderr bytes.Buffer
	status := Main([]string{"serve", "--listen", l.Addr().String()}, &stdout, &stderr)
	if status != exitFailure || stdout.Len() > 0 || strings.Count(stderr.String(), "\n") != 1 || !strings.Contains(stderr.String(), "in use") {
		t.Errorf("got status %d, %q, %q, want 1 and one line", status, stdout.String(), stderr.String())
	}
}

// What --listen means, and whether it stays on this computer.
func TestServeListen(t *testing.T) {
	for _, row := range []struct {
		listen, at string
		own        bool
	}{
		{"8474", "127.0.0.1:8474", true},
		{":8474", "127.0.0.1:8474", true},
		{"localhost:8474", "localhost:8474", true},
		{"[::1]:8474", "[::1]:8474", true},
		{"0", "127.0.0.1:0", true},
		{"0.0.0.0:8474", "0.0.0.0:8474", false},
		{"[::]:8474", "[::]:8474", false},
		{"192.0.2.7:8474", "192.0.2.7:8474", false}, // TEST-NET-1, RFC 5737
	} {
		got, err := address(row.listen, 0)
		if err != nil || got != row.at || loopback(got) != row.own {
			t.Errorf("%s: got %s, %v, this computer %t, want %s, %t", row.listen, got, err, loopback(got), row.at, row.own)
		}
	}
	if at := newServeCommand().Flags().Lookup("listen").DefValue; !loopback(at) {
		t.Errorf("got the default %s, want this computer", at)
	}
}

// Without the Go tool nothing can be built, which one sentence says.
func TestServeWithoutGo(t *testing.T) {
	t.Setenv("PATH", t.TempDir())
	t.Setenv("XDG_CACHE_HOME", t.TempDir())
	var stdout, stderr bytes.Buffer
	status := Main([]string{"serve", "--listen", "0"}, &stdout, &stderr)
	if want := "dryline: " + errNoGo.Error() + "\n"; status != exitFailure || stdout.Len() > 0 || stderr.String() != want {
		t.Errorf("got status %d, %q, %q, want 1, nothing and %q", status, stdout.String(), stderr.String(), want)
	}
}

func TestReadBundle(t *testing.T) {
	dir := t.TempDir()
	write := func(name string, data []byte) string {
		name = filepath.Join(dir, name)
		if err := os.WriteFile(name, data, 0o600); err != nil {
			t.Fatal(err)
		}
		return name
	}
	good, bad := write("good.wasm", tinyWasm), write("bad.wasm", []byte("\x7fELF\x02\x01\x01\x00"))
	t.Setenv("PATH", "")
	if _, err := readBundle(t.Context(), good); err == nil || !strings.Contains(err.Error(), glueName) {
		t.Errorf("without glue: got %v, want an error about %s", err, glueName)
	}
	write(glueName, []byte("// beside"))
	b, err := readBundle(t.Context(), good)
	if err != nil || !bytes.Equal(b.wasm, tinyWasm) || string(b.glue) != "// beside" {
		t.Errorf("got %d bytes, glue %q, %v", len(b.wasm), b.glue, err)
	}
	for _, name := range []string{bad, filepath.Join(dir, "none.wasm")} {
		if _, err := readBundle(t.Context(), name); err == nil {
			t.Errorf("%s: got no error", name)
		}
	}
}

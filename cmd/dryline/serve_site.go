package main

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"embed"
	"fmt"
	"net"
	"net/http"
	"strconv"
	"strings"
	"time"
)

//go:embed page/index.html page/page.js page/sessions.js page/style.css
var pageFiles embed.FS

// mostBody bounds what comes with a request: a page has nothing to send.
const mostBody = 1 << 10

// policy lets the page run what is served here and nothing else. The window
// compiles WebAssembly, and hands its files over as blobs.
const policy = "default-src 'self'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; img-src 'self' blob: data:; " +
	"connect-src 'self'; worker-src 'self' blob:; object-src 'none'; frame-ancestors 'none'; base-uri 'none'"

// site answers with the page and the bundle.
type site struct {
	files map[string]file
	own   bool // only this computer is served, by its own names
}

// file is one file served, and its gzip form if it has one.
type file struct {
	kind          string
	plain, zipped []byte
	tag           string
}

func newSite(b bundle, own bool) (*site, error) {
	s := &site{files: map[string]file{}, own: own}
	for _, f := range []struct {
		path, from, kind string
		data             []byte
		zip              bool
	}{
		{"/", "page/index.html", "text/html; charset=utf-8", nil, false},
		{"/page.js", "page/page.js", "text/javascript; charset=utf-8", nil, false},
		{"/sessions.js", "page/sessions.js", "text/javascript; charset=utf-8", nil, false},
		{"/style.css", "page/style.css", "text/css; charset=utf-8", nil, false},
		{"/wasm_exec.js", "", "text/javascript; charset=utf-8", b.glue, false},
		{"/dryline.wasm", "", "application/wasm", b.wasm, true},
	} {
		if f.from != "" {
			data, err := pageFiles.ReadFile(f.from)
			if err != nil {
				return nil, err
			}
			f.data = data
		}
		made := file{kind: f.kind, plain: f.data, tag: fmt.Sprintf("%x", sha256.Sum256(f.data))[:32]}
		if f.zip {
			var zipped bytes.Buffer
			w := gzip.NewWriter(&zipped)
			if _, err := w.Write(f.data); err != nil {
				return nil, err
			}
			if err := w.Close(); err != nil {
				return nil, err
			}
			made.zipped = zipped.Bytes()
		}
		s.files[f.path] = made
	}
	return s, nil
}

// ServeHTTP implements [http.Handler].
func (s *site) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	h := w.Header()
	h.Set("Content-Security-Policy", policy)
	h.Set("X-Content-Type-Options", "nosniff")
	h.Set("Referrer-Policy", "no-referrer")
	h.Set("Cross-Origin-Opener-Policy", "same-origin")
	h.Set("Cache-Control", "no-cache")
	f, known := s.files[r.URL.Path]
	switch {
	case s.own && !ownName(r.Host):
		// Another name that leads here is a page elsewhere reaching in.
		http.Error(w, "This computer only answers to its own names.", http.StatusMisdirectedRequest)
	case r.Method != http.MethodGet && r.Method != http.MethodHead:
		h.Set("Allow", "GET, HEAD")
		http.Error(w, "There is nothing to change here.", http.StatusMethodNotAllowed)
	case r.ContentLength > mostBody:
		h.Set("Connection", "close")
		http.Error(w, "There is nothing to send here.", http.StatusRequestEntityTooLarge)
	case !known:
		http.Error(w, "There is no such page.", http.StatusNotFound)
	default:
		f.serve(w, r)
	}
}

func (f *file) serve(w http.ResponseWriter, r *http.Request) {
	h, data, tag := w.Header(), f.plain, f.tag
	h.Set("Content-Type", f.kind)
	if f.zipped != nil {
		h.Set("Vary", "Accept-Encoding")
		if takesGzip(r.Header.Values("Accept-Encoding")) {
			h.Set("Content-Encoding", "gzip")
			// The page shows how much of it has come.
			h.Set("X-Whole-Length", strconv.Itoa(len(f.plain)))
			data, tag = f.zipped, tag+"-gzip"
		}
	}
	h.Set("ETag", `"`+tag+`"`)
	http.ServeContent(w, r, "", time.Time{}, bytes.NewReader(data))
}

// takesGzip reports whether gzip is among what a client accepts (RFC 9110,
// 12.5.3): named, or by a star, and not with a weight of nothing.
func takesGzip(accepts []string) bool {
	named, star := -1.0, -1.0
	for _, part := range strings.Split(strings.Join(accepts, ","), ",") {
		name, params, _ := strings.Cut(part, ";")
		weight := 1.0
		if q, ok := strings.CutPrefix(strings.ToLower(strings.TrimSpace(params)), "q="); ok {
			v, err := strconv.ParseFloat(q, 64)
			if err != nil {
				continue
			}
			weight = v
		}
		switch strings.ToLower(strings.TrimSpace(name)) {
		case "gzip", "x-gzip":
			named = max(named, weight)
		case "*":
			star = max(star, weight)
		}
	}
	if named >= 0 {
		return named > 0
	}
	return star > 0
}

// ownName reports whether a Host header names this computer itself, with any
// port or none. A name that merely resolves to it does not.
func ownName(host string) bool {
	if name, port, err := net.SplitHostPort(host); err == nil {
		if _, err := strconv.ParseUint(port, 10, 16); err != nil {
			return false
		}
		host = name
	} else if strings.HasPrefix(host, "[") && strings.HasSuffix(host, "]") {
		host = host[1 : len(host)-1]
	} else if strings.Contains(host, ":") {
		return false
	}
	switch strings.ToLower(host) {
	case "localhost", "127.0.0.1", "::1":
		return true
	}
	return false
}

package main

import (
	"context"
	"errors"
	"fmt"
	"net"
	"net/http"
	"os"
	"time"

	"github.com/spf13/cobra"
)

// servePort is where the page is served unless --listen says otherwise.
const servePort = "8474"

// serving holds what the command line of serve says.
type serving struct {
	listen, bundle string
	open           bool
}

func newServeCommand() *cobra.Command {
	var o serving
	c := &cobra.Command{
		Use:   "serve",
		Short: "Serve the trainer window to a browser",
		Long: `Serve the trainer window as a page for a browser with WebAssembly and WebGL.

The window is built for the browser by the Go tool, from the module's directory
and into the user's cache directory; --bundle takes one built before, with the
wasm_exec.js of the same Go release beside it. The page asks nothing of any
other computer, and keeps its settings in the browser; sessions leave it as
downloads and come back as uploads.

Without a host in --listen only this computer is served, and only by the names
localhost, 127.0.0.1 and [::1]. Ctrl-C ends it.

Training aid with synthetic data. Not for navigation.`,
		Example: `  dryline serve --open
  dryline serve --listen 8080 --bundle dryline-desk.wasm`,
		Args: flagsOnly,
		RunE: func(c *cobra.Command, _ []string) error { return o.run(c) },
	}
	f := c.Flags()
	f.StringVar(&o.listen, "listen", "127.0.0.1:"+servePort, "serve at [host:]port; port 0 is any free one")
	f.StringVar(&o.bundle, "bundle", "", "serve this WebAssembly file instead of building one")
	f.BoolVar(&o.open, "open", false, "open the page in the browser")
	return c
}

func (o *serving) run(c *cobra.Command) error {
	at, err := address(o.listen, 0)
	if err != nil {
		return usagef("--listen: %w", err)
	}
	ctx, stop := untilEnded()
	defer stop()

	// First the port, so that one in use is told before a long build.
	listener, err := net.Listen("tcp", at)
	if err != nil {
		return fmt.Errorf("--listen %s: %w", at, err)
	}
	defer listener.Close()
	b, err := o.find(ctx, c)
	if ctx.Err() != nil {
		return errors.New("interrupted while building")
	}
	if err != nil {
		return err
	}
	own := loopback(listener.Addr().String())
	if !own {
		warn(c.ErrOrStderr(), at+" is beyond this computer: whoever reaches it can load the page")
	}
	site, err := newSite(b, own)
	if err != nil {
		return err
	}
	where := "http://" + listener.Addr().String() + "/"
	fmt.Fprintf(c.OutOrStdout(), "Serving the trainer window at %s\n", where)
	if o.open {
		if a, ok := listener.Addr().(*net.TCPAddr); ok && a.IP.IsUnspecified() { // every address, so this computer's too
			where = fmt.Sprintf("http://localhost:%d/", a.Port)
		}
		if err := openBrowser(where); err != nil {
			warn(c.ErrOrStderr(), "--open: "+err.Error())
		}
	}
	return serve(ctx, newServer(site), listener)
}

// find takes the bundle given, or builds one.
func (o *serving) find(ctx context.Context, c *cobra.Command) (bundle, error) {
	if o.bundle != "" {
		return readBundle(ctx, o.bundle)
	}
	cache, err := os.UserCacheDir()
	if err != nil {
		return bundle{}, fmt.Errorf("nowhere to build: %w", err)
	}
	return buildBundle(ctx, cache, c.ErrOrStderr())
}

// newServer bounds what a client may take of time and memory. A page is small
// requests and one large answer.
func newServer(h http.Handler) *http.Server {
	return &http.Server{
		Handler:           http.MaxBytesHandler(h, mostBody),
		ReadHeaderTimeout: 5 * time.Second,
		ReadTimeout:       10 * time.Second,
		WriteTimeout:      2 * time.Minute, // the bundle over a slow link
		IdleTimeout:       time.Minute,
		MaxHeaderBytes:    16 << 10,
	}
}

// serve answers until the context is done; then what is being answered may
// finish, within reason.
func serve(ctx context.Context, s *http.Server, l net.Listener) error {
	failed := make(chan error, 1)
	go func() { failed <- s.Serve(l) }()
	select {
	case err := <-failed:
		return err
	case <-ctx.Done():
	}
	grace, cancel := context.WithTimeout(context.Background(), 2*time.Second)
	defer cancel()
	if s.Shutdown(grace) != nil {
		s.Close() // a slow client does not keep us
	}
	return nil
}

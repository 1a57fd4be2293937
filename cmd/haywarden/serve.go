package main

import (
	"context"
	"errors"
	"fmt"
	"net"
	"net/http"
	"net/url"
	"time"

	"github.com/spf13/cobra"

	"haywarden/web"
)

func newServeCommand(m *Main) *cobra.Command {
	var location, listen string
	c := &cobra.Command{
		Use:     "serve",
		Short:   "Serve the pages of your book on this machine",
		Long:    "Serves the pages of the book on this machine until you press Ctrl-C.",
		Example: "  haywarden serve\n  haywarden serve --book ~/stands.book --listen 127.0.0.1:9000",
		Args:    cobra.NoArgs,
		RunE: func(c *cobra.Command, _ []string) (err error) {
			address, err := loopback(listen)
			if err != nil {
				return err
			}
			l, err := listenOn(c.Context(), address)
			if err != nil {
				return err
			}
			defer func() { err = errors.Join(err, ignoreClosed(l.Close())) }()
			o, done, err := openOffice(c.Context(), m, location)
			if err != nil {
				return err
			}
			defer func() { err = errors.Join(err, done()) }()
			fmt.Fprintf(m.Stdout, "The pages are at http://%s/round — press Ctrl-C to end.\n", l.Addr())
			return serve(c.Context(), l, web.New(o, adviser(), web.Options{Log: m.Log}).Handler())
		},
	}
	bookFlag(c, &location)
	c.Flags().StringVar(&listen, "listen", defaultListen, "address to serve on; only this machine until accounts exist")
	return c
}

const defaultListen = "127.0.0.1:8426"

// loopback refuses addresses that others could reach: until accounts exist there is no sign-in.
func loopback(listen string) (string, error) {
	host, _, err := net.SplitHostPort(listen)
	if err != nil {
		return "", usage("--listen %q: want host:port, such as %s", listen, defaultListen)
	}
	if host == "localhost" {
		return listen, nil
	}
	if ip := net.ParseIP(host); ip == nil || !ip.IsLoopback() {
		return "", usage("--listen %q: only this machine is served until accounts exist; use 127.0.0.1", listen)
	}
	return listen, nil
}

func listenOn(ctx context.Context, address string) (net.Listener, error) {
	l, err := (&net.ListenConfig{}).Listen(ctx, "tcp", address)
	if err != nil {
		return nil, fmt.Errorf("serve on %s: %w; another program may hold the port: end it, or choose another with --listen 127.0.0.1:8427", address, err)
	}
	return l, nil
}

const (
	headerTime   = 5 * time.Second
	shutdownTime = 3 * time.Second
)

// local answers only what was sent to this machine by a name of its own. Without it a page from elsewhere
// could give its own name this machine's address, and have the browser read the book to it.
func local(h http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		host := (&url.URL{Host: r.Host}).Hostname()
		if ip := net.ParseIP(host); host != "localhost" && (ip == nil || !ip.IsLoopback()) {
			http.Error(w, "These pages are served to this machine only, as http://localhost or http://127.0.0.1.", http.StatusMisdirectedRequest)
			return
		}
		h.ServeHTTP(w, r)
	})
}

// serve answers until the context ends, then lets running answers finish.
func serve(ctx context.Context, l net.Listener, h http.Handler) error {
	s := &http.Server{Handler: local(h), ReadHeaderTimeout: headerTime}
	failed := make(chan error, 1)
	go func() { failed <- s.Serve(l) }()
	select {
	case err := <-failed:
		return fmt.Errorf("serve: %w", err)
	case <-ctx.Done():
	}
	stop, cancel := context.WithTimeout(context.WithoutCancel(ctx), shutdownTime)
	defer cancel()
	if err := s.Shutdown(stop); err != nil {
		return fmt.Errorf("end serving: %w", err)
	}
	return nil
}

func ignoreClosed(err error) error {
	if errors.Is(err, net.ErrClosed) {
		return nil
	}
	return err
}

package main

import (
	"errors"
	"fmt"

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

package web

import (
	"compress/gzip"
	"net/http"
	"strings"
	"sync"
)

// packers are kept for reuse: each holds a quarter of a megabyte.
var packers = sync.Pool{New: func() any { return gzip.NewWriter(nil) }}

// packed sends text compressed to whoever takes it. Fonts and PDFs are packed in themselves.
func packed(h http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		w.Header().Add("Vary", "Accept-Encoding")
		text := !strings.HasSuffix(r.URL.Path, ".woff2") && !strings.HasSuffix(r.URL.Path, ".pdf")
		if !text || r.Header.Get("Range") != "" || !strings.Contains(r.Header.Get("Accept-Encoding"), "gzip") {
			h.ServeHTTP(w, r)
			return
		}
		z := packers.Get().(*gzip.Writer)
		z.Reset(w)
		p := &packing{ResponseWriter: w, z: z}
		h.ServeHTTP(p, r)
		if p.began && !p.bare {
			if err := z.Close(); err != nil {
				return // the reader has gone
			}
		}
		packers.Put(z)
	})
}

// packing compresses what has a body.
type packing struct {
	http.ResponseWriter
	z           *gzip.Writer
	began, bare bool
}

// WriteHeader implements [http.ResponseWriter].
func (p *packing) WriteHeader(status int) {
	if !p.began {
		p.began = true
		p.bare = status == http.StatusNotModified || status == http.StatusNoContent || status >= 300 && status < 400
		if !p.bare {
			p.Header().Del("Content-Length")
			p.Header().Set("Content-Encoding", "gzip")
		}
	}
	p.ResponseWriter.WriteHeader(status)
}

// Write implements [http.ResponseWriter].
func (p *packing) Write(b []byte) (int, error) {
	if !p.began {
		p.WriteHeader(http.StatusOK)
	}
	if p.bare {
		return p.ResponseWriter.Write(b)
	}
	return p.z.Write(b)
}

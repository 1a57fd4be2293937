package web

import (
	"crypto/sha256"
	"embed"
	"encoding/hex"
	"io/fs"
	"net/http"
	"path"
	"strings"
	"sync"
	"time"

	"github.com/a-h/templ"
)

//go:embed static
var static embed.FS

// sheets are the style sheets in the order in which they are joined.
var sheets = []string{"tokens", "base", "layout", "parts", "forms", "chart", "print"}

// bundle holds every file that pages ask for, by an address that changes with its content, so that a
// browser may keep it for good.
type bundle struct {
	files map[string][]byte
	names map[string]string
}

var loaded = sync.OnceValue(loadBundle)

func loadBundle() bundle {
	b := bundle{files: map[string][]byte{}, names: map[string]string{}}
	fonts, err := fs.Glob(static, "static/fonts/*.woff2")
	if err != nil {
		panic(err) // the pattern is a constant
	}
	var css []byte
	for _, s := range sheets {
		css = append(css, read("static/css/"+s+".css")...)
	}
	text := string(css)
	for _, f := range fonts {
		name := path.Base(f)
		text = strings.ReplaceAll(text, "../fonts/"+name, b.add(name, read(f)))
	}
	b.add("haywarden.css", []byte(text))
	b.add("mark.svg", read("static/mark.svg"))
	return b
}

func read(name string) []byte {
	data, err := static.ReadFile(name)
	if err != nil {
		panic(err) // embedded: missing only where the build is broken
	}
	return data
}

func (b bundle) add(name string, data []byte) string {
	sum := sha256.Sum256(data)
	ext := path.Ext(name)
	hashed := strings.TrimSuffix(name, ext) + "." + hex.EncodeToString(sum[:5]) + ext
	b.files[hashed], b.names[name] = data, hashed
	return hashed
}

// asset is the address of a static file.
func asset(name string) templ.SafeURL { return templ.SafeURL("/static/" + loaded().names[name]) }

// assets serves the static files.
func assets() http.Handler {
	types := map[string]string{".css": "text/css; charset=utf-8", ".svg": "image/svg+xml", ".woff2": "font/woff2"}
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		data, ok := loaded().files[r.URL.Path]
		if !ok {
			http.NotFound(w, r)
			return
		}
		w.Header().Set("Content-Type", types[path.Ext(r.URL.Path)])
		w.Header().Set("Cache-Control", "public, max-age=31536000, immutable")
		http.ServeContent(w, r, r.URL.Path, time.Time{}, strings.NewReader(string(data)))
	})
}

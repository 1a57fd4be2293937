package web

import (
	"context"
	"errors"
	"fmt"
	"math"
	"net/http"
	"net/url"
	"strconv"
	"strings"

	"github.com/a-h/templ"

	"haywarden/agronomy/unit"
	"haywarden/office"
)

// fieldView is one question of a form, with what was typed and what is wrong with it.
type fieldView struct {
	Name, Label, Value string
	Unit, Hint, Error  string
	Kind               string      // number, text, date, select
	Choices            [][2]string // value and label
	Wide               bool        // takes a line of its own
}

// formView is a form that records something.
type formView struct {
	ID, Action, Title, Button string
	Hidden                    [][2]string
	Fields                    []fieldView
	Wrong                     string // said over the form where something is wrong
	Get                       bool   // it asks and records nothing
}

// typed is what came with a form, and what was wrong with it by field; nil before one was sent.
type typed struct {
	form  string // which form of the page
	value url.Values
	wrong map[string]string
}

// fill puts what was typed, and what is wrong, into the form that it was typed in.
func (t *typed) fill(f formView) formView {
	if t == nil || t.form != f.ID {
		return f
	}
	said := map[string]bool{}
	for i := range f.Fields {
		name := f.Fields[i].Name
		if t.value.Has(name) {
			f.Fields[i].Value = t.value.Get(name)
		}
		f.Fields[i].Error = t.wrong[name]
		said[name] = true
	}
	f.Wrong = "Nothing was saved."
	for name, text := range t.wrong {
		if !said[name] {
			f.Wrong += " " + text + "."
		}
	}
	return f
}

// sent reads a form that was sent, and gathers what is wrong with its fields.
type sent struct {
	value url.Values
	wrong map[string]string
}

func (f *sent) text(name string) string { return strings.Join(strings.Fields(f.value.Get(name)), " ") }

// number reads a number; an empty field is 0.
func (f *sent) number(name string) float64 {
	raw := strings.TrimSpace(strings.TrimPrefix(f.text(name), "$"))
	if raw == "" {
		return 0
	}
	v, err := strconv.ParseFloat(raw, 64)
	if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
		f.wrong[name] = fmt.Sprintf("%q is not a number", raw)
		return 0
	}
	return v
}

// needed is number for a field that may not be empty.
func (f *sent) needed(name string) float64 {
	if f.text(name) == "" {
		f.wrong[name] = "is empty; a number wanted"
	}
	return f.number(name)
}

// optional reads a number, nil where the field is empty.
func (f *sent) optional(name string) *float64 {
	if f.text(name) == "" {
		return nil
	}
	v := f.number(name)
	return &v
}

// whole reads a whole number.
func (f *sent) whole(name string) int {
	v := f.number(name)
	if v != math.Trunc(v) || math.Abs(v) > 1e6 {
		f.wrong[name] = "a whole number wanted"
		return 0
	}
	return int(v)
}

// day reads a date.
func (f *sent) day(name string) unit.Day {
	d, err := unit.ParseDay(f.text(name))
	if err != nil {
		f.wrong[name] = err.Error()
	}
	return d
}

// percent reads a percentage as a share.
func (f *sent) percent(name string) float64 { return f.number(name) / 100 }

// accept notes each thing that the book finds wrong, at the field it is about.
func (f *sent) accept(err error, called map[string]string) {
	if err == nil {
		return
	}
	if all, ok := errors.AsType[interface {
		error
		Unwrap() []error
	}](err); ok {
		for _, e := range all.Unwrap() {
			f.accept(e, called)
		}
		return
	}
	text, at := err.Error(), ""
	longest := 0
	for name, words := range called {
		if strings.HasPrefix(text, words) && len(words) > longest {
			at, longest = name, len(words)
		}
	}
	if _, there := f.wrong[at]; !there {
		f.wrong[at] = text
	}
}

// mostForm is the most bytes of a form taken (choice).
const mostForm = 64 << 10

// record answers a form that was sent: do records it, and the reader is led back to the page; where a
// field is wrong, again shows the page with what was typed.
func (s *Server) record(do func(ctx context.Context, r *http.Request, p frame, f *sent) (office.Saved, string, error), again func(ctx context.Context, r *http.Request, p frame, t *typed) (templ.Component, error)) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		ctx, cancel := context.WithTimeout(r.Context(), answerTime)
		defer cancel()
		r.Body = http.MaxBytesReader(w, r.Body, mostForm)
		if err := r.ParseForm(); err != nil {
			http.Error(w, "The form could not be read; go back and send it again.", http.StatusBadRequest)
			return
		}
		f := &sent{r.PostForm, map[string]string{}}
		p, err := s.frame(r)
		var saved office.Saved
		var back string
		if err == nil {
			saved, back, err = do(ctx, r, p, f)
		}
		bad, isBad := errors.AsType[*office.BadEntry](err)
		if isBad {
			f.wrong[bad.Field] = bad.Text
		}
		switch {
		case len(f.wrong) > 0:
			t := &typed{r.PostForm.Get("form"), r.PostForm, f.wrong}
			s.pageWith(http.StatusUnprocessableEntity, func(ctx context.Context, r *http.Request, p frame) (templ.Component, error) {
				return again(ctx, r, p, t)
			})(w, r)
		case err != nil:
			s.page(func(context.Context, *http.Request, frame) (templ.Component, error) { return nil, err })(w, r)
		default:
			done := saved.Fact
			if done == "" {
				done = "same"
			}
			http.Redirect(w, r, string(p.linkWith(back, "done", done)), http.StatusSeeOther)
		}
	}
}

// linkWith is link with one thing more in the query.
func (p frame) linkWith(path, key, value string) templ.SafeURL {
	path, query, _ := strings.Cut(path, "?")
	q, err := url.ParseQuery(query)
	if err != nil {
		q = url.Values{}
	}
	q.Set(key, value)
	if p.asked {
		q.Set("date", p.Date)
	}
	return templ.SafeURL(path + "?" + q.Encode())
}

// undo takes back what was saved last.
func (s *Server) undo(ctx context.Context, _ *http.Request, p frame, f *sent) (office.Saved, string, error) {
	back := f.text("back")
	if !strings.HasPrefix(back, "/") || strings.HasPrefix(back, "//") || strings.ContainsAny(back, "\\?#") {
		back = "/round"
	}
	_, err := s.office.Undo(ctx, s.actor, p.ask, strings.Split(f.text("fact"), ",")...)
	return office.Saved{Fact: "undone"}, back, err
}

// doneView says what was saved, with the way to take it back.
type doneView struct{ Say, Fact, Back, Undo string }

func (p frame) done(r *http.Request) doneView {
	switch fact := r.URL.Query().Get("done"); {
	case fact == "":
		return doneView{}
	case fact == "same":
		return doneView{Say: "The book says just that already: nothing was changed."}
	case fact == "undone":
		return doneView{Say: "Taken back: what stood before holds again."}
	default:
		return doneView{Say: "Saved.", Fact: fact, Back: r.URL.Path, Undo: string(p.link("/undo"))}
	}
}

package web

import (
	"bytes"
	"context"
	"encoding/base64"
	"errors"
	"fmt"
	"io"
	"net/http"
	"path/filepath"
	"slices"
	"strings"

	"github.com/a-h/templ"

	"haywarden/advice"
	"haywarden/book"
	"haywarden/exchange"
	"haywarden/office"
)

// bringView is the page on which a table is brought into the book.
type bringView struct {
	Done     doneView
	Kinds    []kindView
	Kind     string
	Wrong    string
	Refused  *refusedView
	Proposal *proposalView
	Brought  []string // what was taken in, in words
	Undo     string   // the facts that may be taken back
	Home     string   // where they are taken back
	Notes    []string
}

type kindView struct {
	Key, Title, Needed, Others string
}

// refusedView is what is wrong with a table, by row and column.
type refusedView struct {
	Say    string
	Faults [][3]string
	Rest   bool // the rows that are right may be taken without the others
	Carry  [][2]string
}

// proposalView asks how a laboratory's table is to be read.
type proposalView struct {
	File, Lab string
	Columns   []columnView
	Codes     [][2]string
	Doubts    []string
	NoBasis   bool
	Basis     fieldView
	Says      []fieldView // what all rows say, asked where no column says it
	Carry     [][2]string
}

type columnView struct {
	Heading, Code, Unit, Meaning string
	Units                        [][2]string
}

// mostTable is the size of the largest table taken by a page, bytes (choice); the command line takes more.
const mostTable = 3 << 20

// mostUndo is how many facts a page can take back at once (choice): they are named in its form.
const mostUndo = 1500

// bringKind is a kind of table that may be brought.
type bringKind struct {
	key, title string
	columns    []exchange.Column
	take       func(ctx context.Context, r io.Reader, name string) (office.ImportedRecords, error)
}

// labTables and soilTables are the kinds whose columns may be called anything.
const (
	labTables  = "labs"
	soilTables = "soil"
)

func (s *Server) bringKinds() []bringKind {
	plain := func(do func(context.Context, office.Actor, io.Reader, string, bool) (office.ImportedRecords, error)) func(context.Context, io.Reader, string) (office.ImportedRecords, error) {
		return func(ctx context.Context, r io.Reader, name string) (office.ImportedRecords, error) {
			return do(ctx, s.actor, r, name, false)
		}
	}
	return []bringKind{
		{labTables, "Laboratory results, as the laboratory writes them", exchange.LabColumns(), nil},
		{soilTables, "Soil tests, as the laboratory writes them", exchange.SoilColumns(), nil},
		{"tissue", "Tissue tests", exchange.TissueColumns(), plain(s.intake.ImportTissues)},
		{"applications", "Lime, fertilizer and manure that was spread", exchange.SpreadColumns(), plain(s.intake.ImportApplications)},
		{"sown", "How stands were sown", exchange.SownColumns(), plain(s.intake.ImportSown)},
		{"guides", "Tables of a printed guide, typed in by you", exchange.GuideColumns(), plain(s.intake.ImportGuides)},
		{"stands", "Farms, fields and stands", exchange.StandColumns(), plain(s.intake.ImportStands)},
		{"visits", "Visits: stick readings and stem counts", exchange.VisitColumns(), plain(s.intake.ImportVisits)},
		{"stacks", "Hay stacks and their temperatures", exchange.StackColumns(), plain(s.intake.ImportStacks)},
		{"seedings", "Planned seedings and their seed", exchange.SeedingColumns(), plain(s.intake.ImportSeedings)},
		{"feed", "Feed in store, what is left and what is fed", exchange.FeedLotColumns(), plain(s.intake.ImportFeed)},
		{"prices", "Prices", exchange.PriceColumns(), plain(s.intake.ImportPrices)},
		{"herds", "Herds", exchange.HerdColumns(), plain(s.intake.ImportHerds)},
		{"machines", "Machines and crews", exchange.MachineColumns(), plain(s.intake.ImportMachines)},
	}
}

func (s *Server) bring(_ context.Context, r *http.Request, p frame) (templ.Component, error) {
	p.Title, p.Date = "Bring a table", ""
	v := s.bringView(r.URL.Query().Get("kind"))
	v.Done = p.done(r)
	return bringPage(p, v), nil
}

func (s *Server) bringView(kind string) bringView {
	v := bringView{Kind: kind}
	for _, k := range s.bringKinds() {
		view := kindView{Key: k.key, Title: k.title}
		var needed, others []string
		for _, c := range k.columns {
			if c.Needed {
				needed = append(needed, c.Name)
			} else {
				others = append(others, c.Name)
			}
		}
		view.Needed, view.Others = strings.Join(needed, ", "), strings.Join(others, ", ")
		v.Kinds = append(v.Kinds, view)
	}
	return v
}

// bringTable takes in the table that was sent, or says what stands against it.
func (s *Server) bringTable(w http.ResponseWriter, r *http.Request) {
	r.Body = http.MaxBytesReader(w, r.Body, 2*mostTable)
	status, v := s.broughtView(r)
	s.pageWith(status, func(_ context.Context, _ *http.Request, p frame) (templ.Component, error) {
		p.Title, p.Date = "Bring a table", ""
		v.Home = string(p.link("/undo"))
		return bringPage(p, v), nil
	})(w, r)
}

func (s *Server) broughtView(r *http.Request) (status int, v bringView) {
	if err := r.ParseMultipartForm(2 * mostTable); err != nil {
		v = s.bringView("")
		v.Wrong = fmt.Sprintf("The table could not be read: a page takes up to %d MB. Bring a larger one with `haywarden import`.", mostTable>>20)
		return http.StatusRequestEntityTooLarge, v
	}
	v = s.bringView(r.FormValue("kind"))
	content, name, err := tableOf(r)
	if err != nil {
		v.Wrong = sentence(err)
		return http.StatusUnprocessableEntity, v
	}
	kinds := s.bringKinds()
	i := slices.IndexFunc(kinds, func(k bringKind) bool { return k.key == v.Kind })
	if i < 0 {
		v.Wrong = "Say what the table holds."
		return http.StatusUnprocessableEntity, v
	}
	ctx, cancel := context.WithTimeout(r.Context(), answerTime)
	defer cancel()
	carry := [][2]string{{"kind", v.Kind}, {"name", name}, {"kept", base64.StdEncoding.EncodeToString(content)}}
	var done office.ImportedRecords
	mapped := v.Kind == labTables || v.Kind == soilTables
	if mapped {
		var got mappedBrought
		got, err = s.bringMapped(ctx, r, v.Kind, content, name)
		done = got.done
		if got.Proposal != nil {
			view := proposed(*got.Proposal, r, carry)
			v.Proposal = &view
			if !errors.Is(err, office.ErrUnconfirmed) || r.FormValue("confirm") != "" {
				v.Wrong = sentence(err)
			}
			return http.StatusUnprocessableEntity, v
		}
		v.Notes = got.notes
	} else {
		done, err = kinds[i].take(ctx, bytes.NewReader(content), name)
	}
	refusal, refused := errors.AsType[*exchange.Refusal](err)
	switch {
	case refused:
		v.Refused = refusedOf(refusal, mapped, append(carry, sentAlong(r)...))
		return http.StatusUnprocessableEntity, v
	case err != nil:
		v.Wrong = sentence(err)
		return http.StatusUnprocessableEntity, v
	}
	v.Brought = broughtSay(done)
	if len(done.Facts) <= mostUndo {
		v.Undo = strings.Join(done.Facts, ",")
	}
	return http.StatusOK, v
}

// tableOf is the table that was sent: a file, or what was kept of one in the page that asks about it.
func tableOf(r *http.Request) (content []byte, name string, err error) {
	if kept := r.FormValue("kept"); kept != "" {
		content, err = base64.StdEncoding.DecodeString(kept)
		if err != nil {
			return nil, "", errors.New("the table that was kept in the page is broken; choose the file again")
		}
		return content, filepath.Base(r.FormValue("name")), nil
	}
	f, head, err := r.FormFile("file")
	if err != nil {
		return nil, "", errors.New("choose the file that holds the table: CSV or a workbook (.xlsx)")
	}
	content, err = io.ReadAll(io.LimitReader(f, mostTable+1))
	if shut := f.Close(); err == nil {
		err = shut
	}
	switch {
	case err != nil:
		return nil, "", errors.New("the file could not be read; choose it again")
	case len(content) > mostTable:
		return nil, "", fmt.Errorf("%s is larger than %d MB; bring it with `haywarden import`", head.Filename, mostTable>>20)
	}
	return content, filepath.Base(head.Filename), nil
}

// sayings are what may be said of all rows of a table whose columns do not say it.
var sayings = []string{"farm", "field", "sampled", "sample"}

// soilSayings are those of a table of soil tests.
var soilSayings = []string{"farm", "field", "sampled", "extractant-p", "extractant-k", "buffer-by"}

// sayingsOf lists what may be said of all rows of a kind of table.
func sayingsOf(kind string) []string {
	if kind == soilTables {
		return soilSayings
	}
	return sayings
}

// mappedBrought is what a table in a laboratory's own words brought, or how it would be read.
type mappedBrought struct {
	office.FormFound
	done  office.ImportedRecords
	notes []string
}

// takeMapped brings a table of a kind.
func (s *Server) takeMapped(ctx context.Context, kind string, content []byte, name string, how office.LabImport) (mappedBrought, error) {
	if kind == soilTables {
		got, err := s.intake.BringSoil(ctx, s.actor, bytes.NewReader(content), name, how)
		return mappedBrought{got.FormFound, got.ImportedRecords, slices.Concat(formNotes(got.FormFound), leftOutNotes(got.LeftOut), got.Told)}, err
	}
	got, err := s.intake.BringLabs(ctx, s.actor, bytes.NewReader(content), name, how)
	return mappedBrought{got.FormFound, got.ImportedRecords, labNotes(got)}, err
}

func (s *Server) bringMapped(ctx context.Context, r *http.Request, kind string, content []byte, name string) (mappedBrought, error) {
	how := office.LabImport{Lab: strings.TrimSpace(r.FormValue("lab")), Basis: r.FormValue("basis"), Confirm: r.FormValue("confirm") != "", KeepRest: r.FormValue("rest") != "", Say: map[string]string{}}
	for _, code := range sayingsOf(kind) {
		if said := strings.TrimSpace(r.FormValue("say-" + code)); said != "" {
			how.Say[code] = said
		}
	}
	of := map[string]string{}
	for i := 0; r.Form.Has(fmt.Sprintf("column-%d", i)); i++ {
		c := exchange.Change{Column: r.FormValue(fmt.Sprintf("column-%d", i)), Code: r.FormValue(fmt.Sprintf("code-%d", i)), Unit: r.FormValue(fmt.Sprintf("unit-%d", i))}
		if r.FormValue(fmt.Sprintf("unit-of-%d", i)) != c.Code {
			c.Unit = "" // it was chosen for what the column was before
		}
		if other := of[c.Code]; c.Code != "" && other != "" {
			how.Confirm = false
			got, err := s.takeMapped(ctx, kind, content, name, office.LabImport{Lab: how.Lab, Say: how.Say, Basis: how.Basis, Map: how.Map})
			if err == nil || errors.Is(err, office.ErrUnconfirmed) {
				err = fmt.Errorf("%s and %s are both said to be %s: leave one of them out", other, c.Column, c.Code)
			}
			return got, err
		}
		of[c.Code] = c.Column
		how.Map = append(how.Map, c)
	}
	got, err := s.takeMapped(ctx, kind, content, name, how)
	if err != nil && got.Proposal == nil && len(how.Map) > 0 && !isRefusal(err) {
		// What was chosen does not go together: show the columns again with why, as much as can be as chosen.
		for _, kept := range []office.LabImport{{Map: how.Map}, {Basis: how.Basis}, {}} {
			kept.Lab, kept.Say = how.Lab, how.Say
			again, _ := s.takeMapped(ctx, kind, content, name, kept)
			if got.Proposal = again.Proposal; got.Proposal != nil {
				break
			}
		}
	}
	return got, err
}

func isRefusal(err error) bool {
	_, is := errors.AsType[*exchange.Refusal](err)
	return is
}

// proposed shows how the table would be read.
func proposed(p exchange.Proposal, r *http.Request, carry [][2]string) proposalView {
	v := proposalView{File: p.File, Lab: p.Form.From, Doubts: p.Doubts, NoBasis: p.NoBasis, Carry: carry, Codes: [][2]string{{"", "not used"}}}
	if v.Lab == "" {
		v.Lab = r.FormValue("lab")
	}
	kind, terms := labTables, exchange.LabTerms()
	if p.Form.Of == book.OfSoil {
		kind, terms = soilTables, exchange.SoilTerms()
	}
	for _, t := range terms {
		say := t.Code
		if t.About != t.Code {
			say += ": " + t.About
		}
		v.Codes = append(v.Codes, [2]string{t.Code, say})
	}
	for _, c := range p.Form.Columns {
		col := columnView{Heading: c.Column, Code: c.Code, Unit: c.Unit}
		if i := slices.IndexFunc(terms, func(t exchange.Term) bool { return t.Code == c.Code }); i >= 0 && len(terms[i].Units) > 1 {
			col.Units = append(col.Units, [2]string{"", "as headed"})
			for _, u := range terms[i].Units {
				col.Units = append(col.Units, [2]string{u.Name, u.Name})
			}
		}
		switch c.Basis {
		case book.FedBasis:
			col.Meaning = "as fed"
		case book.DryBasis:
			col.Meaning = "of dry matter"
		}
		v.Columns = append(v.Columns, col)
	}
	v.asksBasis(p, r)
	for _, code := range sayingsOf(kind) {
		said := r.FormValue("say-" + code)
		open := slices.Contains(p.Lacking, code)
		if !open && said == "" && !slices.Contains([]string{"extractant-p", "extractant-k", "buffer-by"}, code) {
			continue
		}
		f := fieldView{Name: "say-" + code, Label: "All rows: " + code, Kind: "text", Value: said, Choices: saidChoices(code)}
		switch {
		case code == "sampled":
			f.Kind = "date"
		case len(f.Choices) > 0:
			f.Kind = "select"
		}
		if open && said == "" {
			f.Error = "no column says it"
		}
		v.Says = append(v.Says, f)
	}
	for _, code := range p.Lacking {
		if !slices.Contains(sayingsOf(kind), code) {
			v.Doubts = append(v.Doubts, "no column says "+code)
		}
	}
	return v
}

// saidChoices are the words that may be said of all rows, none where any may.
func saidChoices(code string) [][2]string {
	var list []string
	switch code {
	case "sample":
		list = []string{"standing", "hay", "haylage", "baleage"}
	case "extractant-p":
		list = plainWords(book.PExtractants())
	case "extractant-k":
		list = plainWords(book.KExtractants())
	case "buffer-by":
		list = plainWords(book.Buffers())
	default:
		return nil
	}
	return append([][2]string{{"", "not said"}}, words(list)...)
}

func plainWords[T ~string](list []T) (out []string) {
	for _, w := range list {
		out = append(out, string(w))
	}
	return out
}

// asksBasis asks what shares are of, of a table of forage.
func (v *proposalView) asksBasis(p exchange.Proposal, r *http.Request) {
	if p.Form.Of != book.OfForage {
		return
	}
	v.Basis = fieldView{Name: "basis", Label: "Shares are of", Kind: "select", Value: p.Form.Basis, Choices: [][2]string{{"", "as the headings say"}, {book.DryBasis, "dry matter"}, {book.FedBasis, "feed as fed"}, {book.RowBasis, "what the column basis says"}}}
	switch said := r.FormValue("basis"); {
	case said != "":
		v.Basis.Value = said
	case slices.ContainsFunc(p.Form.Columns, func(c book.ColumnUse) bool { return c.Basis != "" }):
		v.Basis.Value = "" // a basis for all would go against a heading that says its own
	}
	if p.NoBasis {
		v.Basis.Error = "the headings do not tell"
	}
}

// sentAlong is what was chosen of columns, to be sent again with the table.
func sentAlong(r *http.Request) (out [][2]string) {
	for name, values := range r.MultipartForm.Value {
		if name != "kind" && name != "name" && name != "kept" && name != "rest" && len(values) > 0 {
			out = append(out, [2]string{name, values[0]})
		}
	}
	slices.SortFunc(out, func(a, b [2]string) int { return strings.Compare(a[0], b[0]) })
	return out
}

func refusedOf(r *exchange.Refusal, rest bool, carry [][2]string) *refusedView {
	v := &refusedView{Say: fmt.Sprintf("%s %s wrong with %s, and nothing was taken in.", capitalCount(r.Found), map[bool]string{true: "thing is", false: "things are"}[r.Found == 1], r.File), Carry: carry}
	for _, f := range r.Faults {
		row := ""
		if f.Row > 0 {
			row = fmt.Sprint(f.Row)
			v.Rest = rest
		}
		v.Faults = append(v.Faults, [3]string{row, f.Field, f.Text})
	}
	if more := r.Found - len(r.Faults); more > 0 {
		v.Faults = append(v.Faults, [3]string{"", "", fmt.Sprintf("and %d more", more)})
	}
	return v
}

// broughtSay says what was taken in.
func broughtSay(r office.ImportedRecords) []string {
	if r.Nothing() {
		return []string{fmt.Sprintf("%s: %d %s read. Nothing changed: all of it was in the book already.", r.File, r.Rows, advice.Plural(r.Rows, "row"))}
	}
	var parts []string
	for _, k := range r.Kinds {
		name := strings.ReplaceAll(string(k.Kind), "-", " ")
		for _, n := range []struct {
			n   int
			how string
		}{{k.Added, "new"}, {k.Changed, "changed"}} {
			if n.n > 0 {
				parts = append(parts, fmt.Sprintf("%d %s %s", n.n, n.how, advice.Plural(n.n, name)))
			}
		}
	}
	out := []string{fmt.Sprintf("%s: %d %s read, %s; %d in the book already.", r.File, r.Rows, advice.Plural(r.Rows, "row"), strings.Join(parts, ", "), r.Unchanged)}
	if len(r.Unused) > 0 {
		out = append(out, "Columns not used: "+strings.Join(r.Unused, ", ")+".")
	}
	return out
}

// formNotes says by which form a table was read.
func formNotes(f office.FormFound) (out []string) {
	switch f.Form {
	case "remembered":
		out = append(out, "Read by the form of "+f.Lab+" that the book remembers.")
	case "confirmed":
		out = append(out, "The form of "+f.Lab+" is confirmed: its tables are read so from now on.")
	}
	return out
}

// leftOutNotes lists what was left out of a table.
func leftOutNotes(faults []exchange.Fault) (out []string) {
	for _, f := range faults {
		out = append(out, "Left out: "+f.String()+".")
	}
	return out
}

// labNotes says what a reader of results should know.
func labNotes(got office.LabsBrought) []string {
	out := formNotes(got.FormFound)
	if got.Fed > 0 {
		out = append(out, fmt.Sprintf("%d %s as fed turned into dry matter.", got.Fed, advice.Plural(got.Fed, "row")))
	}
	out = append(out, leftOutNotes(got.LeftOut)...)
	for _, w := range got.Warnings {
		say := "Look at: " + w.String()
		if w.Rows > 1 {
			say += fmt.Sprintf(" (and %d more)", w.Rows-1)
		}
		out = append(out, say+".")
	}
	return append(out, got.Told...)
}

// sentence writes an error as one.
func sentence(err error) string {
	text := strings.TrimSuffix(err.Error(), ".")
	return strings.ToUpper(text[:1]) + text[1:] + "."
}

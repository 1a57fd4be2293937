package exchange

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"haywarden/book"
	"haywarden/tabular"
)

// Term is one thing that a stranger's table may say, under whatever heading.
type Term struct {
	Code    string // ndfd48
	About   string
	Names   []string   // what others call it, without unit and basis
	Units   []TermUnit // of its numbers, the first where neither heading nor cell says one; none: a word
	SayUnit bool       // one of the units has to be said: none is usual
	OnBasis bool       // another number as fed than of dry matter
	Needed  bool
}

// TermUnit is a unit in which a thing may be written.
type TermUnit struct {
	Name   string
	Also   []string // other ways to write it
	Factor float64  // into the first unit of the term
}

func (t Term) unit(name string) (TermUnit, bool) {
	plain := strings.ToLower(strings.Join(strings.Fields(name), " "))
	for _, u := range t.Units {
		if plain == strings.ToLower(u.Name) || slices.Contains(u.Also, plain) {
			return u, true
		}
	}
	return TermUnit{}, false
}

// unitNames lists the units that a term is taken in.
func (t Term) unitNames() string {
	var names []string
	for _, u := range t.Units {
		names = append(names, u.Name)
	}
	return strings.Join(names, ", ")
}

// Proposal is how a table of a form not known yet would be read, for a person to confirm.
type Proposal struct {
	File     string            `json:"file"`
	Form     book.TableForm    `json:"form"`               // empty where it cannot be told
	Unknown  []string          `json:"unknown,omitempty"`  // columns that say nothing known
	Doubts   []string          `json:"doubts,omitempty"`   // what a person should look at
	Lacking  []string          `json:"lacking,omitempty"`  // codes that are needed and have no column
	NoBasis  bool              `json:"no_basis,omitempty"` // nothing says whether shares are of dry matter or of feed
	Meanings map[string]string `json:"meanings"`           // by code
}

// headingUnit finds a unit at the end of a heading or in brackets: what the shares are of goes with it.
var headingUnit = regexp.MustCompile(`(?i)(%|\bpct\b|\bpercent\b|g/kg|mg/kg|\bppm\b|(?:\blbs?|\bpounds|#)\s*(?:/|\bper\b)\s*(?:acre|ac|a)\b|meq\s*/\s*100\s*g(?:rams)?|cmolc?\s*/\s*kg|ds\s*/\s*m\b|mmhos?\s*/\s*cm|\bcm\b|\binch(?:es)?\b|mcal\s*/\s*(?:cwt|lb|kg)|mj\s*/\s*kg)(\s*(?:of\s+)?(?:dm\b|dry\s+matter\b|as\s*-?\s*fed\b|as\s*-?\s*received\b|ndf\b|cp\b|crude\s+protein\b|protein\b))?`)

var (
	fedWords = regexp.MustCompile(`(?i)\b(as\s*-?\s*fed|as\s*-?\s*received|as\s*-?\s*is|as\s*-?\s*sampled|af|ar|fresh\s+basis|wet\s+basis)\b`)
	dryWords = regexp.MustCompile(`(?i)\b((?:100\s*%\s*)?(?:of\s+)?(?:dm|dry\s+matter|dry)\s+basis|dmb|of\s+dm|dm|dry\s+matter|dry)\b`)
)

// heading is what a heading says: a name, a unit, what it is a share of, a basis.
type heading struct{ name, unit, of, basis string }

// readHeading parts a heading. What would leave no name stays in the name: "DM %" is a name and a unit.
func readHeading(text string) heading {
	h := heading{name: strings.ReplaceAll(text, "_", " ")}
	cut := func(re *regexp.Regexp) string {
		found := re.FindString(h.name)
		rest := re.ReplaceAllString(h.name, " ")
		if found == "" || tabular.Plain(rest) == "" {
			return ""
		}
		h.name = rest
		return found
	}
	if m := headingUnit.FindStringSubmatch(h.name); m != nil {
		if found := cut(headingUnit); found != "" {
			h.unit, h.of = strings.ToLower(strings.Join(strings.Fields(m[1]), "")), strings.ToLower(strings.TrimSpace(m[2]))
		} else if rest := strings.Replace(h.name, m[1], " ", 1); tabular.Plain(rest) != "" {
			h.name, h.unit = rest, strings.ToLower(m[1])
		}
	}
	if h.unit == "pct" || h.unit == "percent" {
		h.unit = "%"
	}
	switch {
	case fedWords.MatchString(h.of):
		h.basis = book.FedBasis
	case dryWords.MatchString(h.of):
		h.basis = book.DryBasis
	}
	if cut(fedWords) != "" {
		h.basis = book.FedBasis
	} else if cut(dryWords) != "" {
		h.basis = book.DryBasis
	}
	return h
}

// termNamed finds the term that goes by a name.
func termNamed(terms []Term, name string) *Term {
	plain := tabular.Plain(name)
	if plain == "" {
		return nil
	}
	for i, t := range terms {
		for _, n := range append([]string{t.Code}, t.Names...) {
			if tabular.Plain(n) == plain {
				return &terms[i]
			}
		}
	}
	return nil
}

// Propose reads headings and says what each column would be. Where two columns say one thing on two
// bases the dry one is used.
func Propose(of string, names []string, terms []Term) Proposal {
	p := Proposal{Form: book.TableForm{Of: of}, Meanings: map[string]string{}}
	at := map[string]int{}
	for _, name := range names {
		if name == "" {
			continue
		}
		use := book.ColumnUse{Column: name}
		h := readHeading(name)
		t := termNamed(terms, h.name)
		if t == nil {
			t = termNamed(terms, name)
		}
		if t == nil {
			p.Unknown = append(p.Unknown, name)
			p.Form.Columns = append(p.Form.Columns, use)
			continue
		}
		if why := h.against(*t); why != "" {
			p.Doubts = append(p.Doubts, fmt.Sprintf("%s is left out: %s", name, why))
			p.Form.Columns = append(p.Form.Columns, use)
			continue
		}
		use.Code = t.Code
		if u, ok := t.unit(h.unit); ok {
			use.Unit = u.Name
		}
		if t.OnBasis {
			use.Basis = h.basis
		}
		if first, twice := at[t.Code]; twice {
			was := &p.Form.Columns[first]
			kept, out := was.Column, name
			if was.Basis == book.FedBasis && use.Basis != book.FedBasis {
				kept, out = name, was.Column
				*was, at[t.Code] = book.ColumnUse{Column: was.Column}, len(p.Form.Columns)
			} else {
				use = book.ColumnUse{Column: name}
			}
			p.Doubts = append(p.Doubts, fmt.Sprintf("%s and %s both say %s: %s is used, %s left out", kept, out, t.Code, kept, out))
		} else {
			at[t.Code] = len(p.Form.Columns)
		}
		p.Form.Columns = append(p.Form.Columns, use)
	}
	p.settle(terms)
	return p
}

// against says why a heading cannot be of a term, empty where it can.
func (h heading) against(t Term) string {
	switch {
	case h.unit == "" && t.SayUnit:
		return fmt.Sprintf("it says no unit; name it, one of %s", t.unitNames())
	case h.unit == "" || h.unit == "%" && len(t.Units) == 0:
		return ""
	case len(t.Units) == 0:
		return fmt.Sprintf("it has the unit %s, and %s is a word", h.unit, t.Code)
	}
	if _, ok := t.unit(h.unit); !ok {
		return fmt.Sprintf("it is in %s, and %s is taken in %s", h.unit, t.Code, t.unitNames())
	}
	whole := ""
	switch {
	case strings.Contains(h.of, "ndf"):
		whole = "NDF"
	case strings.Contains(h.of, "cp"), strings.Contains(h.of, "protein"):
		whole = "protein"
	}
	if whole != "" && !strings.Contains(t.About, "of "+whole) {
		return fmt.Sprintf("it is a share of %s, and %s is %s", whole, t.Code, t.About)
	}
	if h.basis != "" && h.of != "" && !t.OnBasis && (strings.Contains(t.About, "of NDF") || strings.Contains(t.About, "of protein")) {
		return fmt.Sprintf("it is a share of the whole (%s), and %s is %s", h.of, t.Code, t.About)
	}
	return ""
}

// settle works out the basis, what is lacking and what each code means.
func (p *Proposal) settle(terms []Term) {
	p.Lacking, p.NoBasis = nil, false
	dry, fed, open, byRow := 0, 0, 0, false
	shares := slices.ContainsFunc(terms, func(t Term) bool { return t.OnBasis })
	for _, t := range terms {
		i := slices.IndexFunc(p.Form.Columns, func(c book.ColumnUse) bool { return c.Code == t.Code })
		if i < 0 {
			if t.Needed {
				p.Lacking = append(p.Lacking, t.Code)
			}
			continue
		}
		p.Meanings[t.Code] = t.About
		byRow = byRow || t.Code == basisCode
		switch c := p.Form.Columns[i]; {
		case !t.OnBasis:
		case c.Basis == book.DryBasis:
			dry++
		case c.Basis == book.FedBasis:
			fed++
		default:
			open++
		}
	}
	switch {
	case !shares: // such a table has no basis
	case p.Form.Basis == book.RowBasis && !byRow:
		p.NoBasis = true // no column says it
	case p.Form.Basis != "":
	case byRow:
		p.Form.Basis = book.RowBasis
	case dry > 0 && fed == 0:
		p.Form.Basis = book.DryBasis
	case fed > 0 && dry == 0:
		p.Form.Basis = book.FedBasis
	case open == 0 && dry > 0:
		p.Form.Basis = book.DryBasis // each column says its own
	default:
		p.NoBasis = true
	}
}

// basisCode is the column that says for each row what its shares are of.
const basisCode = "basis"

// Change is what a person says of a column: its code with a unit, or nothing to leave it out.
type Change struct{ Column, Code, Unit string }

// ParseChange reads `Crude Prot=cp`, `NEL=nel:Mcal/lb` or `Remarks=-`.
func ParseChange(s string) (Change, error) {
	i := strings.LastIndexByte(s, '=')
	if i < 1 || i == len(s)-1 {
		return Change{}, fmt.Errorf("%q: want COLUMN=code, COLUMN=code:unit, or COLUMN=- to leave it out", s)
	}
	code, unit, _ := strings.Cut(s[i+1:], ":")
	if code == "-" {
		code = ""
	}
	return Change{Column: strings.TrimSpace(s[:i]), Code: strings.ToLower(strings.TrimSpace(code)), Unit: strings.TrimSpace(unit)}, nil
}

// Apply makes a person's changes.
func (p *Proposal) Apply(changes []Change, basis string, terms []Term) error {
	for _, c := range changes {
		i := slices.IndexFunc(p.Form.Columns, func(u book.ColumnUse) bool { return tabular.Plain(u.Column) == tabular.Plain(c.Column) })
		if i < 0 {
			var names []string
			for _, u := range p.Form.Columns {
				names = append(names, u.Column)
			}
			return fmt.Errorf("no column is headed %q; the columns are %.300q", c.Column, names)
		}
		use := book.ColumnUse{Column: p.Form.Columns[i].Column}
		p.Unknown = slices.DeleteFunc(p.Unknown, func(n string) bool { return n == use.Column })
		if c.Code != "" {
			at := slices.IndexFunc(terms, func(t Term) bool { return t.Code == c.Code })
			if at < 0 {
				var codes []string
				for _, t := range terms {
					codes = append(codes, t.Code)
				}
				return fmt.Errorf("no value has the code %q; the codes are %s", c.Code, strings.Join(codes, ", "))
			}
			t := terms[at]
			use.Code = t.Code
			h := readHeading(use.Column)
			if t.OnBasis {
				use.Basis = h.basis
			}
			if len(t.Units) > 0 {
				for _, said := range []string{h.unit, c.Unit} {
					u, ok := t.unit(said)
					switch {
					case ok:
						use.Unit = u.Name
					case said == c.Unit && said != "":
						return fmt.Errorf("%s in %q: accepted %s", t.Code, said, t.unitNames())
					}
				}
				if t.SayUnit && c.Unit == "" && h.unit == "" {
					return fmt.Errorf("%s wants its unit: %s=%s:UNIT, one of %s", use.Column, use.Column, t.Code, t.unitNames())
				}
				if c.Unit != "" && h.unit != "" && h.unit != "%" && use.Unit != unitOr(t, h.unit) {
					return fmt.Errorf("column %s says %s itself and cannot be in %s", use.Column, h.unit, c.Unit)
				}
			}
			for j := range p.Form.Columns {
				if j != i && p.Form.Columns[j].Code == t.Code {
					p.Form.Columns[j] = book.ColumnUse{Column: p.Form.Columns[j].Column}
				}
			}
		}
		p.Form.Columns[i] = use
	}
	if basis != "" {
		for _, c := range p.Form.Columns {
			if c.Basis != "" && c.Basis != basis && basis != book.RowBasis {
				return fmt.Errorf("column %s says %s itself, and basis %s is asked for: leave the column out or the basis", c.Column, basisWord(c.Basis), basis)
			}
		}
		p.Form.Basis = basis
	}
	p.settle(terms)
	return nil
}

func unitOr(t Term, name string) string {
	if u, ok := t.unit(name); ok {
		return u.Name
	}
	return name
}

func basisWord(b string) string {
	if b == book.FedBasis {
		return "as fed"
	}
	return "dry matter"
}

// Recall takes over what was confirmed of columns before.
func (p *Proposal) Recall(form book.TableForm) {
	used := map[string]bool{}
	for _, c := range form.Columns {
		used[c.Code] = true
	}
	for i, c := range p.Form.Columns {
		j := slices.IndexFunc(form.Columns, func(was book.ColumnUse) bool { return tabular.Plain(was.Column) == tabular.Plain(c.Column) })
		if j < 0 {
			if c.Code != "" {
				p.Doubts = append(p.Doubts, c.Column+" is new to this laboratory's tables")
			}
			if used[c.Code] {
				p.Form.Columns[i] = book.ColumnUse{Column: c.Column}
			}
			continue
		}
		p.Form.Columns[i] = book.ColumnUse{Column: c.Column, Code: form.Columns[j].Code, Unit: form.Columns[j].Unit, Basis: form.Columns[j].Basis}
		p.Unknown = slices.DeleteFunc(p.Unknown, func(n string) bool { return n == c.Column })
	}
	for _, name := range Missing(form, headings(p.Form)) {
		p.Doubts = append(p.Doubts, name+" was used before and is not in this table")
	}
	p.Form.Basis = form.Basis
}

func headings(f book.TableForm) (names []string) {
	for _, c := range f.Columns {
		names = append(names, c.Column)
	}
	return names
}

// Fits reports whether a form reads a table with these headings: each column that it uses is there.
func Fits(f book.TableForm, names []string) bool {
	return len(Missing(f, names)) == 0
}

// Missing lists the columns that a form uses and a table has not.
func Missing(f book.TableForm, names []string) (lack []string) {
	for _, c := range f.Columns {
		if c.Code != "" && !slices.ContainsFunc(names, func(n string) bool { return tabular.Plain(n) == tabular.Plain(c.Column) }) {
			lack = append(lack, c.Column)
		}
	}
	return lack
}

// Unmapped lists the columns of a table that a form says nothing of.
func Unmapped(f book.TableForm, names []string) (more []string) {
	for _, n := range names {
		if n != "" && !slices.ContainsFunc(f.Columns, func(c book.ColumnUse) bool { return tabular.Plain(n) == tabular.Plain(c.Column) }) {
			more = append(more, n)
		}
	}
	return more
}

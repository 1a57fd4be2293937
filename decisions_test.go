package haywarden_test

import (
	"go/ast"
	"go/types"
	"testing"
)

// decides reports whether the file is a decision: it declares an exported function that answers a
// single *Piece.
func decides(f *file) bool {
	for _, d := range f.tree.Decls {
		fn, ok := d.(*ast.FuncDecl)
		if !ok || fn.Recv != nil || !fn.Name.IsExported() || fn.Type.Results.NumFields() != 1 {
			continue
		}
		if star, ok := fn.Type.Results.List[0].Type.(*ast.StarExpr); ok {
			if id, ok := star.X.(*ast.Ident); ok && id.Name == "Piece" {
				return true
			}
		}
	}
	return false
}

// entanglements are the places where one decision leans on another. What two decisions share belongs
// in a file that decides nothing; which of two wins is for reconcile.go to say.
func entanglements(h *house) (faults []fault) {
	var files []*file
	for _, f := range h.packages()["advice"] {
		if !f.test {
			files = append(files, f)
		}
	}
	decision := map[string]bool{}
	for _, f := range files {
		decision[f.path] = decides(f)
	}
	info := resolve(h.fset, "advice", files)
	for id, o := range info.Uses {
		if !lives(o) {
			continue
		}
		from, to := h.fset.Position(id.Pos()).Filename, h.fset.Position(o.Pos()).Filename
		if from != to && decision[from] && decision[to] {
			faults = append(faults, fault{h.at(id.Pos()), "one decision uses " + id.Name + " of another, " + to + ": move what both need to a file that decides nothing"})
		}
	}
	return faults
}

// lives reports whether o is declared somewhere in the package under look, as universal names and
// imports are not.
func lives(o types.Object) bool {
	_, imported := o.(*types.PkgName)
	return !imported && o.Pos().IsValid()
}

func TestDecisionsStandAlone(t *testing.T) {
	rule{
		name:  "no decision uses another",
		check: entanglements,
		broken: plant(
			"advice/piece.go", "package advice\n\ntype Piece struct{}\n\nfunc shared() string { return \"\" }\n",
			"advice/cut.go", "package advice\n\nfunc Cut(s *S) *Piece { _ = shared(); return whole(s) }\n\nfunc whole(*S) *Piece { return nil }\n\n"+
				"func (*Piece) cutLine() {}\n",
			"advice/spray.go", "package advice\n\nfunc Spray(s *S) *Piece {\n\tp := whole(s)\n\tp.cutLine()\n\treturn p\n}\n",
			"advice/round.go", "package advice\n\nvar all = []func(*S) *Piece{Cut, Spray}\n",
		),
		want: []string{"advice/spray.go:4", "advice/spray.go:5"},
	}.holds(t)
}

package main

import (
	"bytes"
	"fmt"
	"go/ast"
	"go/parser"
	"go/printer"
	"go/token"
	"go/types"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// leastTwice is how long the body of a function is, in letters, that may not stand in two rooms or twice in one,
// and leastKinds of how many kinds a list is that may not.
const (
	leastTwice = 64
	leastKinds = 4
)

// apart are functions whose bodies are alike for other reasons than one decision.
var apart = map[string]string{
	"boolFirst": "an order of sorting that Go's cmp lacks",
}

// What is decided in two places is decided differently in the two one day. So no body of a function stands
// twice, whatever its names are, and no list of kinds of part.
func TestNothingIsDecidedTwice(t *testing.T) {
	bodies, kinds := map[string][]string{}, map[string][]string{}
	err := sources(root, func(name string) error {
		if strings.HasSuffix(name, "_test.go") {
			return nil
		}
		files := token.NewFileSet()
		file, err := parser.ParseFile(files, name, nil, 0)
		if err != nil {
			return err
		}
		ast.Inspect(file, func(n ast.Node) bool {
			if list := kindsOf(n); len(list) >= leastKinds {
				slices.Sort(list)
				all := strings.Join(list, ", ")
				kinds[all] = append(kinds[all], files.Position(n.Pos()).String())
				return false
			}
			return true
		})
		for _, d := range file.Decls {
			if f, ok := d.(*ast.FuncDecl); ok && f.Body != nil && apart[f.Name.Name] == "" {
				at := fmt.Sprintf("%s (%s)", files.Position(f.Pos()), f.Name.Name)
				if text := bodyOf(f, filepath.Dir(name)); len(text) >= leastTwice {
					bodies[text] = append(bodies[text], at)
				}
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if len(bodies) < 3000 || len(kinds) < 10 {
		t.Fatalf("only %d bodies and %d lists were looked at", len(bodies), len(kinds))
	}
	for _, at := range bodies {
		if len(at) > 1 {
			t.Errorf("one body in %d places: %s", len(at), strings.Join(at, ", "))
		}
	}
	for list, at := range kinds {
		if len(at) > 1 {
			t.Errorf("the kinds %s are listed in %d places: %s", list, len(at), strings.Join(at, ", "))
		}
	}
}

// kindsOf returns what a case, a list or a chain of comparisons names of package graph.
func kindsOf(n ast.Node) []string {
	var out []string
	named := func(x ast.Expr) {
		if s, ok := x.(*ast.SelectorExpr); ok {
			if id, ok := s.X.(*ast.Ident); ok && id.Name == "graph" {
				out = append(out, s.Sel.Name)
			}
		}
	}
	switch n := n.(type) {
	case *ast.CaseClause:
		for _, x := range n.List {
			named(x)
		}
	case *ast.CompositeLit:
		for _, x := range n.Elts {
			named(x)
		}
	case *ast.BinaryExpr:
		if n.Op != token.LOR && n.Op != token.LAND {
			return nil
		}
		for _, x := range []ast.Expr{n.X, n.Y} {
			if c, ok := x.(*ast.BinaryExpr); ok && (c.Op == token.EQL || c.Op == token.NEQ) {
				named(c.Y)
				continue
			}
			out = append(out, kindsOf(x)...)
		}
	}
	return out
}

// bodyOf is the text of a function's body with its own names numbered as they come, so that it is the same
// whatever they are called; what else its package names is told by the package.
func bodyOf(f *ast.FuncDecl, dir string) string {
	names := map[string]string{f.Name.Name: "self"}
	own := func(ids ...*ast.Ident) {
		for _, id := range ids {
			if id.Name != "_" && names[id.Name] == "" {
				names[id.Name] = fmt.Sprintf("v%d", len(names))
			}
		}
	}
	asOwn := func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.Field:
			own(n.Names...)
		case *ast.ValueSpec:
			own(n.Names...)
		case *ast.AssignStmt:
			if n.Tok == token.DEFINE {
				for _, l := range n.Lhs {
					if id, ok := l.(*ast.Ident); ok {
						own(id)
					}
				}
			}
		case *ast.RangeStmt:
			for _, l := range []ast.Expr{n.Key, n.Value} {
				if id, ok := l.(*ast.Ident); ok && n.Tok == token.DEFINE {
					own(id)
				}
			}
		}
		return true
	}
	ast.Inspect(f, asOwn)
	var rename func(n ast.Node) bool
	rename = func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.SelectorExpr: // the field keeps its name, and so does a package
			if id, ok := n.X.(*ast.Ident); !ok || names[id.Name] != "" {
				ast.Inspect(n.X, rename)
			}
			return false
		case *ast.KeyValueExpr:
			ast.Inspect(n.Value, rename)
			return false
		case *ast.Ident:
			switch {
			case names[n.Name] != "":
				n.Name = names[n.Name]
			case types.Universe.Lookup(n.Name) == nil:
				n.Name = dir + "." + n.Name
			}
		}
		return true
	}
	ast.Inspect(f.Body, rename)
	var text bytes.Buffer
	if err := printer.Fprint(&text, token.NewFileSet(), f.Body); err != nil {
		return ""
	}
	return strings.Join(strings.Fields(text.String()), " ")
}

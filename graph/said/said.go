// Package said holds for tests what a room may say against what its cases have it say: a text
// nobody has seen is one nobody knows to read well, to be true or to be reached at all. Texts are the
// literals of its sources that have a blank in them; a case has said one where it stands in what came
// of it, whatever was put in for its verbs. Only tests import it, and it imports nothing of the house.
package said

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// Text is one of them.
type Text struct {
	At    token.Position
	Words string // as the source has them, unquoted
	form  *regexp.Regexp
}

// By reports whether it stands in what was said.
func (x Text) By(said string) bool { return x.form.MatchString(said) }

var verb = regexp.MustCompile(`%[-+.*#0-9\[\]]*[a-zA-Z]`)

// textOf is the text of a literal; ok is false where it is none.
func textOf(set *token.FileSet, n ast.Node) (x Text, ok bool) {
	lit, ok := n.(*ast.BasicLit)
	if !ok || lit.Kind != token.STRING {
		return Text{}, false
	}
	words, err := strconv.Unquote(lit.Value)
	if err != nil || !strings.Contains(strings.TrimSpace(words), " ") {
		return Text{}, false
	}
	var parts []string
	for _, p := range verb.Split(strings.ReplaceAll(words, "%%", "%"), -1) {
		parts = append(parts, regexp.QuoteMeta(p))
	}
	return Text{At: set.Position(lit.Pos()), Words: words, form: regexp.MustCompile(strings.Join(parts, ".*"))}, true
}

// In returns the texts of a room, but for what its tests say, what panics and what stands in the files
// or under the names given (of a field that is listed or set: "Source").
func In(t testing.TB, room string, but ...string) []Text {
	t.Helper()
	return read(t, room, but, func(set *token.FileSet, n ast.Node) ([]Text, bool) {
		switch n := n.(type) {
		case *ast.KeyValueExpr:
			if key, ok := n.Key.(*ast.Ident); ok && slices.Contains(but, key.Name) {
				return nil, false
			}
		case *ast.CallExpr:
			if to, ok := n.Fun.(*ast.Ident); ok && to.Name == "panic" {
				return nil, false
			}
		case *ast.Field: // its tag
			return nil, false
		case *ast.AssignStmt:
			if to, ok := n.Lhs[0].(*ast.SelectorExpr); ok && slices.Contains(but, to.Sel.Name) {
				return nil, false
			}
		}
		if x, ok := textOf(set, n); ok {
			return []Text{x}, true
		}
		return nil, true
	})
}

// Handed returns the texts of a room that are handed to methods of the names given as they are.
func Handed(t testing.TB, room string, to ...string) []Text {
	t.Helper()
	return read(t, room, nil, func(set *token.FileSet, n ast.Node) (out []Text, on bool) {
		call, ok := n.(*ast.CallExpr)
		if !ok {
			return nil, true
		}
		if f, ok := call.Fun.(*ast.SelectorExpr); !ok || !slices.Contains(to, f.Sel.Name) {
			return nil, true
		}
		for _, a := range call.Args {
			if x, ok := textOf(set, a); ok {
				out = append(out, x)
			}
		}
		return out, true
	})
}

// read walks the sources of a room; take returns the texts of a node, and whether to look into it.
func read(t testing.TB, room string, but []string, take func(*token.FileSet, ast.Node) ([]Text, bool)) []Text {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(room, "*.go"))
	if err != nil || len(files) == 0 {
		t.Fatalf("%d files in %s (%v)", len(files), room, err)
	}
	var out []Text
	set := token.NewFileSet()
	for _, file := range files {
		if strings.HasSuffix(file, "_test.go") || slices.Contains(but, filepath.Base(file)) {
			continue
		}
		tree, err := parser.ParseFile(set, file, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		ast.Inspect(tree, func(n ast.Node) bool {
			some, on := take(set, n)
			out = append(out, some...)
			return on
		})
	}
	return out
}

// Hold fails for each text that no case has said and that is not among those said elsewhere, with what
// has them said or why nothing can; for each that is both; and for one of the latter that is no text any
// more. It returns what is to be told, a line for each.
func Hold(texts []Text, said string, elsewhere map[string]string) []string {
	var out []string
	there := map[string]bool{}
	for _, x := range texts {
		there[x.Words] = true
		by, listed := elsewhere[x.Words]
		if byCase := x.By(said); byCase == listed {
			out = append(out, x.At.String()+": "+strconv.Quote(x.Words)+": said by a case: "+strconv.FormatBool(byCase)+
				", elsewhere: "+strconv.Quote(by)+"; want one of the two")
		}
	}
	for w := range elsewhere {
		if !there[w] {
			out = append(out, "nobody says "+strconv.Quote(w)+" any more")
		}
	}
	slices.Sort(out)
	return out
}

package rule

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"strings"
	"testing"
)

// The check of a rule stands in the file of its family, where the rule is listed; what several
// checks share may stand in a file of its own.
func TestChecksStandWithTheirFamily(t *testing.T) {
	files, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	set, listed := token.NewFileSet(), 0
	for _, name := range files {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		f, err := parser.ParseFile(set, name, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		here := map[string]bool{}
		for _, d := range f.Decls {
			if fn, ok := d.(*ast.FuncDecl); ok && fn.Recv == nil {
				here[fn.Name.Name] = true
			}
		}
		ast.Inspect(f, func(n ast.Node) bool {
			kv, ok := n.(*ast.KeyValueExpr)
			if !ok {
				return true
			}
			key, isName := kv.Key.(*ast.Ident)
			check, isFunc := kv.Value.(*ast.Ident)
			if !isName || key.Name != "Check" {
				return true
			}
			listed++
			if isFunc && !here[check.Name] {
				t.Errorf("%s lists a rule whose check, %s, stands in another file", set.Position(kv.Pos()), check.Name)
			}
			return true
		})
	}
	if listed != len(All()) {
		t.Errorf("%d checks were found of %d rules", listed, len(All()))
	}
}

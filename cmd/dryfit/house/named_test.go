package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"regexp"
	"strings"
	"testing"
)

// aReference is a name of a package of the house in a comment: "retrofit.Place". What is written in
// capitals alone stands for any word ("[[catalog.KIND]]").
var aReference = regexp.MustCompile(`\b([a-z]+)\.([A-Z]\w*[a-z]\w*)\b`)

// A comment, and the page for developers, names nothing of another package that isn't there any more.
func TestCommentsNameWhatIsThere(t *testing.T) {
	declared := map[string]map[string]bool{} // by the package's name
	said := map[string][]string{}            // by file
	err := sources(root, func(name string) error {
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.ParseComments)
		if err != nil {
			return err
		}
		for _, c := range file.Comments {
			said[name] = append(said[name], c.Text())
		}
		pkg := strings.TrimSuffix(file.Name.Name, "_test")
		if declared[pkg] == nil {
			declared[pkg] = map[string]bool{}
		}
		ast.Inspect(file, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.FuncDecl:
				declared[pkg][n.Name.Name] = true
				return false
			case *ast.TypeSpec:
				declared[pkg][n.Name.Name] = true
			case *ast.ValueSpec:
				for _, id := range n.Names {
					declared[pkg][id.Name] = true
				}
			case *ast.Field: // as "Fitting.Where" is written where its package is plain
				for _, id := range n.Names {
					declared[pkg][id.Name] = true
				}
			}
			return true
		})
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	said["DEVELOPERS.md"] = ticked(developers(t))
	found := 0
	for name, list := range said {
		for _, text := range list {
			for _, m := range aReference.FindAllStringSubmatch(text, -1) {
				names, house := declared[m[1]]
				if !house {
					continue
				}
				found++
				if !names[m[2]] {
					t.Errorf("%s names %s, which is not there", name, m[0])
				}
			}
		}
	}
	if found < 40 {
		t.Errorf("only %d names were looked up", found)
	}
}

package settle_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"strings"
	"testing"
)

// mayAsk are the files that may get at the catalogue, and for what. Everybody else reads the
// settled stage.
var mayAsk = map[string]string{
	"graph/settle/":      "settles",
	"graph/description/": "checks what a description names, and writes its own rows back",

	"graph/route/laying/work.go": "elbows, couplings and bends that legs and stock lengths ask for: the geometry chooses them",

	"graph/route/solid/size.go": "tells a measured outside from one a row of the user's has borrowed",

	"graph/retrofit/":              "chooses the parts of the new work",
	"graph/plan/advice/adviser.go": "compares springs",
	"graph/plan/advice/others.go":  "compares pumps and units",
	"graph/plan/advice/remedy.go":  "compares pumps",
	"graph/plan/advice/swap.go":    "chooses the next size of pipe",
	"graph/plan/closable.go":       "chooses unions and true-union valves",
	"graph/plan/search/bypass.go":  "compares springs",
	"graph/plan/search/help.go":    "chooses the next size of pipe",
	"graph/plan/search/spare.go":   "compares springs, chooses the next size of pipe",
	"graph/whatif/controls.go":     "offers springs and sizes of pipe to try",
	"graph/takeoff/spares.go":      "chooses spares",
	"graph/rule/adaptor.go":        "names what else could be fitted",
	"graph/rule/join.go":           "names the pipe a calliper has measured",
	"graph/rule/pipework.go":       "names the pipe a calliper has measured",
	"graph/match/match.go":         "compares units",
	"graph/heat/job/size.go":       "holds units of other sizes against the tub",
	"graph/heat/job/generic.go":    "scales the ratings of the usual unit for one whose row says its power alone",
	"render/survey/read.go":        "draws a template nobody has filled in: its circuit has no file whose rows could be settled",
	"render/tag/names.go":          "names a check by its style, of a circuit that nobody has settled (settle.CheckStyle)",
}

// A value that is defaulted in two places comes out differently in the two. So nobody but
// graph/settle looks into the catalogue for one; choosing a new part still does. The way to
// the catalogue is Circuit.Catalog, Stage.Catalog or catalog.Embedded.
func TestWhoAsksTheCatalogue(t *testing.T) {
	asks := map[string]bool{}
	for _, room := range []string{"graph", "render"} {
		root := filepath.Join("..", "..", room)
		err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
				return err
			}
			file, err := parser.ParseFile(token.NewFileSet(), path, nil, 0)
			if err != nil {
				return err
			}
			ast.Inspect(file, func(n ast.Node) bool {
				if s, ok := n.(*ast.SelectorExpr); ok && (s.Sel.Name == "Catalog" || s.Sel.Name == "Embedded") {
					if x, ok := s.X.(*ast.Ident); !ok || x.Name != "catalog" || s.Sel.Name == "Embedded" { // not the type
						asks[filepath.ToSlash(strings.TrimPrefix(path, filepath.Join("..", "..")+string(filepath.Separator)))] = true
					}
				}
				return true
			})
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	used := map[string]bool{}
	for file := range asks {
		listed := ""
		for name := range mayAsk {
			if file == name || strings.HasSuffix(name, "/") && strings.HasPrefix(file, name) {
				listed = name
			}
		}
		if listed == "" {
			t.Errorf("%s looks into the catalogue: read the settled stage, or say here why a new part is chosen", file)
		}
		used[listed] = true
	}
	for name := range mayAsk {
		if !used[name] {
			t.Errorf("%s is listed and asks no more: take it off the list", name)
		}
	}
}

package description

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// saidElsewhere are words that no file of testdata/wrong can bring about well, and what does.
var saidElsewhere = map[string]string{
	"%s is %d bytes long; at most %d are read": "TestHostileFiles",
	"shorten it": "TestHostileFiles",
	"the file is %d bytes long; a description is at most %d":                                       "TestHostileFiles",
	"a description holds one tub; split the file":                                                  "TestHostileFiles",
	"a carriage return without a line feed":                                                        "TestHostileFiles",
	"end lines with LF or CR LF":                                                                   "TestHostileFiles",
	"it stands on papers: shorten it":                                                              "TestHostileFiles",
	"keep those that show what the drawings don't":                                                 "TestHostileFiles",
	"%d photos are more than the %d that go with a job":                                            "TestHostileFiles",
	"there are more than %d legs":                                                                  "TestHostileFiles",
	"a part of so many ports is several parts":                                                     "TestHostileFiles",
	"there are %d ports; at most %d are read":                                                      "TestHostileFiles",
	"leave out the speeds that are not used":                                                       "TestHostileFiles",
	"there are %d speeds; at most %d are read":                                                     "TestHostileFiles",
	"take several together":                                                                        "TestHostileFiles",
	"there are %d boxes to keep clear; at most %d are read":                                        "TestHostileFiles",
	"there are %d %s; at most %d are read":                                                         "TestHostileFiles",
	"this catalogue holds no rows":                                                                 "match.txtar",
	"[[catalog.KIND]] tables, such as [[catalog.pump]], each with its name; or leave the file out": "match.txtar",
}

// TestEveryMistakeIsMade looks for all that the reader may have to say, and what it then asks for, among
// what it says of testdata/wrong: nobody has seen how what is missing there reads.
func TestEveryMistakeIsMade(t *testing.T) {
	goldens, err := filepath.Glob("testdata/wrong/*.golden")
	if err != nil || len(goldens) == 0 {
		t.Fatalf("%d goldens (%v)", len(goldens), err)
	}
	var all strings.Builder
	for _, g := range goldens {
		data, err := os.ReadFile(g)
		if err != nil {
			t.Fatal(err)
		}
		all.Write(data)
	}
	said, words := all.String(), map[string]bool{}
	for _, dir := range []string{".", "field", "located", "pipework"} {
		for _, w := range wordsOf(t, dir) {
			words[w.text] = true
			made := w.form.MatchString(said)
			if by, elsewhere := saidElsewhere[w.text]; made == elsewhere {
				t.Errorf("%s: %q: said by testdata/wrong: %v, by another test: %q; want one of the two", w.at, w.text, made, by)
			}
		}
	}
	for w := range saidElsewhere {
		if !words[w] {
			t.Errorf("nobody says %q any more", w)
		}
	}
}

// word is a text that a reader hands over as what is wrong or what would be right.
type word struct {
	at   token.Position
	text string
	form *regexp.Regexp // what it becomes
}

var verb = regexp.MustCompile(`%[-+.*#0-9]*[a-zA-Z]`)

// wordsOf reads the sources of a package for them.
func wordsOf(t *testing.T, dir string) []word {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(dir, "*.go"))
	if err != nil || len(files) == 0 {
		t.Fatalf("%d files in %s (%v)", len(files), dir, err)
	}
	var out []word
	set := token.NewFileSet()
	for _, file := range files {
		if strings.HasSuffix(file, "_test.go") {
			continue
		}
		tree, err := parser.ParseFile(set, file, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		ast.Inspect(tree, func(n ast.Node) bool {
			call, ok := n.(*ast.CallExpr)
			if !ok {
				return true
			}
			if to, ok := call.Fun.(*ast.SelectorExpr); !ok || to.Sel.Name != "Fail" && to.Sel.Name != "Add" {
				return true
			}
			for _, a := range call.Args {
				lit, ok := a.(*ast.BasicLit)
				if !ok || lit.Kind != token.STRING {
					continue
				}
				text, _ := strconv.Unquote(lit.Value)
				if !strings.Contains(text, " ") {
					continue
				}
				var parts []string
				for _, p := range verb.Split(strings.ReplaceAll(text, "%%", "%"), -1) {
					parts = append(parts, regexp.QuoteMeta(p))
				}
				out = append(out, word{set.Position(lit.Pos()), text, regexp.MustCompile(strings.Join(parts, ".*"))})
			}
			return true
		})
	}
	return out
}

package rule_test

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

	"dryfit/graph/plan"
	"dryfit/graph/rule"
)

// otherCases are descriptions of whole jobs in which more is said: of work that the tool plans.
var otherCases = []string{"../plan/testdata/jobs/shared-filter.toml", "../plan/testdata/jobs/pumps-side-by-side.toml", "../plan/testdata/tubs/small-branch.toml", "../plan/testdata/tubs/threads.toml"}

// saidElsewhere are texts that no case of a rule brings about well, and the test that does.
var saidElsewhere = map[string]string{
	"it gets with such a filter": "TestWhatAnotherFilterDoesToAnOldUnit",
	"it warms by":                "TestWhatWasBadAndGetsWorse",
	"and %d more like these":     "TestFollowsFromTheMistakeItHangsOn",
}

// TestEverythingIsSaid looks for every text of the rules' source among what they say of their failing
// cases: nobody has seen how what is missing there reads.
func TestEverythingIsSaid(t *testing.T) {
	var said strings.Builder
	for _, r := range rule.All() {
		for _, file := range cases(t, r, "fail") {
			for _, d := range findings(t, file) {
				said.WriteString(d.Message.String() + "\n" + d.Hint.String() + "\n")
				for _, other := range d.Related {
					said.WriteString(other.Message.String() + "\n")
				}
			}
		}
	}
	for _, file := range otherCases {
		for _, d := range findings(t, file) {
			said.WriteString(d.Message.String() + "\n" + d.Hint.String() + "\n")
		}
	}
	for _, name := range []string{"cut-room", "cut-reachable", "cut-clear-room"} { // as long as nothing was tried
		for _, d := range found(t, name, read(t, filepath.Join("testdata", name, "fail.patch")), plan.Swift) {
			said.WriteString(d.Hint.String() + "\n")
		}
	}
	files, err := filepath.Glob("*.go")
	if err != nil || len(files) == 0 {
		t.Fatalf("%d files (%v)", len(files), err)
	}
	set := token.NewFileSet()
	for _, file := range files {
		if strings.HasSuffix(file, "_test.go") || file == "word.go" || file == "doc.go" || file == "table.go" {
			continue
		}
		tree, err := parser.ParseFile(set, file, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		for _, w := range texts(tree) {
			literal, _ := strconv.Unquote(w.lit.Value)
			byCase := w.form().MatchString(said.String())
			if by, elsewhere := saidElsewhere[literal]; elsewhere == byCase {
				t.Errorf("%s: %s: said by a case: %v, by another test: %q; want one of the two", set.Position(w.lit.Pos()), w.lit.Value, byCase, by)
			}
		}
	}
}

// text is one of several words in the source of a rule.
type text struct{ lit *ast.BasicLit }

var verb = regexp.MustCompile(`%[-+.*#0-9\[\]]*[a-zA-Z]`)

// form is what it becomes once its verbs are filled in.
func (w text) form() *regexp.Regexp {
	s, _ := strconv.Unquote(w.lit.Value)
	var parts []string
	for _, p := range verb.Split(strings.ReplaceAll(s, "%%", "%"), -1) {
		parts = append(parts, regexp.QuoteMeta(p))
	}
	return regexp.MustCompile(strings.Join(parts, ".*"))
}

// texts are those of a file, but for what the list of rules says of them.
func texts(tree *ast.File) []text {
	var out []text
	ast.Inspect(tree, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.KeyValueExpr:
			if key, ok := n.Key.(*ast.Ident); ok && slices.Contains([]string{"Name", "Asks", "Why", "Source"}, key.Name) {
				return false
			}
		case *ast.BasicLit:
			if n.Kind == token.STRING && strings.Count(strings.Trim(n.Value, "\"` "), " ") > 0 {
				out = append(out, text{n})
			}
		}
		return true
	})
	return out
}

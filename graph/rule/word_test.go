package rule

import (
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// Whatever stands in brackets behind a finding can be explained, and nothing is explained that
// stands behind none: the names are looked for in the source.
func TestEveryNameInBrackets(t *testing.T) {
	said := regexp.MustCompile(`\bRule(?::| =) *"([a-z-]+)"`)
	used := map[string]bool{}
	for _, dir := range []string{"../../graph", "../../cmd", "../../render"} {
		err := filepath.WalkDir(dir, func(path string, e fs.DirEntry, err error) error {
			if err != nil || e.IsDir() || filepath.Ext(path) != ".go" || strings.HasSuffix(path, "_test.go") {
				return err
			}
			text, err := os.ReadFile(path)
			for _, m := range said.FindAllStringSubmatch(string(text), -1) {
				used[m[1]] = true
			}
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	if len(used) < 15 {
		t.Fatalf("only %d names found", len(used))
	}
	for name := range used {
		if ByName(name) == nil && WordByName(name) == nil {
			t.Errorf("nobody explains [%s]", name)
		}
	}
	for _, w := range Words {
		if !used[w.Name] {
			t.Errorf("[%s] is explained and stands nowhere", w.Name)
		}
	}
	if !slices.IsSortedFunc(Words, func(a, b Word) int { return strings.Compare(a.Name, b.Name) }) {
		t.Error("the words are not in order")
	}
}

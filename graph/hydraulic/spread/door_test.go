package spread

import (
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// Whoever solves a circuit solves the case that is taken, by Build, Solve or SolveNear of this package: one
// who goes to package hydraulic itself has the description alone, whatever was read on the tub. Who may:
var mayDescribe = map[string]string{
	"graph/hydraulic/spread/taken.go": "is the door",
	"graph/plan/stage/stage.go":       "AsDescribed",
}

func TestWhoSolvesTheDescriptionAlone(t *testing.T) {
	solves := regexp.MustCompile(`\bhydraulic\.(Build|Solve|SolveNear)\(`)
	found := map[string]int{}
	root := filepath.Join("..", "..", "..")
	for _, room := range []string{"graph", "render", "cmd"} {
		err := filepath.WalkDir(filepath.Join(root, room), func(path string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
				return err
			}
			text, err := os.ReadFile(path)
			if n := len(solves.FindAll(text, -1)); n > 0 {
				name, _ := filepath.Rel(root, path)
				found[filepath.ToSlash(name)] = n
			}
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	if got, want := slices.Sorted(maps.Keys(found)), slices.Sorted(maps.Keys(mayDescribe)); !slices.Equal(got, want) {
		t.Errorf("the description alone is solved in %v, may be in %v", got, want)
	}
	if n := found["graph/plan/stage/stage.go"]; n != 1 {
		t.Errorf("stage.go solves the description alone in %d places, may in one", n)
	}
}

package main

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"

	"dryfit/cmd/dryfit/stdout"
	_ "dryfit/graph/lots" // garbage is collected seldom
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"dryfit": main})
}

// TestScripts runs the command lines of testdata/script, bad input first. $DEMOS is the
// folder of the demos. The scripts share one cache, as the runs of one user do: engine.txtar
// finds it empty and leaves the layout engine's code there for all the others.
func TestScripts(t *testing.T) {
	t.Parallel()
	demos, err := filepath.Abs("../../testdata")
	if err != nil {
		t.Fatal(err)
	}
	all, err := filepath.Glob("testdata/script/*.tx*")
	if err != nil {
		t.Fatal(err)
	}
	first := filepath.Join("testdata", "script", "engine.txtar")
	at := slices.Index(all, first)
	if at < 0 {
		t.Fatalf("%s is not among %d scripts", first, len(all))
	}
	cache := filepath.Join(t.TempDir(), "cache")
	t.Run("first", func(t *testing.T) { runScripts(t, demos, cache, []string{first}) })
	runScripts(t, demos, cache, slices.Delete(all, at, at+1))
}

func runScripts(t *testing.T, demos, cache string, files []string) {
	t.Helper()
	testscript.Run(t, testscript.Params{
		Files: files,
		Setup: func(env *testscript.Env) error {
			env.Setenv("DEMOS", demos)
			env.Setenv("HOME", env.WorkDir)
			env.Setenv("XDG_CACHE_HOME", cache)
			env.Setenv("NO_COLOR", "1")
			env.Setenv("GOGC", "400") // three hundred short lives: a sixth of their CPU was the collector's
			return nil
		},
		Condition: func(name string) (bool, error) {
			if name != "seesclosed" {
				return false, fmt.Errorf("no condition %q", name)
			}
			return stdout.SeesClosed, nil
		},
		UpdateScripts: os.Getenv("UPDATE_SCRIPTS") != "",
	})
}

package main

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"

	"dryfit/cmd/dryfit/stdout"
	_ "dryfit/graph/lots" // garbage is collected seldom
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"dryfit": main})
}

// TestScripts runs the command lines of testdata/script, bad input first. $DEMOS is the
// folder of the demos. The scripts share one cache, as the runs of one user do.
func TestScripts(t *testing.T) {
	demos, err := filepath.Abs("../../testdata")
	if err != nil {
		t.Fatal(err)
	}
	cache := t.TempDir()
	testscript.Run(t, testscript.Params{
		Dir: "testdata/script",
		Setup: func(env *testscript.Env) error {
			env.Setenv("DEMOS", demos)
			env.Setenv("HOME", env.WorkDir)
			env.Setenv("XDG_CACHE_HOME", cache)
			env.Setenv("NO_COLOR", "1")
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

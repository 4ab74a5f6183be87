package main

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"dryfit": main})
}

// TestScripts runs the command lines of testdata/script, bad input first. $DEMOS is the
// folder of the demos.
func TestScripts(t *testing.T) {
	demos, err := filepath.Abs("../../testdata")
	if err != nil {
		t.Fatal(err)
	}
	testscript.Run(t, testscript.Params{
		Dir: "testdata/script",
		Setup: func(env *testscript.Env) error {
			env.Setenv("DEMOS", demos)
			env.Setenv("HOME", env.WorkDir)
			return os.Setenv("NO_COLOR", "1")
		},
		UpdateScripts: os.Getenv("UPDATE_SCRIPTS") != "",
	})
}

package plan_test

import (
	"os"
	"testing"

	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/plan"
)

// read reads a description and fails the test where it has an error.
func read(tb testing.TB, file string, data []byte) *graph.Circuit {
	tb.Helper()
	c, ds := description.Read(file, data)
	if c == nil || graph.HasErrors(ds) {
		tb.Fatalf("%s: %v", file, ds)
	}
	return c
}

func readFile(tb testing.TB, file string) *graph.Circuit {
	tb.Helper()
	data, err := os.ReadFile(file)
	if err != nil {
		tb.Fatal(err)
	}
	return read(tb, file, data)
}

func work(tb testing.TB, c *graph.Circuit, want plan.Want) *plan.Plan {
	tb.Helper()
	p, err := plan.Make(c, want)
	if err != nil {
		tb.Fatal(err)
	}
	return p
}

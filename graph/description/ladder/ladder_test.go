package ladder_test

import (
	"flag"
	"os"
	"testing"

	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/description/ladder"
)

var (
	write = flag.String("write", "", "write the description of -runs runs to this file")
	runs  = flag.Int("runs", 500, "how many runs -write makes")
)

// A ladder is a circuit without a mistake, of about as many runs as asked for. With -write it
// is written to a file, for the table of speeds in DEVELOPERS.md.
func TestLadder(t *testing.T) {
	for _, n := range []int{20, 50, 200, 500, 1000} {
		c, ds := description.Read("ladder.toml", ladder.Of(n))
		if c == nil || graph.HasErrors(ds) {
			t.Fatalf("%d runs: %v", n, ds)
		}
		if got := len(c.Runs); got < n-3 || got > n+3 {
			t.Errorf("%d runs, want about %d", got, n)
		}
	}
	if *write != "" {
		if err := os.WriteFile(*write, ladder.Of(*runs), 0o666); err != nil {
			t.Fatal(err)
		}
	}
}

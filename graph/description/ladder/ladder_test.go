package ladder_test

import (
	"bytes"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/description/ladder"
)

var (
	write = flag.String("write", "", "write the description of -runs runs to this file")
	runs  = flag.Int("runs", 500, "how many runs -write makes")
	into  = flag.String("mutated", "", "write 300 demos with a token or two changed into this folder")
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

// The same seed changes the same tokens, and something is changed. With -mutated the changed
// demos are written, for the table of the worst in DEVELOPERS.md.
func TestMutate(t *testing.T) {
	files, err := filepath.Glob("../../../testdata/*.toml")
	if err != nil || len(files) == 0 {
		t.Fatal("no demos", err)
	}
	read, changed := 0, 0
	for i := range 300 {
		data, err := os.ReadFile(files[i%len(files)])
		if err != nil {
			t.Fatal(err)
		}
		out := ladder.Mutate(data, uint64(i), 1+i%2)
		if !bytes.Equal(out, ladder.Mutate(data, uint64(i), 1+i%2)) {
			t.Fatalf("seed %d changes other tokens the second time", i)
		}
		if !bytes.Equal(out, data) {
			changed++
		}
		if c, _ := description.Read("mutated.toml", out); c != nil {
			read++
		}
		if *into != "" {
			if err := os.WriteFile(filepath.Join(*into, fmt.Sprintf("%03d.toml", i)), out, 0o666); err != nil {
				t.Fatal(err)
			}
		}
	}
	if changed < 250 || read < 100 {
		t.Errorf("of 300 %d are changed, and %d read", changed, read)
	}
}

package engine

import (
	"bytes"
	"encoding/json"
	"os"
	"os/exec"
	"slices"
	"strings"
	"sync"
	"testing"
)

const three = `digraph{rankdir=LR;node[shape=box,fixedsize=true,label="",width=1,height=0.5];n0->n1;n1->n2;n2->n0[constraint=false];}`

func TestLayout(t *testing.T) {
	out, err := Layout([]byte(three))
	if err != nil {
		t.Fatal(err)
	}
	// Default ranksep of dot is 0.5 in and a node is 1 in wide: middles 1.5 in, 108 pt, apart
	// (the Graphviz reference: width in inches, pos in points).
	got := places(t, out)
	for i, x := range []string{"36", "144", "252"} {
		if at, y, _ := strings.Cut(got[i], ","); at != x || y == "" || !strings.HasSuffix(got[0], ","+y) {
			t.Errorf("nodes at %q, want them in line at 36, 144 and 252", got)
		}
	}
}

// places returns the positions of n0, n1, … in order.
func places(t *testing.T, out []byte) []string {
	t.Helper()
	var doc struct {
		Objects []struct{ Name, Pos string }
	}
	if err := json.Unmarshal(out, &doc); err != nil {
		t.Fatal(err)
	}
	at := map[string]string{}
	for _, o := range doc.Objects {
		at[o.Name] = o.Pos
	}
	return []string{at["n0"], at["n1"], at["n2"]}
}

// What can't be read is refused, and what comes after it is laid out as if nothing had been.
func TestFailureLeavesNothingBehind(t *testing.T) {
	before, err := Layout([]byte(three))
	if err != nil {
		t.Fatal(err)
	}
	for _, bad := range []string{"", "not a graph", "digraph{", "digraph{a->b"} {
		if out, err := Layout([]byte(bad)); err == nil {
			t.Errorf("%q was laid out: %s", bad, out)
		}
	}
	after, err := Layout([]byte(three))
	if err != nil || !bytes.Equal(before, after) {
		t.Errorf("a later layout differs (%v)", err)
	}
}

func TestManyAtOnce(t *testing.T) {
	want, err := Layout([]byte(three))
	if err != nil {
		t.Fatal(err)
	}
	var all sync.WaitGroup
	for range 8 {
		all.Go(func() {
			if got, err := Layout([]byte(three)); err != nil || !bytes.Equal(got, want) {
				t.Errorf("one of many differs (%v)", err)
			}
		})
	}
	all.Wait()
}

// The same graph, laid out by a Graphviz of the system's, has its nodes at the same places.
func TestAgainstNative(t *testing.T) {
	dot, err := exec.LookPath("dot")
	if err != nil {
		t.Log("no Graphviz on this machine: held against its reference in TestLayout only")
		return
	}
	file := t.TempDir() + "/g.dot"
	if err := os.WriteFile(file, []byte(three), 0o600); err != nil {
		t.Fatal(err)
	}
	theirs, err := exec.Command(dot, "-Tjson0", file).Output()
	if err != nil {
		t.Fatal(err)
	}
	ours, err := Layout([]byte(three))
	if err != nil {
		t.Fatal(err)
	}
	if a, b := places(t, ours), places(t, theirs); !slices.Equal(a, b) {
		t.Errorf("nodes at %q, by the system's Graphviz at %q", a, b)
	}
}

package settle_test

import (
	"os"
	"path/filepath"
	"slices"
	"testing"

	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/settle"
)

// What was settled of a part made for one pipe, written out as its key, settles everything as it
// was: its spec, its size, a tee's branch size, the row it was taken to be. Of the demos, on glued
// pipe and on hose. Checked against nothing but itself: a property.
func TestSettledSaidOut(t *testing.T) {
	files, err := filepath.Glob("../../testdata/*.toml")
	if err != nil || len(files) == 0 {
		t.Fatal(files, err)
	}
	cases := 0
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		c, ds := description.Read(file, data)
		if c == nil {
			t.Fatal(ds)
		}
		c = c.At(graph.After)
		was := settle.Of(c)
		for i, p := range c.Parts {
			set := was.Part(p.ID)
			if !settle.Fitted(p.Kind) || p.Type != "" {
				continue
			}
			for key, say := range map[string]func(*graph.Part){
				"spec": func(p *graph.Part) { p.Spec = set.Spec.V },
				"size": func(p *graph.Part) { p.Size = set.Size.V },
				"both": func(p *graph.Part) { p.Spec, p.Size = set.Spec.V, set.Size.V },
				"branch-size": func(p *graph.Part) {
					if p.Kind == graph.Tee {
						p.BranchSize = set.Branch.V
					}
				},
				"type": func(p *graph.Part) {
					if set.Row.How == settle.Row {
						p.Type = set.Row.V.Name
					}
				},
			} {
				cases++
				said, now := *p, *c
				say(&said)
				now.Parts = slices.Clone(c.Parts)
				now.Parts[i] = &said
				sameValues(t, file+": "+p.ID+" with its "+key+" said", was, settle.Of(&now))
			}
		}
	}
	if cases < 40 {
		t.Errorf("only %d cases", cases)
	}
}

// sameValues fails where two stages have other values, whoever's word they are.
func sameValues(t *testing.T, what string, a, b *settle.Stage) {
	t.Helper()
	type value struct {
		v    float64
		text string
	}
	all := func(s *settle.Stage) map[settle.Key]value {
		out := map[settle.Key]value{}
		for k, v := range s.Values() {
			out[k] = value{v.V, v.Text}
		}
		return out
	}
	had, has := all(a), all(b)
	for k, v := range had {
		if w, ok := has[k]; !ok || w != v {
			t.Errorf("%s: %s is %v, was %v", what, k, w, v)
		}
	}
	for k, w := range has {
		if _, ok := had[k]; !ok {
			t.Errorf("%s: %s is %v, was not known", what, k, w)
		}
	}
}

// In what order the tables of the file come settles nothing.
func TestSettledInAnyOrder(t *testing.T) {
	for _, file := range []string{"circulation", "large-circulation", "plug-in"} {
		data, err := os.ReadFile("../../testdata/" + file + ".toml")
		if err != nil {
			t.Fatal(err)
		}
		c, ds := description.Read(file, data)
		if c == nil {
			t.Fatal(ds)
		}
		was := settle.Of(c.At(graph.After))
		turned := *c
		turned.Runs, turned.Parts = slices.Clone(c.Runs), slices.Clone(c.Parts)
		slices.Reverse(turned.Runs)
		slices.Reverse(turned.Parts)
		sameValues(t, file+" turned round", was, settle.Of(turned.At(graph.After)))
	}
}

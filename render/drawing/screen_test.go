package drawing

import (
	"bytes"
	"os"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph/description"
	"dryfit/graph/plan"
	"dryfit/render/scene"
)

// Where the key of a view is the same, so is the picture; where the picture is another, so is
// the key. Tried with changes of every kind of thing a drawing may show.
func TestKeySaysWhatAViewShows(t *testing.T) {
	data, err := os.ReadFile("../../testdata/plug-in.toml")
	if err != nil {
		t.Fatal(err)
	}
	type drawn struct {
		key string
		svg []byte
	}
	all := func(text string) map[string]drawn {
		c, ds := description.Read("x.toml", []byte(text))
		if c == nil {
			t.Fatal(ds)
		}
		p, err := plan.Make(c, plan.Findings|plan.Flows|plan.Lists)
		if err != nil {
			t.Fatal(err)
		}
		out := map[string]drawn{}
		for _, v := range Views() {
			if v == "isometric" {
				continue // takes long, and shows what the detail and the cut plan are made of
			}
			key, err := Key(p, v, quantity.MetricSystem)
			if err != nil {
				t.Fatal(err)
			}
			pages, err := Screen(p, v, quantity.MetricSystem)
			if err != nil {
				t.Fatal(err)
			}
			var svg []byte
			for _, s := range pages {
				svg = append(svg, scene.SVG(s)...)
			}
			out[v] = drawn{key, svg}
		}
		return out
	}
	was := all(string(data))
	kept := 0
	for _, change := range [][2]string{
		{"[job]\n", "# a remark\n[job]\n"}, {`id = "unit"`, `id = "unit" # here`}, {`name = "`, `name = "Another `}, {`count = `, `count = 1`}, {`price = "`, `price = "1`}, {"length = \"3 m\"", "length = \"4 m\""}, {"least = \"", "least = \"1"},
	} {
		text := strings.Replace(string(data), change[0], change[1], 1)
		c, _ := description.Read("x.toml", []byte(text))
		if c == nil {
			continue // the demo has no such line
		}
		for v, now := range all(text) {
			if was[v].key == now.key {
				kept++
				if !bytes.Equal(was[v].svg, now.svg) {
					t.Errorf("%q: the %s has the same key and is another picture", change[1], v)
				}
			}
		}
	}
	if kept < 12 {
		t.Errorf("%d pictures kept: the keys know too much", kept)
	}
}

// On a screen too the sheets of a view are numbered through: one drawn before the work and one after it are 1 and 2
// of 2, not 1 of 1 and 2 of 2.
func TestScreenNumbersItsSheets(t *testing.T) {
	pages, err := Screen(jobPlan(t, "unit-out.toml"), "isometric", quantity.MetricSystem)
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, s := range pages {
		for _, it := range s.Items {
			if word, ok := it.(scene.Text); ok && word.Name == "title:Sheet" {
				got = append(got, word.Text)
			}
		}
	}
	if strings.Join(got, ", ") != "1 of 2, 2 of 2" {
		t.Errorf("sheets %q", got)
	}
}

package whatif

import (
	"errors"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/description/meaning"
	"dryfit/graph/plan"
)

// blank returns the field of a key in a table of a form.
func field(t *testing.T, form []Table, table, label string) *Field {
	t.Helper()
	for i := range form {
		if form[i].Title == table {
			for k := range form[i].Fields {
				if form[i].Fields[k].Label == label {
					return &form[i].Fields[k]
				}
			}
		}
	}
	t.Fatalf("no field %s in %s", label, table)
	return nil
}

// The blanks of a template are fields; what is typed goes into the file, in the form the key
// wants, and what does not fit is refused with what would.
func TestFillsATemplate(t *testing.T) {
	text, err := description.Template("two-speed")
	if err != nil {
		t.Fatal(err)
	}
	j := Job{File: "job.toml", Text: text}
	if got := j.Circuit(); got != "two-speed" {
		t.Errorf("the circuit is %q", got)
	}
	form := j.Form()
	if f := field(t, form, "[water]", "volume"); f.Means != meaning.Of("water", "volume") || meaning.Of("water", "volume") == "" {
		t.Errorf("the volume means %q", f.Means)
	}
	if f := field(t, form, "part jets", "count"); f.Means == "" {
		t.Error("nobody says what the count of jets means")
	}
	blanks := 0
	for _, table := range form {
		blanks += table.Blanks
		for _, f := range table.Fields {
			if f.Blank && f.Hint == "" {
				t.Errorf("%s, %s: no hint", table.Title, f.Label)
			}
		}
	}
	if _, found := j.Read(); blanks != len(found) || blanks < 20 {
		t.Errorf("%d blanks, %d findings", blanks, len(found))
	}
	for _, c := range []struct{ table, label, typed, want string }{
		{"[job]", "name", "A tub", `name = "A tub"`},
		{"[water]", "volume", "1250 l", `volume = "1250 l"`},
		{"[pipe]", "size", "2 in", `size = "2 in"`},
		{"part jets", "count", "16", `count = 16`},
		{"part element", "disconnected", "true", `disconnected = true`},
		{"run return-line", "legs", "right 120 mm, up 260 mm", `legs = ["right 120 mm", "up 260 mm"]`},
		{"part unit", "flow, rated", "4.2 m3/h", `rated = "4.2 m3/h"`},
	} {
		f := field(t, form, c.table, c.label)
		got, err := j.Fill(f.Path, c.typed)
		if err != nil || !strings.Contains(string(got), c.want) || strings.Count(string(got), "\n") != strings.Count(string(j.Text), "\n") {
			t.Fatalf("%s, %s = %q: %v", c.table, c.label, c.typed, err)
		}
		j.Text = got
		form = j.Form()
		if f := field(t, form, c.table, c.label); f.Blank || f.Value != c.typed {
			t.Errorf("%s, %s is %q afterwards", c.table, c.label, f.Value)
		}
	}
	for _, c := range []struct{ table, label, typed, want string }{
		{"[water]", "volume", "1250", "unit"},
		{"[water]", "volume", "many", ""},
		{"part jets", "count", "some", "whole number"},
		{"run return-line", "legs", "sideways 3 mm", ""},
		{"[site]", "region", "moon", "moon"},
		{"[job]", "name", "  ", "nothing"},
	} {
		_, err := j.Fill(field(t, form, c.table, c.label).Path, c.typed)
		var no *Refusal
		if !errors.As(err, &no) || !strings.Contains(no.Message.String()+" "+no.Hint.String(), c.want) {
			t.Errorf("%s, %s = %q: %v", c.table, c.label, c.typed, err)
		}
	}
	// a text that would be more than a value stays a text
	got, err := j.Fill(field(t, form, "[job]", "name").Path, "x\"\nevil = \"1")
	if err == nil && strings.Contains(string(got), "\nevil") {
		t.Error("a value writes a key")
	}
	for _, path := range [][]any{nil, {"job"}, {"part"}, {"part", 99, "id"}, {"nothing", "at all"}, {"part", 0}} {
		if _, err := j.Fill(path, "x"); err == nil {
			t.Errorf("%v is filled", path)
		}
	}
}

// A key the reader can do without may be left open; one it needs may not.
func TestLeavesOpen(t *testing.T) {
	text, err := description.Template("two-speed")
	if err != nil {
		t.Fatal(err)
	}
	j := Job{File: "job.toml", Text: text}
	form := j.Form()
	if f := field(t, form, "[site]", "air"); !f.IsOpen {
		t.Error("the air of the site can't be left open")
	} else if got, err := j.Open(f.Key); err != nil || strings.Contains(string(got), "\nair = \"?\"") {
		t.Errorf("it is there still: %v", err)
	}
	if f := field(t, form, "run tub.skimmer>suction-tee.run-in", "length"); f.IsOpen {
		t.Error("a run without a length is left open")
	} else if _, err := j.Open(f.Key); err == nil {
		t.Error("a key that is needed is taken out")
	}
	for _, path := range [][]any{nil, {"part"}, {"part", 0}, {"pipe"}, {"part", 0, "id"}} {
		if _, err := j.Open(path); err == nil {
			t.Errorf("%v is taken out", path)
		}
	}
}

// A value over several lines is held against the reader line by line, keeps its remarks, and is
// not blamed for what stands beside it.
func TestFillsOverLines(t *testing.T) {
	text, err := description.Template("two-speed")
	if err != nil {
		t.Fatal(err)
	}
	j := Job{File: "job.toml", Text: text}
	path := field(t, j.Form(), "run return-line", "legs").Path
	if j.Text, err = j.Fill(path, "right 120 mm, up 260 mm"); err != nil {
		t.Fatal(err)
	}
	one := `legs = ["right 120 mm", "up 260 mm"]`
	j.Text = []byte(strings.Replace(string(j.Text), one, "legs = [\n  \"right 120 mm\", # along the wall\n  \"up 260 mm\",\n]", 1))
	got, err := j.Fill(path, "right 120 mm, up 300 mm")
	if want := strings.Replace(string(j.Text), `"up 260 mm"`, `"up 300 mm"`, 1); err != nil || string(got) != want || !strings.Contains(want, `"up 300 mm"`) {
		t.Errorf("%v\n%s", err, got)
	}
	var no *Refusal
	for _, bad := range []string{"right 120 mm, sideways 3 mm", "right 120 mm, up 260"} {
		if _, err := j.Fill(path, bad); !errors.As(err, &no) {
			t.Errorf("%q: %v", bad, err)
		}
	}
	// beside a value that is wrong another can be filled in
	k := Job{File: "job.toml", Text: []byte(strings.Replace(string(text), `least = "?", rated = "?"`, `least = "much", rated = "?"`, 1))}
	rated := field(t, k.Form(), "part unit", "flow, rated").Path
	if got, err := k.Fill(rated, "4.2 m3/h"); err != nil || !strings.Contains(string(got), `least = "much", rated = "4.2 m3/h"`) {
		t.Errorf("beside a wrong value: %v", err)
	}
	if _, err := k.Fill(rated, "little"); !errors.As(err, &no) {
		t.Errorf("wrong itself: %v", err)
	}
}

// Of every blank of a template that may be left open somebody wrote down what is taken then.
func TestSaysWhatIsTakenOfOpenKeys(t *testing.T) {
	for _, name := range description.Templates() {
		text, err := description.Template(name)
		if err != nil {
			t.Fatal(err)
		}
		j := Job{File: "job.toml", Text: text}
		open := 0
		for _, table := range j.Form() {
			for _, f := range table.Fields {
				if !f.Blank || !f.IsOpen {
					continue
				}
				if open++; f.Open == "" {
					t.Errorf("%s, %s, %s: nobody says what is taken of it", name, table.Title, f.Label)
				}
			}
		}
		if open < 15 {
			t.Errorf("%s: %d blanks may be left open", name, open)
		}
	}
}

// The amounts said to be taken are those that are taken of a job that leaves the keys open.
func TestTakesOfOpenKeysWhatItSays(t *testing.T) {
	s := demo(t, "two-speed")
	text := string(s.Job.Text)
	for _, key := range []string{"volume", "temperature", "air", "least-air", "highest-pressure"} {
		var kept []string
		for line := range strings.Lines(text) {
			if !strings.HasPrefix(line, key+" = \"") { // the months' air is a list
				kept = append(kept, line)
			}
		}
		text = strings.Join(kept, "")
	}
	j := Job{File: "job.toml", Text: []byte(text)}
	p, found := j.Plan(plan.Flows | plan.Lists | plan.Heat)
	if p == nil || p.Heat == nil {
		t.Fatal(found)
	}
	set := p.After.Layout.Stage
	said := func(section, key string, v float64, dim quantity.Dimension) {
		t.Helper()
		if amount := quantity.Format(v, dim, quantity.MetricSystem); !strings.Contains(meaning.Open(section, key), amount) {
			t.Errorf("[%s] %s: %s is taken; said is %q", section, key, amount, meaning.Open(section, key))
		}
	}
	said("water", "temperature", set.Water.TemperatureC.V, quantity.Temperature)
	if got := set.Part("unit").Highest.V; got != 2e5 || !strings.Contains(meaning.Open("heat-pump", "highest-pressure"), "2 bar") {
		t.Errorf("the unit is taken to stand %g Pa; said is %q", got, meaning.Open("heat-pump", "highest-pressure"))
	}
	taken := map[string]bool{}
	for _, a := range p.Heat.Assumed {
		switch {
		case a.What == "volume of the water":
			said("water", "volume", a.Value, a.Dim)
		case a.What == "coldest air at which the tub is held":
			said("site", "air", a.Value, a.Dim)
		case strings.HasPrefix(string(a.What), "coldest air in which"):
			said("heat-pump", "least-air", a.Value, a.Dim)
		default:
			continue
		}
		taken[string(a.What)] = true
	}
	if len(taken) != 3 {
		t.Errorf("assumed are %v", taken)
	}
}

// What is found of a template is its blanks and no more, each known for one by a value.
func TestTemplatesAreBlank(t *testing.T) {
	for _, name := range description.Templates() {
		text, err := description.Template(name)
		if err != nil {
			t.Fatal(err)
		}
		j := Job{File: "job.toml", Text: text}
		_, found := j.Read()
		blanks := 0
		for _, d := range found {
			if d.Severity == graph.Error && !d.Blank {
				t.Errorf("%s: %s is no blank", name, d.Message)
			}
			if d.Blank {
				blanks++
			}
		}
		want := 0
		for l := range strings.Lines(string(text)) {
			key, _, _ := strings.Cut(l, "#")
			want += strings.Count(key, `"?"`)
		}
		if blanks != want || want == 0 {
			t.Errorf("%s: %d blanks are found, %d are written", name, blanks, want)
		}
	}
}

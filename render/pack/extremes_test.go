package pack

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/pelletier/go-toml/v2"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/description"
	heatjob "dryfit/graph/heat/job"
	"dryfit/graph/lots"
	"dryfit/graph/plan"
	"dryfit/render/table"
	"dryfit/render/table/form"
	"dryfit/render/table/heating"
	"dryfit/render/table/lists"
)

// extremes are what stands for the number of a value: none, less than none, what underflows
// when it is divided or squared, the least and greatest a unit slipped by makes of it, and what
// overflows.
var extremes = []string{"0", "-1", "1e-300", "1e-11", "1e-6", "x 1e-3", "x 1e3", "1e9", "1e200"}

// aNumber is a number in an example.
var aNumber = regexp.MustCompile(`-?\d+(\.\d+)?`)

// extremely returns an example with one of its numbers put for an extreme; false where it has
// none of that place.
func extremely(example string, nth int, to string) (string, bool) {
	at := aNumber.FindAllStringIndex(example, -1)
	if nth >= len(at) {
		return "", false
	}
	a := at[nth]
	quoted := strings.Count(example[:a[0]], `"`)%2 == 1
	factor, times := strings.CutPrefix(to, "x ")
	x, err := strconv.ParseFloat(factor, 64)
	if err != nil {
		panic(err)
	}
	if times {
		was, _ := strconv.ParseFloat(example[a[0]:a[1]], 64)
		x *= was
	}
	if size := math.Abs(x); 1e-20 < size && size < 1e20 || quoted { // no quantity has an exponent
		to = strconv.FormatFloat(x, 'f', -1, 64)
	}
	return example[:a[0]] + to + example[a[1]:], true
}

// absurd finds in what is printed what was no number, or is one that nobody meant.
var absurd = regexp.MustCompile(`\b(NaN|[+-]?Inf)\b|[0-9][eE]\+?[0-9]{2,}|[0-9]{17,}|(^|[^t-] |>|,)\?([ ,;<)]|$)`)

// fingerprint is that of a description, on papers made from it: eight digits to the base sixteen.
var fingerprint = regexp.MustCompile(`\b[0-9a-f]{8}\b`)

// put gives the key at a path of a description, read as TOML, another value. Tables on its way
// that are not there are made of the examples of their keys.
func put(t *testing.T, top map[string]any, k *description.Key, kind string, value any) bool {
	t.Helper()
	at := top
	for i, step := range k.Path[:len(k.Path)-1] {
		switch step {
		case "NAME":
			step = firstOf(at)
		case "KIND":
			step = "jet-group"
		}
		switch in := at[step].(type) {
		case map[string]any:
			at = in
		case []any:
			n := 0
			if i == 0 && step == "part" {
				n = slices.IndexFunc(in, func(p any) bool { return p.(map[string]any)["kind"] == kind })
			}
			if n < 0 || len(in) == 0 {
				return false
			}
			m, ok := in[n].(map[string]any)
			if !ok {
				return false
			}
			at = m
		default:
			made, list := exampleOf(t, k.Path[:i+1], kind)
			if at[step] = made; list {
				at[step] = []any{made}
			}
			at = made
		}
	}
	last := k.Path[len(k.Path)-1]
	if last == "NAME" {
		last = firstOf(at)
	}
	at[last] = value
	return true
}

// exampleOf makes a table at a path of the examples of its keys, and says whether it stands in a
// list of such.
func exampleOf(t *testing.T, path []string, kind string) (made map[string]any, list bool) {
	t.Helper()
	made = map[string]any{}
	for _, k := range description.Keys() {
		if slices.Equal(k.Path, path) {
			list = strings.Contains(k.Form, "a list, each a table") || strings.Contains(k.Form, "as often")
		}
		if len(k.Path) == len(path)+1 && slices.Equal(k.Path[:len(path)], path) && k.Example != "" && (k.Kinds == nil || slices.Contains(k.Kinds, kind)) {
			made[k.Path[len(path)]] = valueOf(t, k.Example)
		}
	}
	return made, list
}

// firstOf is the first key of a table, by the alphabet.
func firstOf(m map[string]any) string {
	least := ""
	for k := range m {
		if least == "" || k < least {
			least = k
		}
	}
	return least
}

func valueOf(t *testing.T, text string) any {
	t.Helper()
	var one map[string]any
	if err := toml.Unmarshal([]byte("v = "+text), &one); err != nil {
		t.Fatalf("%s: %v", text, err)
	}
	return one["v"]
}

// extreme is a key of the description with one of its numbers put for an extreme.
type extreme struct {
	key  description.Key
	kind string // of the part that has it
	text string // as TOML
}

// everyExtreme is all of them, or with the suite one in some hundred: of each place of a number in
// the example of each key, for three of the kinds of part that have it.
func everyExtreme() []extreme {
	const mostNumbers, mostKinds, suite = 8, 3, 97
	var out []extreme
	n := 0
	for _, k := range description.Keys() {
		if k.Example == "" || !aNumber.MatchString(k.Example) || strings.Contains(k.Form, "one of:") || k.Form == "a text" || strings.HasSuffix(k.Form, "each a text") {
			continue
		}
		kinds := k.Kinds
		if kinds == nil || k.Path[0] != "part" {
			kinds = []string{"heat-pump"}
		}
		for nth := range mostNumbers {
			for _, to := range extremes {
				text, ok := extremely(k.Example, nth, to)
				for _, kind := range kinds[:min(len(kinds), mostKinds)] {
					if n++; ok && (lots.All() || n%suite == 0) {
						out = append(out, extreme{k, kind, text})
					}
				}
			}
		}
	}
	return out
}

// Whatever number stands in a key of the description, it is refused at its place, or everything
// printed of the job is a number that somebody could mean.
func TestExtremesOfEveryNumber(t *testing.T) {
	everyKind, err := os.ReadFile(filepath.Join("..", "schematic", "testdata", "every-kind.toml"))
	if err != nil {
		t.Fatal(err)
	}
	tried, read := 0, 0
	for _, x := range everyExtreme() {
		for _, base := range []string{string(readDemo(t, "two-speed")), string(readDemo(t, "plug-in")), string(everyKind)} {
			source, ok := x.in(t, base)
			if !ok {
				continue
			}
			tried++
			if printsNumbers(t, fmt.Sprintf("%s (%s) = %s", strings.Join(x.key.Path, "."), x.kind, x.text), source, lots.All() && tried%8 == 0) {
				read++
			}
			break
		}
	}
	if tried < 20 || read == 0 {
		t.Errorf("only %d tried, of which %d are read", tried, read)
	}
}

// in returns a description with the extreme in it; false where it has no place for it.
func (x *extreme) in(t *testing.T, base string) ([]byte, bool) {
	t.Helper()
	var top, one map[string]any
	if err := toml.Unmarshal([]byte(base), &top); err != nil {
		t.Fatal(err)
	}
	if toml.Unmarshal([]byte("v = "+x.text), &one) != nil || !put(t, top, &x.key, x.kind, one["v"]) {
		return nil, false
	}
	source, err := toml.Marshal(top)
	if err != nil {
		t.Fatal(err)
	}
	return source, true
}

// printsNumbers reports whether the source reads, and fails where something printed of it, with
// whole of the pack too, is no number.
func printsNumbers(t *testing.T, what string, source []byte, whole bool) bool {
	t.Helper()
	defer func() {
		if x := recover(); x != nil {
			t.Errorf("%s: panics: %v", what, x)
		}
	}()
	c, ds := description.Read("job.toml", source)
	if c == nil {
		if len(ds) == 0 || ds[0].Pos.Line == 0 {
			t.Errorf("%s does not read, and says nothing of where: %v", what, ds)
		}
		return false
	}
	want := plan.Findings | plan.Flows | plan.Lists
	if whole {
		want = Wants()
	}
	p, err := plan.Make(c, want)
	if err != nil {
		t.Errorf("%s: %v", what, err)
		return true
	}
	looks := func(name string, out []byte, err error) {
		if err != nil {
			t.Errorf("%s: %s: %v", what, name, err)
		}
		out = fingerprint.ReplaceAll(out, nil)
		if at := absurd.FindIndex(out); at != nil {
			t.Errorf("%s: %s: %q", what, name, out[max(0, at[0]-80):min(len(out), at[1]+20)])
		}
	}
	lookAtVerbs(p, looks)
	if whole {
		made, err := Make(p, Options{})
		if err != nil {
			t.Errorf("%s: pack: %v", what, err)
			return true
		}
		for _, f := range made.Files {
			if !packed[filepath.Ext(f.Name)] && f.Name != "description.toml" {
				looks(f.Name, f.Data, nil)
			}
		}
	}
	return true
}

// lookAtVerbs looks at what check, flow, cuts and heat print.
func lookAtVerbs(p *plan.Plan, looks func(name string, out []byte, err error)) {
	s := form.Style{Units: quantity.SystemOf(p.Circuit.Job.Units)}
	for _, one := range []struct {
		name string
		show func(*plan.Plan, form.Style) ([]byte, error)
	}{
		{"flow text", table.FlowText}, {"flow csv", table.FlowCSV}, {"flow json", table.FlowJSON},
		{"cuts text", lists.CutsText}, {"cuts csv", lists.CutsCSV}, {"cuts json", lists.CutsJSON},
	} {
		out, err := one.show(p, s)
		looks(one.name, out, err)
	}
	report := plan.HeatOf(p, heatjob.Ask{})
	looks("heat text", heating.Text(report, p.Circuit.Job, s), nil)
	looks("heat csv", heating.CSV(report), nil)
	out, err := heating.JSON(report, s)
	looks("heat json", out, err)
	all := graph.SortDiagnostics(append(report.Problems, p.Findings...))
	looks("check csv", table.FindingsCSV(all, s), nil)
	out, err = table.FindingsJSON(all, s)
	looks("check json", out, err)
}

package hydraulic_test

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/hydraulic"
	"dryfit/graph/route/laying"
	"dryfit/graph/settle"
)

// What a part is said to cost is what it is solved with: a row of equipment that is chosen by its
// pump, and jets nobody measured, are not said by the flow or the bore of their row, for whoever
// works out the flow from that is off by much. Held on every demo as it is, and with what it says
// of drops and bores taken out.
func TestLossIsSaidAsItIsSolved(t *testing.T) {
	files, err := filepath.Glob("../../testdata/*.toml")
	if err != nil || len(files) == 0 {
		t.Fatalf("no demos: %v", err)
	}
	known := regexp.MustCompile(`(?m)^(loss|bore|rated) = .*\n`)
	sized, jets := 0, 0
	for _, name := range files {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		for _, text := range []string{string(data), known.ReplaceAllString(string(data), "")} {
			c, ds := description.Read(name, []byte(text))
			if c == nil || graph.HasErrors(ds) {
				t.Fatalf("%s: %v", name, ds)
			}
			c = c.At(graph.Before)
			lay := laying.Of(c)
			m, err := hydraulic.Build(lay, c.AllModes()[0], graph.Before)
			if err != nil {
				t.Fatalf("%s: %v", name, err)
			}
			said := map[string]settle.Value{}
			for k, v := range lay.Stage.Values() {
				if k.What == "loss" {
					said[k.Of] = v
				}
			}
			for i := range m.Parts {
				p := &m.Parts[i]
				v, ok := said[p.Part.ID]
				if !ok {
					continue
				}
				if byPump := strings.Contains(v.Text, "pump"); byPump != (p.SizedTo() != "") {
					t.Errorf("%s: %s is said to cost %q, and was sized to pump %q", filepath.Base(name), p.Part.ID, v.Text, p.SizedTo())
				}
				if p.SizedTo() != "" {
					sized++
					if p.Part.Kind == graph.JetGroup {
						jets++
					}
				}
			}
		}
	}
	if sized < 10 || jets < 3 {
		t.Errorf("only %d parts sized to a pump, %d of them jets", sized, jets)
	}
}

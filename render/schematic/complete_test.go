package schematic

import (
	"math"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/render/scene"
)

// Every part, run and cut of the stage is on the sheet, and nothing else: counted by the
// tags of the finished page.
func TestEverythingIsDrawn(t *testing.T) {
	for _, d := range everyDrawing(t) {
		stage := d.in.Stage
		if stage == "" {
			stage = graph.After
		}
		c := d.in.Circuit.At(stage)
		seen := map[string]bool{}
		texts := map[string]string{}
		for _, page := range d.pages() {
			for _, it := range page.Items {
				switch it := it.(type) {
				case scene.Shape:
					seen[it.Name] = true
				case scene.Text:
					seen[it.Name] = true
					texts[it.Name] += it.Text + "\n"
				}
			}
		}
		want := map[string]bool{}
		for _, p := range c.Parts {
			want["symbol:"+p.ID] = true
			want["label:"+p.ID] = true
		}
		for _, r := range c.Runs {
			want["run:"+r.ID] = true
			if r.RemainsOf != "" {
				want["cuts"] = true
			}
		}
		cuts := 0
		for tag := range seen {
			kind, _, _ := strings.Cut(tag, ":")
			switch kind {
			case "cut":
				cuts++
			case "symbol", "run":
				if !want[tag] {
					t.Errorf("%s: %s is drawn and is not in the circuit", d.name, tag)
				}
			}
		}
		for tag := range want {
			if tag == "cuts" {
				continue
			}
			id := strings.TrimPrefix(tag, "run:")
			if r := c.Run(id); strings.HasPrefix(tag, "run:") && r != nil && r.Direct() {
				continue // no pipe to draw
			}
			if !seen[tag] {
				t.Errorf("%s: %s is missing", d.name, tag)
			}
		}
		wantCuts := len(d.in.Cuts)
		for _, r := range c.Runs {
			if r.RemainsOf == "" {
				continue
			}
			for _, end := range []graph.PortRef{r.From, r.To} {
				if p := c.Part(end.Part); p.New() {
					wantCuts++
				}
			}
		}
		if cuts != wantCuts {
			t.Errorf("%s: %d cut marks, want %d", d.name, cuts, wantCuts)
		}
		for _, r := range c.Runs { // the description's names stand in findings alone
			if r.Named && !r.Direct() && strings.Contains(texts["label:run:"+r.ID], r.ID) {
				t.Errorf("%s: run %s stands on the sheet by its name in the description", d.name, r.ID)
			}
		}
	}
}

// New work is thick and old work thin, on every pipe. Source: ISO 128-2, ratio 1:2.
func TestWeightsOfPipes(t *testing.T) {
	for _, d := range everyDrawing(t) {
		for _, page := range d.pages() {
			for _, it := range page.Items {
				s, ok := it.(scene.Shape)
				id, isRun := strings.CutPrefix(s.Name, "run:")
				if !ok || !isRun {
					continue
				}
				want := 0.35
				if r := d.in.Circuit.Run(id); r.New() {
					want = 0.7
				}
				if s.Style.StrokeMM != want {
					t.Errorf("%s: %s is drawn %g mm wide, want %g", d.name, id, s.Style.StrokeMM, want)
				}
			}
		}
	}
}

// What the description promises about the picture of a bypass: the tees on one level, the
// bypass between them on that level, the unit above, the return below everything.
func TestBypassAtAGlance(t *testing.T) {
	d := newDrawing(Input{Circuit: read(t, "testdata/bypass-spring.toml")})
	d.arrange()
	at := map[string]scene.Point{}
	lowest := math.Inf(-1)
	for _, n := range d.diagram.Nodes {
		at[n.Part.ID] = n.At
		if n != d.diagram.Tub {
			lowest = max(lowest, n.Symbol.BoxAt(n.At, n.Way).MaxY)
		}
	}
	for _, id := range []string{"pump", "filter", "element", "bypass", "tee-b"} {
		if !agree.Within(at[id].Y, at["tee-a"].Y, 0.01) {
			t.Errorf("%s stands at %.1f, not on the level %.1f of the first tee", id, at[id].Y, at["tee-a"].Y)
		}
	}
	if at["unit"].Y > at["tee-a"].Y-15 {
		t.Errorf("the unit stands at %.1f, not above the tees at %.1f", at["unit"].Y, at["tee-a"].Y)
	}
	if !(at["tee-a"].X < at["bypass"].X && at["bypass"].X < at["tee-b"].X) {
		t.Errorf("the bypass stands at %.1f, not between the tees at %.1f and %.1f", at["bypass"].X, at["tee-a"].X, at["tee-b"].X)
	}
	for _, v := range []struct{ valve, tee string }{{"isolator-to", "tee-a"}, {"isolator-from", "tee-b"}} {
		if at[v.valve].X != at[v.tee].X {
			t.Errorf("%s does not stand over %s", v.valve, v.tee)
		}
	}
	for _, p := range d.diagram.Pipes {
		if p.Run.ID != "return-line-2" {
			continue
		}
		low := math.Inf(-1)
		for _, q := range p.Points {
			low = max(low, q.Y)
		}
		if low <= lowest {
			t.Errorf("the return runs at %.1f, something stands at %.1f", low, lowest)
		}
	}
}

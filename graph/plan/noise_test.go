package plan_test

import (
	"path/filepath"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/plan"
)

// A cut asked for where the leg lacks the length gets the place's own reason and nothing that
// only follows from it: no pipe through pipe, no tee turned back, no joint that can't be made.
func TestTooShortSaysSoAndNoMore(t *testing.T) {
	for _, leg := range []int{1, 2, 4} {
		c := readFile(t, "../../testdata/two-speed.toml")
		c.Retrofit.Cut = &graph.Cut{Run: "return-line", Leg: leg, AtMM: -1}
		p := work(t, c, plan.Findings|plan.Flows|plan.Lists|plan.Places)
		found := errorsOf(p.Findings)
		if len(found) != 1 || !strings.HasSuffix(found[0], "[cut-room]") || strings.Contains(found[0], "nipple") {
			t.Errorf("leg %d: %v; want the lack of room alone, without the sum", leg, found)
		}
		for _, d := range p.Findings {
			if d.Severity > graph.Note && (d.Rule == "routing" || d.Rule == "assembly" || d.Rule == "tolerance") {
				t.Errorf("leg %d: %s [%s]", leg, d.Message, d.Rule)
			}
		}
		v := p.Places[0]
		sum := 0.0
		for _, term := range v.Place.Terms {
			sum += term.MM
		}
		if len(v.Reasons) != 1 || !agree.Within(sum, v.Place.NeededMM, 0.01) {
			t.Errorf("leg %d: reasons %v; terms add up to %.2f of %.2f", leg, v.Reasons, sum, v.Place.NeededMM)
		}
	}
}

// The bypass that cutin builds and the one that flow advises are the same, in every demo: they
// are chosen by one order.
func TestCutinAndAdviceAgree(t *testing.T) {
	files, _ := filepath.Glob("../../testdata/*.toml")
	compared := 0
	for _, file := range files {
		c := readFile(t, file)
		if c.Retrofit == nil {
			continue
		}
		c.Retrofit.Bypass, c.Retrofit.Spring = "auto", ""
		p := work(t, c, plan.Advice)
		if p.Advice == nil || p.Advice.Best < 0 {
			t.Errorf("%s: no advice", file)
			continue
		}
		compared++
		best, built := p.Advice.Choices[p.Advice.Best], p.Proposal.Choice
		if best.Spring != built.Spring {
			t.Errorf("%s: built with %q, advised %q", file, built.Spring, best.Spring)
		}
		if built.ThrottleKv > 0 && !agree.Between(best.Kv, 0.99*built.ThrottleKv, 1.01*built.ThrottleKv) {
			t.Errorf("%s: built with Kv %.2f, advised %.2f", file, built.ThrottleKv, best.Kv)
		}
	}
	if compared < 4 {
		t.Errorf("%d demos compared", compared)
	}
}

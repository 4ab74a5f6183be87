package takeoff

import (
	"slices"
	"strings"
	"testing"

	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/route"
	"dryfit/graph/settle"
)

// A slip coupling's joints are cemented as any other: twelve sockets and twelve joints in slip
// couplings want what twenty-four sockets want, 24 · 10.52 ml · 1.5 = 378.7 ml of cement (a
// cement maker's table, half as much again) in tins of 250 ml.
func TestSlipJointsAreCementedToo(t *testing.T) {
	lay := &route.Layout{}
	for i := range 24 {
		kind := "cement"
		if i%2 == 1 {
			kind = "slip"
		}
		lay.Joints = append(lay.Joints, route.Joint{Kind: kind, Size: catalog.Size{Nominal: 1.5}})
	}
	b := &biller{c: &graph.Circuit{}, lay: lay}
	b.addJoining()
	at := slices.IndexFunc(b.lines, func(l line) bool { return l.Kind == "cement" })
	if at < 0 || b.lines[at].Quantity != 2 || !strings.Contains(b.lines[at].Name, "379 ml") {
		t.Errorf("cement: %+v", b.lines)
	}
}

// Of sockets of a size that no table knows a tin is bought all the same, and no number is said: it
// read "(-0 ml wanted)".
func TestCementOfUnknownSize(t *testing.T) {
	lay := &route.Layout{Joints: []route.Joint{{Kind: "cement", Size: catalog.Size{Metric: true, Nominal: 38}}}}
	b := &biller{c: &graph.Circuit{}, lay: lay}
	b.addJoining()
	at := slices.IndexFunc(b.lines, func(l line) bool { return l.Kind == "cement" })
	if at < 0 || b.lines[at].Quantity != 1 || b.lines[at].Name != "solvent cement, tin of 250 ml" || b.lines[at].Where[0].At != "1 socket 38 mm: consumption not known" {
		t.Errorf("cement: %+v", b.lines)
	}
}

// A barb whose row says one clip takes one: the eight of the plug-in demo's hoses become four.
func TestClipsByTheRowOfTheBarb(t *testing.T) {
	c := demo(t, "../../testdata/plug-in.toml")
	row, ok := c.Catalog.Transition("pvc-sch40", catalog.Size{Nominal: 1.5}, catalog.HosePipe, catalog.Size{Metric: true, Nominal: 38})
	if !ok {
		t.Fatal("no barb 1-1/2 in x 38 mm")
	}
	row.Clips = 1
	c.Catalog = c.Catalog.With([]catalog.Row{row})
	if got := item(t, bill(t, c), true, "hose-clip", "38 mm", "pc").Quantity; got >= 8 {
		t.Errorf("%g clips with one on each barb of that row, eight with two", got)
	}
}

// Couplings to have in the van go with each cut into old pipe that new work joins; a hose cut wrong
// is cut again. Common practice, no source.
func TestCutsThatWantSpares(t *testing.T) {
	c := &graph.Circuit{Parts: []*graph.Part{{ID: "tee", Kind: graph.Tee}, {ID: "pump", Kind: graph.Pump, Existing: true}}}
	lay := &route.Layout{Circuit: c}
	for id, spec := range map[string]catalog.Spec{"pipe": "pvc-sch40", "hose": catalog.HosePipe} {
		r := &graph.Run{ID: id, Spec: spec, Existing: true, From: graph.PortRef{Part: "pump", Port: graph.Out}, To: graph.PortRef{Part: "tee", Port: graph.RunIn}}
		c.Runs = append(c.Runs, r)
		lay.Paths = append(lay.Paths, route.Path{Run: r, LengthMM: 500})
	}
	b := &biller{c: c, lay: lay}
	if cuts := b.cutEnds(); len(cuts) != 1 || cuts[0].spec != "pvc-sch40" || cuts[0].where != "cut at tee.run-in" {
		t.Errorf("spares for %+v, want those for the pipe at the tee alone", cuts)
	}
}

// A part is asked for by the style of its row; where that has none, its type is told beside its kind,
// unless it is a fitting of the catalogue: kind, size and spec say all of it, named or not. The style of a
// pump is what it is for.
func TestTypeBesideTheKind(t *testing.T) {
	for _, c := range []struct {
		kind  graph.Kind
		style string
		own   bool
		want  string
	}{
		{graph.BallValve, "", true, "ball valve (my valve)"},
		{graph.BallValve, "", false, "ball valve"},
		{graph.BallValve, "true-union", true, "true union"},
		{graph.ElementHeater, "", false, "element heater (my valve)"},
		{graph.Pump, "pool", false, "pump (my valve)"}, // that is what it is for, and no part
	} {
		fit := &settle.Part{Part: &graph.Part{Kind: c.kind, Type: "my valve"}}
		fit.Row.V.Style, fit.Row.V.Own = c.style, c.own
		if got := (&biller{}).partName(fit, "", ""); got != c.want {
			t.Errorf("%+v: asked for as %q", c, got)
		}
	}
}

package takeoff

import (
	"slices"
	"strings"
	"testing"

	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/route"
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

package takeoff

import (
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/route/laying"
)

// The bill has as much pipe as is sawn: the piece that is cut over length, to be fitted in its place, with
// what it is over.
func TestBillHasWhatIsSawn(t *testing.T) {
	c := demo(t, "../../testdata/plug-in.toml")
	lay := laying.Of(c.At(graph.After))
	lay.Pieces[0].OverMM = 53
	b := NewBill(c, lay, laying.Of(c.At(graph.Before)))
	sawn := map[string]float64{}
	for _, p := range lay.Pieces {
		sawn[string(p.Spec)+p.Size.String()] += p.CutMM + p.OverMM
	}
	if len(sawn) < 2 {
		t.Fatalf("pieces of %d sizes", len(sawn))
	}
	for _, i := range b.Items {
		if key := string(i.Spec) + i.Size; strings.Contains(i.Name, "net length") {
			if !near(i.Quantity*1000, sawn[key], 1e-6) {
				t.Errorf("%s: %g m, %g mm are sawn", i.Name, i.Quantity, sawn[key])
			}
			delete(sawn, key)
		}
	}
	if len(sawn) > 0 {
		t.Errorf("not on the bill: %v", sawn)
	}
}

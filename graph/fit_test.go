package graph

import "testing"

// What was read says nothing of another part in the place of one; what it says of all others stands, and of
// the circuit it was made for.
func TestFitWithoutAPart(t *testing.T) {
	fit := &Fit{Values: []Fitted{{What: "a", Part: "pump", Value: 0.9, Does: []Effect{{Part: "pump", Loss: 0.9, Flow: 1, Speed: 1}}}, {What: "b", Value: 1.1}, {What: "c", Part: "jets", Value: 1.2}}}
	less := fit.Without("pump")
	if _, ok := less.Value("a", "pump"); ok || len(less.Effects("pump")) > 0 {
		t.Error("the pump's value stays with another pump")
	}
	for _, v := range fit.Values[1:] {
		if got, ok := less.Value(v.What, v.Part); !ok || got != v.Value {
			t.Errorf("%s: %g, %v", v.What, got, ok)
		}
	}
	if _, ok := fit.Value("a", "pump"); !ok || fit.Without("nobody") != fit || (*Fit)(nil).Without("pump") != nil || (*Fit)(nil).Changes() {
		t.Error("the fit it was asked of is another")
	}
}

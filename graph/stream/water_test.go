package stream

import "testing"

// Two tubs whose pipes never meet are two waters, and what is on the pipes of the one the unit does not
// heat is apart. What has no tub on its pipes is of no other water: nothing tells that it is.
func TestApart(t *testing.T) {
	c := circuit(t, `tub:tub pump:pump unit:heat-pump spa:tub spa-pump:pump loose:filter
		tub.a>pump.in pump.out>unit.in unit.out>tub.b spa.a>spa-pump.in spa-pump.out>spa.b`)
	n := NewNet(c)
	for id, want := range map[string]bool{"tub": false, "pump": false, "unit": false, "spa": true, "spa-pump": true, "loose": false} {
		if got := n.Apart(c.Part(id)); got != want {
			t.Errorf("%s: apart %v, want %v", id, got, want)
		}
	}
}

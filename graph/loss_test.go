package graph

import "testing"

// Whoever writes into a file what a loss was taken for gets that loss: half a per cent on the flow is one
// on the drop.
func TestLossPointWords(t *testing.T) {
	for flow, want := range map[float64]string{10: "10.0 m3/h", 3.15: "3.15 m3/h", 1.75: "1.75 m3/h", 4.2: "4.2 m3/h", 20.04: "20.0 m3/h"} {
		p := LossPoint{Flow: flow / 3600, Drop: Drop{Value: 10e3}}
		if got := p.Words().String(); got != "10.0 kPa at "+want {
			t.Errorf("%g m3/h: %q, want %q", flow, got, want)
		}
	}
}

package route

import "testing"

func TestMarksOfPieces(t *testing.T) {
	for want, p := range map[string]Piece{"": {}, "*": {Measure: true}, "+": {OnSite: true}, "*+": {Measure: true, OnSite: true}} {
		if got := p.Signs(); got != want {
			t.Errorf("%+v: %q", p, got)
		}
	}
}

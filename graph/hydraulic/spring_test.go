package hydraulic

import (
	"testing"

	"dryfit/graph"
)

// A margin has digits where its spring is known better than that: of 13.8 kPa, 1 to 4 psi (6.9 to
// 27.6 kPa) by its label, an open check 5 kPa above it may as well be shut, and one 16 kPa above it
// is so by one figure. By a sheet that is true to 2.2 kPa 5 kPa are one figure, 50 kPa three. A
// swing check has no spring to be told of. Worked by hand.
func TestCheckWords(t *testing.T) {
	label := Spring{13800, 6900, 27600}
	sheet := Spring{13800, 11600, 16000}
	for _, c := range []struct {
		state        string
		spring       Spring
		drop, margin float64
		flow         float64
		want         string
	}{
		{"lifting", label, 18800, 5000, 0, "S; its spring may open at 6.9 kPa to 27.6 kPa"},
		{"lifting", label, 13930, 130, 0, "S, about to chatter; its spring may open at 6.9 kPa to 27.6 kPa"},
		{"lifting", label, 29800, 16000, 0, "S; shuts after 20 kPa less"},
		{"shut", label, 8000, 5800, 0.4 / 3600, "S; its spring may open at 6.9 kPa to 27.6 kPa"},
		{"shut", label, 4000, 9800, 0.42 / 3600, "S; opens after 10 kPa more, or 0.4 m3/h more past it"},
		{"shut", label, 4000, 9800, 0, "S; opens after 10 kPa more"},
		{"lifting", sheet, 18800, 5000, 0, "S; shuts after 5 kPa less"},
		{"lifting", sheet, 63800, 50000, 0, "S; shuts after 50.0 kPa less"},
		{"lifting", Spring{13800, 13700, 13900}, 14600, 800, 0, "S; shuts after 0.8 kPa less: it will chatter"},
		{"open", Spring{}, 850, 850, 0, "S"},
	} {
		f := PartFlow{Part: &graph.Part{Kind: graph.CheckValve}, Drop: c.drop, MarginPa: c.margin, MarginFlow: c.flow, State: c.state, Spring: c.spring}
		if got := f.CheckWords("S").String(); got != c.want {
			t.Errorf("%+v: %q", c, got)
		}
	}
}

package takeoff

import (
	"cmp"
	"math"
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/graph/route"
)

// Tight is a bar with no room for what is still to be measured: pieces on it hang on parts
// nobody has measured, and come out longer where the part in the hand takes less of the pipe.
type Tight struct {
	Bar      int     // from 1, in the order of the plan
	Measured []int   // the pieces of it that are to be measured first
	LeftMM   float64 // what the bar has over
	LongerMM float64 // how much longer they may come out together
	Moves    int     // the shortest of them that does: it makes room where it comes out of another bar
	To       int     // the bar that has room for it; 0: none has
	Spare    bool    // none has, and one more is bought that does
}

// leastUnsureMM is how much longer a piece may come out of which no tolerance says so.
// Judgement.
const leastUnsureMM = 5

// tightBars finds the bars of a plan in which pieces that are still to be measured have no room
// to come out longer; what no other bar has room for is held by spares.
func tightBars(plan *StockPlan, pieces []route.Piece, spares *spareBars) []Tight {
	byNumber := map[int]*route.Piece{}
	for i := range pieces {
		byNumber[pieces[i].Number] = &pieces[i]
	}
	room := make([]float64, len(plan.Bars))
	out := []Tight{}
	for i, bar := range plan.Bars {
		one := Tight{Bar: i + 1, LeftMM: bar.OffcutMM}
		for _, n := range bar.Pieces {
			if p := byNumber[n]; p != nil && p.Measure {
				one.Measured = append(one.Measured, n)
				one.LongerMM += longer(p)
			}
		}
		room[i] = bar.OffcutMM - one.LongerMM
		if room[i] < 0 {
			out = append(out, one)
		}
	}
	for k := range out {
		t := &out[k]
		slices.SortFunc(t.Measured, func(a, b int) int { return cmp.Or(cmp.Compare(byNumber[a].SawMM(), byNumber[b].SawMM()), a-b) })
		at := slices.IndexFunc(t.Measured, func(n int) bool { return byNumber[n].SawMM() >= t.LongerMM-t.LeftMM })
		t.Moves = t.Measured[max(at, 0)]
		if at < 0 { // none is long enough: the longest makes most room
			t.Moves = t.Measured[len(t.Measured)-1]
		}
		slices.Sort(t.Measured)
		want := byNumber[t.Moves].SawMM() + longer(byNumber[t.Moves])
		for i := range room {
			if i != t.Bar-1 && room[i] >= want {
				t.To, room[i] = i+1, room[i]-want-spares.kerf
				break
			}
		}
		if t.To == 0 {
			t.Spare = spares.hold(t.Moves, want)
		}
	}
	return out
}

// longer is how much longer than planned a piece may come out, mm: what the parts at its ends
// may take less of it.
func longer(p *route.Piece) float64 {
	return math.Max(leastUnsureMM, p.From.TolMinusMM+p.To.TolMinusMM)
}

// Words says what is done about it; unit is what a length of stock is called.
func (t *Tight) Words(unit string) quantity.Text {
	which, should := "piece "+numbers(t.Measured), quantity.Say("should it come out longer, by up to %s", quantity.Length.Of(t.LongerMM))
	if len(t.Measured) > 1 {
		which, should = "pieces "+numbers(t.Measured), quantity.Say("should they come out longer, by up to %s together", quantity.Length.Of(t.LongerMM))
	}
	over := quantity.Text("nothing over")
	if t.LeftMM >= 0.5 {
		over = quantity.Say("only %s over", quantity.Length.Of(t.LeftMM))
	}
	text := quantity.Say("%s %d has %s: measure the parts at the ends of %s before anything is cut from that %s; %s, ", unit, t.Bar, over, which, unit, should)
	switch {
	case t.To > 0:
		return text + quantity.Say("piece %d comes out of %s %d", t.Moves, unit, t.To)
	case t.Spare:
		return text + quantity.Say("piece %d comes out of one more %s, which the order counts as a spare", t.Moves, unit)
	}
	return text + quantity.Say("no other %s that is there or on sale holds piece %d: find a longer one first", unit, t.Moves)
}

package live

import "unicode/utf8"

// tick is a mark on a scale and its words, in the scale's units.
type tick struct {
	at   float64
	text string
	from float64 // where its words begin, once placed
}

// Room that words on a scale take, in its units at their size of 9: of a letter, about, and between two.
const (
	tickLetter = 5.6
	tickGap    = 4.0
)

func (t tick) wide() float64 { return tickLetter * float64(utf8.RuneCountInString(t.text)) }

// placed puts the words of ticks, which go up the scale, under their ticks between left and right. Where two would
// run into each other the earlier moves aside, as long as it stays under its own tick; what has no room then is
// left out, for the words beside the scale have it too.
func placed(ticks []tick, left, right float64) []tick {
	var out []tick
	for _, t := range ticks {
		t.from = max(left, min(t.at-t.wide()/2, right-t.wide()))
		free := left
		if n := len(out); n > 0 {
			before := &out[n-1]
			if n > 1 {
				free = out[n-2].from + out[n-2].wide() + tickGap
			}
			if over := before.from + before.wide() + tickGap - t.from; over > 0 {
				to := before.from - over
				if to < free || to+before.wide() < before.at {
					continue
				}
				before.from = to
			}
		}
		out = append(out, t)
	}
	return out
}

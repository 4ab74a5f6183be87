package laying

import (
	"fmt"

	"dryfit/graph"
	"dryfit/graph/route"
	"dryfit/graph/settle"
)

// inLine returns what the tolerances of the loops need to know of the new in-line parts, by id.
func (l *work) inLine() map[string]route.InLinePart {
	out := map[string]route.InLinePart{}
	for _, p := range l.c.Parts {
		if !settle.InLine(p.Kind) || p.Existing || p.Kind == graph.SlipCoupling {
			continue
		}
		row := l.set.Part(p.ID).Row.V
		size := l.set.Part(p.ID).Size.V
		way := l.ways[p.ID+"."+graph.Out]
		out[p.ID] = route.InLinePart{
			TolMM: max(row.TolMinusMM, row.TolPlusMM), Way: way, Measure: row.Measure || row.LengthMM == 0,
			What: fmt.Sprintf("%s: %s %s, stop to stop", p.ID, p.Kind, size),
		}
	}
	return out
}

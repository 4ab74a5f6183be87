package retrofit

import (
	"fmt"
	"strings"

	"dryfit/graph"
	"dryfit/graph/route"
)

// Shorter lists the changes that make the assembly shorter at a place, and by how much, mm.
func Shorter(c *graph.Circuit, lay *route.Layout, place Place, choice Choice) []Term {
	path := pathOf(lay, place.Run)
	if path == nil || c.Retrofit == nil {
		return nil
	}
	w := newWork(c, path.Run)
	now := w.newAssembly(choice)
	var out []Term
	add := func(what string, a assembly) {
		if mm := now.needed() - a.needed(); mm >= 1 {
			out = append(out, Term{What: what, MM: mm})
		}
	}
	kind, b, has := w.element(choice)
	if has {
		other := w
		other.trueUnion = !w.trueUnion
		if _, ob, _ := other.element(choice); ob.row.Name != b.row.Name {
			what := fmt.Sprintf("swap the %s for a %s", describe(kind, b), describe(kind, ob))
			if strings.Contains(b.row.Ends, "union") {
				what += " and let it in with a slip coupling"
			}
			add(what, other.newAssembly(choice))
		}
	}
	if w.lineSize.Nominal > w.oldRigid().Nominal {
		small := w
		small.lineSize = w.oldRigid()
		add(fmt.Sprintf("bypass in the pipe's own size, %s", small.lineSize), small.newAssembly(choice))
	}
	if w.asked.ExtraMM > 0 {
		bare := *w.asked
		bare.ExtraMM = 0
		short := w
		short.asked = &bare
		add("leave out the extra straight pipe", short.newAssembly(choice))
	}
	return out
}

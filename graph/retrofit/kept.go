package retrofit

import (
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/retrofit/draft"
	"dryfit/graph/route"
)

// at is the work at a leg (from 1) of a path: where an old adaptor is asked to stay at an end
// of that leg, the string begins in it. At legs farther in old pipe stays between, and with it
// the adaptor.
func (w work) at(path *route.Path, leg int) work {
	r, last := path.Run, len(path.Points)-1
	asked := graph.Run{AdaptorsKept: w.asked.AdaptorsKept}
	w.kept = [2]bool{leg == 1 && asked.Keeps(r.From), leg == last && asked.Keeps(r.To)}
	w.playMM = max(0, r.Around(leg).PlayMM)
	return w
}

// legEnds is what the leg meets at its start and its end, with the old adaptors that stay as
// new pipe finds them.
func (w work) legEnds(partOf func(id string) *graph.Part, path *route.Path, leg int) (start, finish draft.End) {
	start, finish = draft.LegEnds(path, leg)
	for k, e := range []*draft.End{&start, &finish} {
		if !w.kept[k] {
			continue
		}
		ref := []graph.PortRef{path.Run.From, path.Run.To}[k]
		part := partOf(ref.Part)
		if part == nil {
			continue
		}
		if old := w.keptEnd(part, ref); old.Name != "" {
			old.Bend, old.Hose = e.Bend, e.Hose
			*e = old
		}
	}
	return start, finish
}

// keptRef is the port of the kept adaptor at the start (0) or the end (1) of the cut leg.
func (w work) keptRef(r *graph.Run, k int) (graph.PortRef, bool) {
	ref := []graph.PortRef{r.From, r.To}[k]
	for _, asked := range w.asked.AdaptorsKept {
		if w.kept[k] && asked.Same(ref) {
			return asked, true
		}
	}
	return ref, false
}

// renewed adds the new pipe between the string and the adaptor that stays: as the old run was
// there, but new.
func renewed(d *draft.Draft, old *graph.Run, from, to, kept graph.PortRef, legs []graph.Leg) {
	id := d.AddRun(from, to, old.Spec, old.Size, legs)
	r := d.Runs[len(d.Runs)-1]
	if r.ID != id {
		return
	}
	r.AdaptorsKept = []graph.PortRef{kept}
	r.Outside, r.Insulated, r.ThroughWall = old.Outside, old.Insulated, old.ThroughWall
	r.InsulationMM, r.BuriedMM = old.InsulationMM, old.BuriedMM
}

// staysWords says of an adaptor what becomes of it; datum is what a tape is held to there.
func staysWords(datum, bare string) quantity.Text {
	what := strings.TrimPrefix(strings.TrimPrefix(datum, "face of the "), "end of the hose at ")
	if bare == "hose" {
		return graph.Say("the %s: the old hose comes off it, and new goes on", what)
	}
	return graph.Say("the %s: the old pipe comes out of it, and new goes in", what)
}

// keptWords says of adaptors at the ends of the run that stay anyway, for old pipe stays between
// them and the cut.
func (l *limb) keptWords(path *route.Path, w work) {
	ends := []graph.PortRef{path.Run.From, path.Run.To}
	for _, ref := range w.asked.AdaptorsKept {
		for k, e := range ends {
			if e.Same(ref) && !w.kept[k] {
				l.find(ref.Pos, graph.Note, graph.Say("old pipe stays between the cut and %s, and what stands there stays with it", ref),
					"leave adaptors-kept out, or cut the leg that ends there")
			}
		}
	}
}

package retrofit

import (
	"fmt"
	"math"

	"dryfit/graph"
	"dryfit/graph/route"
	"dryfit/graph/stream"
)

// Places returns every straight leg of existing pipe as a place for the cut, in the order
// of the runs; a run known only by its length is one place to measure first. Each is the
// best offset in its leg for the assembly the request and the pumps lead to. Which of them
// are allowed is for the rules to say.
func (site *Site) Places() []Place {
	c, lay, net := site.circuit, site.lay, site.net
	if c.Retrofit == nil {
		return nil
	}
	feeds := feeding(c, net)
	var out []Place
	for i := range lay.Paths {
		path := &lay.Paths[i]
		if !cuttable(net, path.Run) {
			continue
		}
		choice := site.FirstChoice(path.Run.ID)
		w := newWork(c, path.Run, site.stops)
		w.guard, w.against = feeds[path.Run.ID], net.Against(path.Run)
		if len(path.Points) < 2 {
			if path.LengthMM > 0 {
				w.playMM = max(0, path.Run.PlayMM)
				a := w.newAssembly(choice)
				out = append(out, Place{Run: path.Run.ID, NeededMM: a.needed(), Terms: a.terms,
					RoomMM: path.LengthMM, PlayMM: max(0, path.Run.PlayMM), MeasureFirst: true})
			}
			continue
		}
		for k := 1; k < len(path.Points); k++ {
			out = append(out, bestPlace(net, path, k, w, choice))
		}
	}
	return out
}

// cuttable reports whether a run is old water pipe that stays.
func cuttable(net *stream.Net, r *graph.Run) bool {
	return r.Existing && !r.Removed && !net.IsAir(r)
}

// FirstChoice is the bypass the places on a run are measured for: the one the request asks for, or the one
// that the pumps lead to which feed the run, of one that none feeds the heater pump: a spring check where they
// have several speeds or are several, now this one on and now that, a throttle valve where they give one flow
// (trade practice: two fixed resistances share the flow in a fixed ratio).
func (site *Site) FirstChoice(run string) Choice {
	c := site.circuit
	switch c.Retrofit.Bypass {
	case "spring", "valve", "none":
		return Choice{Bypass: c.Retrofit.Bypass}
	}
	if c.Retrofit.Spring != "" && c.Retrofit.Spring != "auto" || c.Retrofit.SpringPa > 0 {
		return Choice{Bypass: "spring"}
	}
	if site.several == nil {
		site.several = site.severalRates()
	}
	several, fed := site.several[run]
	if !fed {
		p := site.net.HeaterPump()
		several = p != nil && site.net.Rates([]*graph.Part{p}) > 1
	}
	if several {
		return Choice{Bypass: "spring"}
	}
	return Choice{Bypass: "valve"}
}

// severalRates is of each run that pumps feed whether they give it more than one flow.
func (site *Site) severalRates() map[string]bool {
	out := map[string]bool{}
	for run, pumps := range site.net.Feeding() {
		out[run] = site.net.Rates(pumps) > 1
	}
	return out
}

// PlaceAt returns the place a request names: a run with a leg, and the offset of the first
// cut line if it is given. ok is false where there is no such leg.
func (site *Site) PlaceAt(cut graph.Cut, choice Choice) (Place, bool) {
	c, lay, net := site.circuit, site.lay, site.net
	for i := range lay.Paths {
		path := &lay.Paths[i]
		if path.Run.ID != cut.Run {
			continue
		}
		if cut.Leg < 1 || cut.Leg >= len(path.Points) {
			return Place{}, false
		}
		place := bestPlace(net, path, cut.Leg, newWork(c, path.Run, site.stops).guarded(c, net, path.Run), choice)
		if cut.AtMM >= 0 {
			gap, on := place.ToMM-place.FromMM, cut.AtMM-place.FromMM
			place.FromMM, place.ToMM = cut.AtMM, cut.AtMM+gap
			switch {
			case place.WantedMM == 0:
			case net.Against(path.Run):
				place.StraightMM -= on
			default:
				place.StraightMM += on
			}
		}
		return place, true
	}
	return Place{}, false
}

// bestPlace returns the best offset in a leg: far enough from the bend before a check, else
// as far from it as the room allows; in the middle of the room without a check, and with one
// where no bend is at the leg's end and that is far enough from it.
func bestPlace(net *stream.Net, path *route.Path, leg int, w work, choice Choice) Place {
	w = w.at(path, leg)
	start, finish := w.legEnds(net.Part, path, leg)
	length := path.Points[leg].Sub(path.Points[leg-1]).Len()
	a := w.newAssembly(choice)
	place := Place{Run: path.Run.ID, Leg: leg, NeededMM: a.needed(), Terms: a.terms, Doubts: a.doubts,
		Datum: start.Datum(), DatumMM: start.Face(), HeldMM: start.OverMM(), Far: finish.Datum(), FarMM: finish.Face(), FarHeldMM: finish.OverMM(),
		RoomMM: length - start.Face() - finish.Face(), PlayMM: max(0, path.Run.Around(leg).PlayMM)}
	place.Kept = w.kept
	lo := start.Face() + a.endDepth + a.spare(0)                      // first cut line as near the start as it goes
	hi := length - finish.Face() - a.lastDepth - a.spare(1) - a.gap() // and as far from it
	toCheck := a.endAdd + a.half + a.toElement()                      // from the cut line to the check's inlet
	bent, bend := start.Bent()
	straight := func(from float64) float64 { return from + toCheck - bent }
	against := net.Against(path.Run)
	if against {
		bent, bend = finish.Bent()
		toCheck += a.lastAdd - a.endAdd
		straight = func(from float64) float64 { return length - from - a.gap() + toCheck - bent }
	}
	from := (lo + hi) / 2
	if choice.Bypass == "spring" {
		place.WantedMM = w.straight(w.lineSpec, w.lineSize)
		switch {
		case bend && against:
			from = hi - max(0, place.WantedMM-straight(hi))
		case bend:
			from = lo + max(0, place.WantedMM-straight(lo))
		case against: // what stands there may have a bend before it: as much as is wanted where there is room
			from = min(from, hi-max(0, place.WantedMM-straight(hi)))
		default:
			from = max(from, lo+max(0, place.WantedMM-straight(lo)))
		}
	}
	from = max(lo, min(from, hi))
	whole := math.Ceil(from/5) * 5
	if against {
		whole = math.Floor(from/5) * 5 // away from the bend before the check
	}
	if whole >= lo && whole <= hi {
		from = whole
	}
	if place.WantedMM > 0 {
		place.StraightMM = straight(from)
	}
	place.FromMM, place.ToMM = from, from+a.gap()
	return place
}

// Where names a place in words.
func (p Place) Where() string {
	if p.Leg == 0 {
		return p.Run
	}
	return fmt.Sprintf("leg %d of %s", p.Leg, p.Run)
}

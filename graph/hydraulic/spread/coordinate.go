package spread

import (
	"cmp"
	"math"
	"slices"

	"dryfit/graph"
	"dryfit/graph/hydraulic"
	"dryfit/graph/sample"
	"dryfit/graph/settle"
)

// Each number that may be off has a coordinate of the sample by what it is a number of, never by where it
// stands in the file or by what it is called: of those that are numbers of the same, what is there already
// comes before what is new, what takes more power before what takes less, what stands where the pressure
// is higher before what stands lower. So neither another order of the tables nor another id
// moves a range, nor does another part through which no water passes; and what was there before the work
// has its coordinates whatever is fitted.

// The coordinates of what no part or run has, see (*spreader).own.
const (
	depthSlot = "depth"
	readSlot  = "reading"
	openSlot  = "fully open"
)

// Jets share what may be off of them out by what their loss was made from.
const (
	jetLossSlot  = "loss of jets"
	jetBoreSlot  = "bore of jets"
	jetHosesSlot = "hoses of jets"
)

// slots are what a number may be one of: the first coordinates, which the few points spread best, for what
// moves flows most as a rule. Judgement.
var slots = []string{
	string(settle.SizeNumber), string(settle.HeadNumber), string(settle.ShapeNumber), string(settle.FlowNumber),
	jetLossSlot, jetBoreSlot, lossOf(graph.HeatPump), lossOf(graph.Filter), string(settle.BoreNumber),
	string(settle.FittingsNumber), string(settle.JointsNumber), string(settle.RoughNumber), settle.TeesClass,
	string(settle.UnlistedNumber), string(settle.LengthNumber), jetHosesSlot, string(settle.BarbNumber),
	lossOf(graph.CheckValve), string(settle.CrackingNumber), string(settle.ExponentNumber), string(settle.HoldNumber),
	string(settle.KvNumber), string(settle.PositionNumber), lossOf(graph.ElementHeater), string(settle.EntranceNumber),
	string(settle.LossNumber), string(settle.ReducingNumber), string(settle.RatioNumber), string(settle.OpeningNumber),
	depthSlot, readSlot, openSlot, string(settle.StraightNumber),
}

// mostOfOne is how many numbers of the same have a coordinate by that alone; what there are more of stand
// behind all these one after another.
const mostOfOne = 20

// coordinateOf is that of the n-th number, from 0, of what it is one of.
func coordinateOf(slot string, n int) int {
	return sample.OfFlows(slices.Index(slots, slot) + n*len(slots))
}

func lossOf(k graph.Kind) string { return string(settle.LossNumber) + " of " + string(k) }

// slotOf is what an unknown of a part or run is one of.
func slotOf(n settle.Unknown, kind graph.Kind) string {
	own := lossOf(kind)
	switch {
	case n.Class == settle.TeesClass:
		return settle.TeesClass
	case n.Number == settle.LossNumber && slices.Contains(slots, own):
		return own
	}
	return string(n.Number)
}

// own is the coordinate at point i of the sample of what no part or run has.
func (s *spreader) own(i int, slot string) float64 { return sample.Point(i, coordinateOf(slot, 0)) }

// standing is by what an unknown is told from others of the same.
type standing struct {
	isNew        bool
	watts, press float64    // the most in any mode, in steps of what no solver leaves
	at           [3]float64 // mm; where it is laid out
	id           string     // of what is alike in all that
}

func (a standing) compare(b standing) int {
	age := func(s standing) int {
		switch {
		case s.watts <= 0: // no water passes
			return 2
		case s.isNew:
			return 1
		}
		return 0
	}
	return cmp.Or(cmp.Compare(age(a), age(b)), cmp.Compare(b.watts, a.watts), cmp.Compare(b.press, a.press),
		slices.Compare(a.at[:], b.at[:]), cmp.Compare(a.id, b.id))
}

// coordinates gives every unknown its coordinate.
func (s *spreader) coordinates() {
	stand := s.standings()
	of := map[string][]int{}
	for k := range s.all {
		of[s.all[k].slot] = append(of[s.all[k].slot], k)
	}
	next := mostOfOne * len(slots)
	for _, slot := range slots {
		same := of[slot]
		slices.SortStableFunc(same, func(a, b int) int { return stand[a].compare(stand[b]) })
		for n, k := range same {
			if s.all[k].coordinate = coordinateOf(slot, n); n >= mostOfOne {
				s.all[k].coordinate = sample.OfFlows(next)
				next++
			}
		}
	}
}

// standings are by what each unknown is told from others of the same: of what is met at several places the
// most of all these.
func (s *spreader) standings() []standing {
	at := map[string]standing{}
	for _, st := range s.stages() {
		for id, a := range st.standings() {
			if b, met := at[id]; met {
				a.watts, a.press = max(a.watts, b.watts), max(a.press, b.press)
			}
			at[id] = a
		}
	}
	out := make([]standing, len(s.all))
	for k := range s.all {
		out[k] = standing{isNew: true, watts: math.Inf(-1), press: math.Inf(-1), id: s.all[k].what}
		for n, id := range s.all[k].at {
			a := at[id]
			out[k].isNew = out[k].isNew && a.isNew
			out[k].watts, out[k].press = max(out[k].watts, a.watts), max(out[k].press, a.press)
			if n == 0 || slices.Compare(a.at[:], out[k].at[:]) < 0 {
				out[k].at = a.at
			}
		}
	}
	return out
}

// standings are those of its parts and runs in the case that is taken, by id.
func (st *spreadStage) standings() map[string]standing {
	out, lay := map[string]standing{}, st.model.Layout
	at := func(ref graph.PortRef) [3]float64 {
		p, known := lay.Positions[ref.String()]
		if !known {
			return [3]float64{}
		}
		return [3]float64{math.Round(p.X), math.Round(p.Y), math.Round(p.Z)}
	}
	for i, p := range st.likely.Parts {
		press, _, _ := st.model.Gauge(st.likely, i, "")
		a := standing{isNew: !p.Part.Existing, watts: told(p.Drop * hydraulic.Passing(p.Flow)), press: told(press)}
		if len(p.Part.Ports) > 0 {
			a.at = at(graph.PortRef{Part: p.Part.ID, Port: p.Part.Ports[0].Name})
		}
		out[p.Part.ID] = a
	}
	for _, r := range st.likely.Runs {
		a := standing{isNew: r.Run.New(), watts: told(r.Drop * hydraulic.Passing(r.Flow)), press: told(r.StaticPa), at: at(r.Run.From)}
		if other := at(r.Run.To); slices.Compare(other[:], a.at[:]) < 0 {
			a.at = other
		}
		out[r.Run.ID] = a
	}
	return out
}

// told is an amount in steps of a ten thousandth of it, far more than what solving a circuit in another
// order of its parts leaves; 0 of nothing.
func told(v float64) float64 {
	if v = math.Abs(v); v < 1e-6 {
		return 0
	}
	return math.Round(1e4*math.Log(v)) + 1e6
}

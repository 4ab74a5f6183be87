package settle

import (
	"cmp"
	"strings"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
)

// Part is a part with every value it needs. The fields of graph.Part are as written; Spec
// and Size, which it has too, are what was settled.
type Part struct {
	*graph.Part

	Row     Pick[catalog.Row]  // what it was taken to be, its own length laid over it; zero Row where the catalogue has none
	LossRow Pick[catalog.Row]  // the row its loss is of where the description gives none
	Spec    Pick[catalog.Spec] // of the pipe it is for
	Size    Pick[catalog.Size] // of the pipe it is for; of a tee's run; of a unit's ports
	Branch  Pick[catalog.Size] // of a tee's branch socket; zero for other kinds
	Style   Pick[string]       // of a check: Spring or Swing; "" for other kinds

	Length, TakeOff, BranchTakeOff, Socket Value // mm
	Bore, BranchBore                       Value // mm, what its loss stands on; of a tee: of its run and of its branch
	Loss                                   Loss
	Cracking                               Value // Pa, of a check
	Highest                                Value // Pa it stands, as its sheet or row says
	Derated                                Value // Pa it stands at the water's temperature; of plumbing
	Least, Rated, Most                     Value // m³/s a unit asks for; of others Least alone
	Below                                  Value // mm below the water line
	Power                                  Value // W: of an element and a blower electric, of a unit rated output
	Air                                    Value // m³/s of air that a blower moves
	Voltage                                Value // V, of a unit's supply
	FullLoad, Starting, Fuse               Value // A, of a unit, at that voltage
	LeastAir, MostWater                    Value // °C, of a unit: by its sheet or the user's row it names

	Ratings Pick[[]graph.Rating] // of a unit: described, else of the row it names; none where neither has any
	Dirty   Value                // of a filter: its drop when dirty over that when clean

	Position Value // of a hand valve, in words
	Kv       Value // m³/h of a hand valve at its position, where it has one of its own

	Body   Body                // of equipment without a box
	Speeds Pick[[]graph.Speed] // of a pump: described, else its row's
	Powers []Value             // W that it takes at each of them
	taken  *taken              // of a pump that what was read has otherwise than described; else nil

	measures Origin            // of its row's dimensions: the row of its size where the one named has none
	usual    Pick[catalog.Row] // of equipment that names a row: what it would be taken for otherwise
}

// OwnLength reports whether the part's length is its own: one that was given, or by a row of the
// user's that does not call it a guess; zero too.
func (p *Part) OwnLength() bool {
	return p.Part.OwnLength() || p.Length.Known && p.Length.How == OwnRow && !p.Row.V.Measure
}

// Opens reports whether a part can be opened by hand: it is a union, or has union ends.
func (p *Part) Opens() bool {
	return p.Kind == graph.Union || strings.Contains(cmp.Or(p.Ends, p.Row.V.Ends), "union") || strings.Contains(p.Row.V.Style, "true-union")
}

// OpensAt reports whether a part can be taken apart at a port without cutting pipe.
func (p *Part) OpensAt(port string) bool {
	return p.Kind == graph.Union || strings.Contains(cmp.Or(p.Ends, PortEnds(&p.Row.V, port)), "union")
}

// settlePart settles what hangs on the part and the pipe of its runs alone.
func (s *Stage) settlePart(out *Part, p *graph.Part) {
	out.Part = p
	out.Spec, out.Size = s.settleSize(p)
	out.Style = CheckStyle(s.cat, p)
	s.settleRow(out)
	row, from := &out.Row.V, out.measures
	if p.OwnLength() {
		row.LengthMM, row.Measure = p.LengthMM, false
		row.TolMinusMM, row.TolPlusMM = 0, 0
		out.Length = number(p.LengthMM, quantity.Length, given(p.KeyPos["length"]))
	} else {
		out.Length = ofRowMM(row.LengthMM, from)
	}
	out.TakeOff, out.BranchTakeOff, out.Socket = ofRowMM(row.TakeOffMM, from), ofRowMM(row.BranchTakeOffMM, from), ofRowMM(row.SocketMM, from)
	if p.Kind == graph.HeatPump {
		if size := s.portsSize(p); !size.V.IsZero() {
			out.Size = size
		}
	}
	if p.Kind == graph.Tee {
		out.Branch = s.teeBranch(out)
	}
	s.settleLimits(out)
	s.settlePressures(out)
	s.settleHandle(out)
	out.Body = bodyOf(s.cat, p, out.Row, out.usual, s.Water.Density.V)
	if p.BelowWaterSet {
		out.Below = number(p.BelowWaterMM, quantity.Length, given(p.KeyPos["below-water"]))
	}
	if p.Kind == graph.Pump {
		out.Speeds = s.settleSpeeds(out)
		out.Powers = s.settleSpeedPowers(out, s.Water.Density.V)
		out.taken = takenOf(out, s.Circuit.Fit)
	}
}

func ofRowMM(mm float64, from Origin) Value {
	if mm == 0 {
		return Value{}
	}
	return number(mm, quantity.Length, from)
}

// Reducing reports whether the part is a tee whose branch is of another size than its run.
func (p *Part) Reducing() bool { return !p.Branch.V.IsZero() && p.Branch.V != p.Size.V }

// teeBranch returns the size of a tee's branch socket.
func (s *Stage) teeBranch(out *Part) Pick[catalog.Size] {
	p := out.Part
	run := s.RunAt(p.ID, graph.Branch)
	switch {
	case out.Row.V.Kind == "reducing-tee":
		return Pick[catalog.Size]{out.Row.V.Size2, out.Row.Origin}
	case !p.BranchSize.IsZero():
		return Pick[catalog.Size]{p.BranchSize, given(p.KeyPos["branch-size"])}
	case run != nil && out.Size.V.IsZero():
		return Pick[catalog.Size]{run.Size, ofKeys(Key{run.ID, "size"})}
	}
	return Pick[catalog.Size]{out.Size.V, ofKeys(Key{p.ID, "size"})}
}

// settleSpeeds returns the speeds of a pump: described, else those of its row. A pump of
// which nothing is said runs at the last of its generic row's speeds, the highest.
func (s *Stage) settleSpeeds(out *Part) Pick[[]graph.Speed] {
	p := out.Part
	if p.Pump != nil && len(p.Pump.Speeds) > 0 {
		if p.Pump.LabelW > 0 && !out.Row.V.OwnsCurve() { // of a row of the user's the curves are as it has them
			return Pick[[]graph.Speed]{p.Pump.Speeds, assumed(graph.Say("%s, by the curves of %s", p.Pump.LabelWords(), p.Pump.LabelRow))}
		}
		if p.Pump.TypeSaid {
			return Pick[[]graph.Speed]{p.Pump.Speeds, lent(out.Row, out.Row.V.OwnsCurve())}
		}
		return Pick[[]graph.Speed]{p.Pump.Speeds, given(firstPos(p.KeyPos, "speeds", "curve", "power"))}
	}
	speeds := graph.SpeedsOf(out.Row.V)
	if n := len(speeds); n > 0 {
		one := speeds[n-1]
		one.Name = graph.SpeedOn
		speeds = []graph.Speed{one}
	}
	return Pick[[]graph.Speed]{speeds, lent(out.Row, out.Row.V.OwnsCurve())}
}

// firstPos returns the place of the first of some keys that was written.
func firstPos(keys map[string]graph.Pos, names ...string) graph.Pos {
	for _, n := range names {
		if pos, ok := keys[n]; ok {
			return pos
		}
	}
	return graph.Pos{}
}

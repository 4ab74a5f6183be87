package settle

import (
	"math"

	"dryfit/catalog"
	"dryfit/catalog/tables"
	"dryfit/graph"
	"dryfit/graph/hydraulic/formula"
)

// Number is what an Unknown is a number of.
type Number string

// The numbers that may be off. Those of a run are its own; others are of a part.
const (
	LossNumber     Number = "loss"
	ExponentNumber Number = "exponent"
	CrackingNumber Number = "cracking pressure"
	HoldNumber     Number = "flow that holds it fully open"
	SizeNumber     Number = "pump's size"
	ShapeNumber    Number = "pump's shape"
	HeadNumber     Number = "pump's head"
	FlowNumber     Number = "pump's flow"
	RatioNumber    Number = "speed ratio"
	KvNumber       Number = "Kv"
	PositionNumber Number = "position"
	OpeningNumber  Number = "opening"
	ReducingNumber Number = "loss of a reducing tee"
	StraightNumber Number = "what goes straight through a tee"
	FittingsNumber Number = "K of fittings"
	EntranceNumber Number = "covers of suctions"
	LengthNumber   Number = "length"
	BarbNumber     Number = "K of barbs"
	UnlistedNumber Number = "elbows nobody listed"
	JointsNumber   Number = "joints"
	RoughNumber    Number = "roughness"
	BoreNumber     Number = "bore"
	DepthNumber    Number = "depth below the water"
)

// Unknown is a number that may be off, where it was met: a settled value, or what nobody lists
// and every tub has. Those of one class are off together, and are one unknown wherever they
// are met; others are off by themselves.
type Unknown struct {
	Number Number
	At     string // id of the part or run
	OfRun  bool   // At is a run
	Class  string // in words what is off together: "the bore of old hose"; "" for a number off by itself
	Words  string // of a number off by itself: "the drop of filter"
	Whose  string // id of what that is: At, or the old run At is left of
	Spread string // class of the spreads its span is of; "" where a row gives it
	Span   tables.Span
	Adds   bool // Span is added to the number, not a share of it
}

// Unknowns walks what may be off: parts, then runs, in the order of the circuit. What of it
// counts in a mode, and what it moves there, says package spread.
func (s *Stage) Unknowns() []Unknown {
	var out []Unknown
	for _, p := range s.Parts {
		out = append(out, p.unknowns()...)
	}
	for _, r := range s.Runs {
		out = append(out, r.unknowns()...)
	}
	return out
}

// off is a number of the part that is off by itself, by a class of the spreads.
func (p *Part) off(number Number, words, class string) Unknown {
	return Unknown{Number: number, At: p.ID, Whose: p.ID, Words: words, Spread: class, Span: spreadOf(class, p.Known).Span}
}

// together is a number that is off with all of its class, by a class of the spreads that
// nothing said of one part or run can narrow.
func together(at string, number Number, words, class string) Unknown {
	return Unknown{Number: number, At: at, Class: words, Spread: class, Span: spreadOf(class, graph.Assumed).Span}
}

func (p *Part) unknowns() []Unknown {
	id := p.ID
	switch k := p.Kind; {
	case k == graph.Pump:
		return p.PumpUnknowns()
	case k == graph.Tee:
		straight := together(id, StraightNumber, "what goes straight on through tees", tables.SpreadTeeStraight)
		straight.Adds = true
		return []Unknown{together(id, FittingsNumber, TeesClass, tables.SpreadTeeK), straight,
			together(id, ReducingNumber, "the loss of reducing tees", tables.SpreadReducingTee)}
	case k == graph.Reducer:
		return []Unknown{together(id, FittingsNumber, FittingsClass, tables.SpreadFittingK)}
	}
	loss := Unknown{Number: LossNumber, At: id, Whose: id, Words: "the drop of " + id, Span: p.Loss.Span}
	if p.Kind.IsHandValve() {
		return []Unknown{p.kvUnknown(), p.whereItStands(), loss}
	}
	out := []Unknown{loss}
	if p.Kind == graph.DiverterValve {
		where := p.off(PositionNumber, "how far "+id+" is turned", tables.SpreadPosition)
		where.Adds = true
		opens := p.off(OpeningNumber, "how "+id+" opens as it is turned", tables.SpreadWayOpening)
		opens.Adds = true
		out = append(out, where, opens)
	}
	if row := &p.Loss.Row; row.Exponent == 0 {
		e := tables.ExponentOf(row.Style, row.Kind)
		out = append(out, Unknown{Number: ExponentNumber, At: id, Whose: id, Words: "the shape of the drop of " + id + " over its flow", Adds: true,
			Span: tables.Span{Low: e.Low - e.Likely, High: e.High - e.Likely}})
	}
	if p.Cracking.V > 0 {
		out = append(out, Unknown{Number: CrackingNumber, At: id, Whose: id, Words: "the cracking pressure of " + id, Span: p.Cracking.Span})
	}
	if p.Kind == graph.CheckValve {
		out = append(out, p.off(HoldNumber, "the flow that holds "+id+" fully open", tables.SpreadHoldOpen))
	}
	return out
}

// valveClasses are the classes of the spreads by which a kind of hand valve is off: its Kv, its loss fully open.
var valveClasses = map[graph.Kind]struct{ kv, open string }{
	graph.BallValve:      {tables.SpreadBallKv, tables.SpreadBallOpen},
	graph.GateValve:      {tables.SpreadGateKv, tables.SpreadGateOpen},
	graph.ButterflyValve: {tables.SpreadButterflyKv, tables.SpreadFlapOpen},
}

// kvUnknown is how far the Kv of a hand valve is off: one that is given as well as it is known, one by
// the handbook's opening curve as far as handbooks are of its kind, however well anybody knows the valve itself.
func (p *Part) kvUnknown() Unknown {
	known := p.Known
	if given := p.Valve != nil && p.Valve.Kv > 0; !given && !(p.Loss.Row.Owns("opening") && len(p.Loss.Row.Opening) > 0) {
		known = graph.Assumed
	}
	class := valveClasses[p.Kind].kv
	return Unknown{Number: KvNumber, At: p.ID, Whose: p.ID, Words: "the Kv of " + p.ID, Spread: class, Span: spreadOf(class, known).Span}
}

// whereItStands is how far a hand valve is not where it is said to stand: a handle's share of its quarter
// turn, or of a gate, which nobody sees, the turns of its wheel.
func (p *Part) whereItStands() Unknown {
	out := p.off(PositionNumber, "where the handle of "+p.ID+" stands", tables.SpreadPosition)
	if p.Kind == graph.GateValve {
		out = p.off(PositionNumber, "where the wheel of "+p.ID+" stands", tables.SpreadWheel)
	}
	out.Adds = true
	return out
}

// smallPumpW is the watts of a type, or what a pump must take, below which its motor is one of the small
// kinds: a magnet rotor in the water, shaded poles. Common practice, no source.
const smallPumpW = 200

// PumpUnknowns are, of a pump with a curve of its own, how far head and flow are off; of one
// of a type, how large it is and which shape it has.
func (p *Part) PumpUnknowns() []Unknown {
	id, data := p.ID, p.Pump
	out := []Unknown{
		p.off(HeadNumber, "the head of "+id, tables.SpreadPumpHead),
		p.off(FlowNumber, "the flow of "+id+" at a head", tables.SpreadPumpFlow),
	}
	if data.OnlyEnds() { // its head between them is a guess, however well they are known
		out[0].Span = spreadOf(tables.SpreadPumpHead, graph.Assumed).Span
	}
	if p.PumpOfType() {
		words := "how large " + id + " is"
		if data != nil && data.LabelW > 0 && !p.Row.V.OwnsCurve() {
			words = "how much of its watts " + id + " turns into flow"
		} else if p.unnamed() {
			words = "what kind of pump " + id + " is, and how large"
		}
		size := p.off(SizeNumber, words, p.sizeClass())
		out = []Unknown{size, p.off(ShapeNumber, "whether "+id+" makes more flow or more head", p.shapeClass())}
	}
	return append(out, p.off(RatioNumber, "the low speed of "+id, p.speedClass()))
}

// speedClass is the class of the spreads by which a speed that is given by its ratio is off: a winding slips,
// a drive, which has more speeds than two, holds what it is set to; but to what, its type does not say.
func (p *Part) speedClass() string {
	switch {
	case len(p.Speeds.V) <= 2:
		return tables.SpreadSpeedRatio
	case !p.PumpOfType():
		return tables.SpreadDrive
	}
	class := tables.SpreadDrive
	for _, s := range p.Speeds.V {
		switch {
		case s.Ratio <= 0 || s.RatioSaid:
		case s.PowerW <= 0 || s.PowerTaken:
			return tables.SpreadDriveOfType
		default:
			class = tables.SpreadDriveWatts
		}
	}
	return class
}

// sizeClass is the class of the spreads by which a pump of a type is larger or smaller than that.
func (p *Part) sizeClass() string {
	switch d := p.Pump; {
	case p.unnamed():
		return tables.SpreadPumpAny
	case d == nil || d.LabelW <= 0 || p.Row.V.OwnsCurve():
		return tables.SpreadPumpSize
	case d.ByAmps() && d.RowW < smallPumpW:
		return tables.SpreadSmallAmps
	case d.ByAmps():
		return tables.SpreadPumpAmps
	case d.RowW < smallPumpW: // by the motor of its type: one of a 48 frame is none of the small kinds, whatever its label
		return tables.SpreadSmallLabel
	}
	return tables.SpreadPumpLabel
}

// shapeClass is the class of the spreads by which a pump of a type makes more flow or more head than that. A drive,
// which has more speeds than two, is set to what its line wants: the fastest speed in use is seldom all it has, and
// a larger pump that turns more slowly makes the same power of more flow at less head.
func (p *Part) shapeClass() string {
	switch {
	case p.Row.V.Style == "plug-in":
		return tables.SpreadBoxShape
	case len(p.Row.V.Speeds) > 2:
		return tables.SpreadDriveShape
	}
	return tables.SpreadPumpShape
}

// unnamed reports whether nobody says anything of a pump by which its type or its size is known, nor
// does its line: it is taken for the usual one.
func (p *Part) unnamed() bool {
	return (p.Pump == nil || p.Pump.LabelW <= 0) && p.Row.How == Assumed && p.Row.V.Default
}

// headSpread is by how much a pump's head may be off: of one of a type by what its size and its shape
// make of it together, whose logarithms add as deviations do.
func (p *Part) headSpread() Spread {
	out := spreadOf(tables.SpreadPumpHead, p.Known)
	if p.PumpOfType() {
		size, shape := spreadOf(p.sizeClass(), p.Known), spreadOf(p.shapeClass(), p.Known)
		bySize := func(v float64) float64 { _, head := formula.PumpOfSize(1 + v); return math.Log(head) }
		byShape := func(v float64) float64 { return -math.Log1p(v) }
		middle := bySize(size.Middle) + byShape(shape.Middle)
		out.Middle = math.Expm1(middle)
		out.Low = math.Expm1(middle - math.Hypot(bySize(size.Low)-bySize(size.Middle), byShape(shape.High)-byShape(shape.Middle)))
		out.High = math.Expm1(middle + math.Hypot(bySize(size.High)-bySize(size.Middle), byShape(shape.Low)-byShape(shape.Middle)))
	}
	out.Class = "head of " + p.ID
	return out
}

// PumpOfType reports whether a pump's curve is that of a type or made from its label: neither
// described nor that of a row of the user's own, which is as well known as if it stood on the part.
func (p *Part) PumpOfType() bool { return !p.Pump.Described() && !p.Row.V.OwnsCurve() }

// age is what the pipe of a run is called for what is off together.
func (r *Run) age() string {
	if !r.New() {
		return "old"
	}
	return "new"
}

func (r *Run) unknowns() []Unknown {
	id := r.ID
	cover := together(id, EntranceNumber, "the covers of the suctions", tables.SpreadEntrance)
	cover.Adds = true
	length := Unknown{Number: LengthNumber, At: id, Whose: id, Words: "the length of " + id, Spread: tables.SpreadRunLength, Span: r.Length.Span}
	joints := together(id, JointsNumber, "joints and burrs in the new pipe", tables.SpreadJointsNew)
	if len(r.Legs) > 0 {
		length = Unknown{Number: LengthNumber, At: id, Class: "lengths measured leg by leg", Spread: tables.SpreadLegs, Span: spreadOf(tables.SpreadLegs, r.Known).Span}
	}
	if !r.New() {
		joints = together(id, JointsNumber, "joints in the old pipe", tables.SpreadJointsOld)
	}
	joints.Adds = true
	out := []Unknown{cover, length,
		together(id, BarbNumber, "K of "+r.age()+" barbs", tables.SpreadBarb),
		together(id, FittingsNumber, FittingsClass, tables.SpreadFittingK)}
	if whole := r.Whole(); !r.New() && len(r.Legs) == 0 {
		out = append(out, Unknown{Number: UnlistedNumber, At: id, Whose: whole, Words: "elbows nobody listed in " + whole,
			Spread: tables.SpreadUnlisted, Span: spreadOf(tables.SpreadUnlisted, r.Known).Span, Adds: true})
	}
	if !r.Spec.IsHose() { // hose is on barbs: nothing is cemented, nothing sawn
		out = append(out, joints)
	}
	out = append(out, Unknown{Number: RoughNumber, At: id, Class: r.Rough.Class, Spread: r.roughClass(), Span: r.Rough.Span},
		r.boreUnknown())
	for i := range out {
		out[i].OfRun = true
	}
	return out
}

// boreSpread is by how much the bore of pipe of the run's spec may be off.
func (r *Run) boreSpread() Spread {
	s := spreadOf(boreClass(r.Spec), r.Known)
	s.Class = "the bore of " + r.age() + " " + r.Spec.Pipe()
	return s
}

// writtenBoreSpread is by how much a bore that the description says may be off: mm of the class, as
// shares of the bore of pipe of its spec and size, for whoever measures that pipe writes it of every run
// of it. One of a pipe that no table has is off by itself.
func (r *Run) writtenBoreSpread() Spread {
	s := spreadOf(tables.SpreadBoreWritten, r.Known)
	of := r.Pipe.V.BoreMM
	if of <= 0 {
		of = r.BoreMM
	} else {
		s.Class = "the bore written of " + r.age() + " " + r.Spec.Pipe() + " of " + r.Size.String()
	}
	s.Low, s.Middle, s.High = s.Low/of, s.Middle/of, s.High/of
	return s
}

func (r *Run) boreUnknown() Unknown {
	out := Unknown{Number: BoreNumber, At: r.ID, Class: r.Bore.Class, Spread: boreClass(r.Spec), Span: r.Bore.Span}
	if r.BoreMM > 0 {
		out.Spread = tables.SpreadBoreWritten
	}
	if out.Class == "" {
		out.Whose, out.Words = r.ID, "the bore of "+r.ID
	}
	return out
}

func boreClass(spec catalog.Spec) string {
	if spec.Flexible() {
		return tables.SpreadHoseBore
	}
	return tables.SpreadBore
}

// roughSpread is by how much the roughness of pipe of the run's spec may be off.
func (r *Run) roughSpread() Spread {
	s := spreadOf(r.roughClass(), r.Known)
	s.Class = "the wall of " + r.age() + " " + r.Spec.Pipe()
	if r.Spec.Flexible() {
		s.Class = "the ribs of " + r.age() + " " + r.Spec.Pipe()
	}
	return s
}

func (r *Run) roughClass() string {
	switch {
	case r.Spec == "":
		return tables.SpreadRoughnessAny
	case r.Spec.Flexible():
		return tables.SpreadRibs
	case !r.New():
		return tables.SpreadRoughnessOld
	}
	return tables.SpreadRoughness
}

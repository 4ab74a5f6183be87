package hydraulic

import (
	"math"

	"dryfit/catalog"
	"dryfit/catalog/tables"
	"dryfit/graph"
	"dryfit/graph/hydraulic/formula"
	"dryfit/graph/hydraulic/laws"
	"dryfit/graph/hydraulic/network"
	"dryfit/graph/route"
	"dryfit/graph/settle"
)

// Model is the network of one stage in one mode, built once and solved as often as wanted:
// with its inputs as described, or each of them off by a factor. It keeps the working memory
// of its solver and is not safe for use by several goroutines.
type Model struct {
	cools  bool // the water is kept cold: a unit gives it no heat
	Layout *route.Layout
	Mode   graph.Mode
	Stage  graph.Stage
	Water  Water

	Parts []ModelPart // in the order of the circuit
	Runs  []ModelRun  // in the order of the circuit
	Notes []graph.Diagnostic

	PartAt map[string]int    // id -> index into Parts
	RunAt  map[string]int    // id -> index into Runs
	LeftOf map[string][]Left // id of an old run -> what is left of it
	net    network.Network
	ports  int         // how many ports there are
	tub    int         // node of the water in the tub
	Below  [][]float64 // runs: how far their points lie below the water, mm; nil not known
	solver *network.Solver
	plain  *network.Flow // solution without a Perturb
	base   *Perturb      // what the inputs are taken as; nil: as described
}

// ModelPart is a part as the model sees it.
type ModelPart struct {
	Part   *graph.Part
	Row    catalog.Row // row its loss is from; zero Row where none is
	Source string      // of its loss: "described", "catalogue", "assumed" (neither has one), "none"
	BoreM  float64     // bore its K stands on, m; 0 where not known
	Speed  string      // of a running pump
	Off    bool        // a pump that does not run
	Shut   bool        // nothing passes: a hand valve shut, jets all shut
	Swing  bool        // a check that is not held shut by a spring

	Below   float64 // mm below the water, where level
	level   bool    // it is known how far below the water the part lies
	Density float64 // kg/m³
	Set     *settle.Part
	ports   []string      // with water, in the order of the part
	nodes   []int         // of each
	meets   []int         // of each: its number among all ports
	middle  int           // node in which its ports meet; 0: none
	Edges   []int         // two-port parts: one; tee, manifold, diverter: one for each port; -1 none
	Law     *laws.PartLaw // loss of two-port parts
	times   float64       // of the loss, as described
	Check   *laws.CheckLaw
	Crack   float64 // m, as described
	Pump    *laws.PumpLaw
	pump    *ModelPart // of a unit: the pump it hangs on; nil where there is none
	Rise    RunningPump
	bend    *laws.RunLaw // reducers: by the way of the water
	bend0   [2]float64
	Tee     *laws.TeeLaw
	ways    []*laws.PartLaw // of manifold and diverter, for each port; nil none
	way0    []float64       // their loss with every way fully open
	turned  []float64       // how far a diverter's ways are open

	exponent float64   // as described; of a loss of one point
	sized    *sizing   // nil: not by a pump
	apart    bool      // jets, a pump: of another water than the unit's
	backward bool      // jets: written so that the water leaves by their inlet
	Power    bool      // the loss is of one point, so that its exponent counts
	Valve    *ValveAt  // a hand valve partly open by its opening curve
	Given    LossGiven // how the loss is known
	Hold     float64   // m³/s, flow that holds a swing check open
}

// LossGiven says what a part's loss was made from, and so what its spread is.
type LossGiven int

// What a loss may be made from.
const (
	GivenNothing  LossGiven = iota
	GivenLoss               // the description's loss, or its rated jet
	GivenRow                // a row of the catalogue
	GivenSize               // a row, by the size of its line
	GivenBore               // jets: bore of the description; K of the description or the row
	GivenKv                 // a hand valve's own Kv
	GivenPosition           // a hand valve's opening curve
)

// sizing says that a part was chosen by its maker for the line of a pump: a larger pump than
// thought has a larger part.
type sizing struct {
	pump string // id
	head bool   // its drop goes with the pump's head, as that of jets
}

// LevelKnown reports whether legs tie the part to one with below-water, so that Below holds.
func (p *ModelPart) LevelKnown() bool { return p.level }

// SizedTo is the id of the pump a part of unknown make was sized to; "" where it was not.
func (p *ModelPart) SizedTo() string {
	if p.sized == nil {
		return ""
	}
	return p.sized.pump
}

// ModelRun is a run as the model sees it.
type ModelRun struct {
	Run        *graph.Run
	LengthM    float64
	BoreM      float64
	RoughnessM float64
	Fittings   []FittingLoss
	Entrance   bool   // its start lies in the tub: the water enters the pipe there, or leaves it
	Exit       bool   // its end does
	FromTub    bool   // by whichever of the two the water comes from the tub, as it goes: a suction
	Edge       int    // -1: no water
	ends       [2]int // numbers of the ports it joins, where it has water
	bare       bool   // neither length nor bore: two parts that touch
	Law        *laws.RunLaw
}

// FittingLoss is what one kind of fitting in a run costs.
type FittingLoss struct {
	Kind  string
	Where string
	Count int
	K     float64 // of one, for water in the direction of the run
	KBack float64 // of one, against it
	BoreM float64 // bore K stands on
	Barb  bool    // a barb that stands in no list: its K has a spread of its own
}

// Perturb holds factors on the inputs of a model: a nil slice leaves all of its kind as they
// are. Parts' slices have one entry for each part of the circuit, runs' one for each run.
type Perturb struct {
	Loss      []float64 // parts: on the head lost (a tee's K, a valve's, the jets'); of a pump on its head
	Flow      []float64 // parts: of a pump on its flow
	Head      []float64 // parts: of a pump on its head alone: jets sized by it stay as they are
	Speed     []float64 // parts: of a pump on its speed, where that is known by its ratio alone
	Cracking  []float64 // parts: on a check's cracking pressure
	Hold      []float64 // parts: on the flow that holds a swing check open
	Exponent  []float64 // parts: added to the exponent of a loss given at one flow
	Opening   []float64 // parts: added to the power by which a diverter's Kv goes with its turn
	Position  []float64 // parts: added to the share a hand valve is open
	Straight  []float64 // parts: of a tee, K of what goes straight on besides the handbook's
	Fittings  []float64 // runs: on the K of fittings, entrance and exit
	Joints    []float64 // runs: K on their bore, added for joints and what nobody listed
	Barbs     []float64 // runs: on the K of barbs nobody listed
	Length    []float64 // runs
	Bore      []float64 // runs
	Roughness []float64 // runs
}

// Left is a piece of an old run, or all of it.
type Left struct {
	Run   int     // index into Runs
	Share float64 // of its length
}

// none is a Perturb that changes nothing.
var none = &Perturb{}

func added(list []float64, i int) float64 {
	if i < len(list) {
		return list[i]
	}
	return 0
}

func factor(list []float64, i int) float64 {
	if i < len(list) {
		return list[i]
	}
	return 1
}

// Take has the model take its inputs times some factors for what they are: nil stands for those from now
// on, wherever it did for the inputs as described. A Perturb is of the inputs as described all the same.
func (m *Model) Take(p *Perturb) {
	m.base = p
	m.Perturb(nil)
}

// Perturb sets the laws to the inputs times the factors; nil: as they are taken.
func (m *Model) Perturb(p *Perturb) {
	if p == nil {
		p = m.base
	}
	if p == nil {
		p = none
	}
	for i := range m.Runs {
		if r := &m.Runs[i]; r.Edge >= 0 {
			r.setLaw(m.Water, p, i)
		}
	}
	for i := range m.Parts {
		m.PerturbPart(p, i)
	}
}

// PerturbPart is Perturb where since the last time only the factors of part i changed, and it is no
// pump that others are sized to.
func (m *Model) PerturbPart(p *Perturb, i int) {
	part := &m.Parts[i]
	f := factor(p.Loss, i)
	switch {
	case part.Pump != nil:
		v := 1.0
		if part.Rise.ByRatio {
			v = factor(p.Speed, i)
		}
		part.Pump.Times, part.Pump.Wide = f*factor(p.Head, i)*v*v, factor(p.Flow, i)*v
	case part.Check != nil:
		part.Check.Open.Times = part.times * f
		part.Check.Cracking = part.Crack * factor(p.Cracking, i)
		part.Check.Hold = part.Hold * factor(p.Hold, i)
	case part.Law != nil:
		part.Law.Times = part.times * f
		if d := added(p.Exponent, i); part.Power && (d != 0 || part.Law.Exponent != part.exponent) {
			part.Law.Exponent = min(max(part.exponent+d, 1), 2.2)
		}
		if s := part.sized; s != nil {
			part.Law.Wide = 1
			if k, ok := m.PartAt[s.pump]; ok {
				part.Law.Wide = factor(p.Flow, k)
				if s.head {
					part.Law.Times *= factor(p.Loss, k)
				}
			}
		}
		if v := part.Valve; v != nil {
			part.Law.Square = laws.SquareOf(v.k(v.Share+added(p.Position, i)), v.bore)
		}
	case part.bend != nil:
		part.bend.Ahead, part.bend.Aback = part.bend0[0]*f, part.bend0[1]*f
	case part.Tee != nil:
		part.Tee.Times, part.Tee.Straight = f, added(p.Straight, i)
	}
	for k, w := range part.ways {
		if w != nil {
			w.Times = part.way0[k] * f
			if part.Part.Kind == graph.DiverterValve {
				share := tables.OpenShare(part.Row.Opening, part.wayAt(k, added(p.Position, i)))
				if n := added(p.Opening, i); n != 0 && len(part.Row.Opening) == 0 {
					share = math.Pow(share, 1+n)
				}
				w.Times /= share * share
			}
		}
	}
}

// setLaw makes the run's law of its inputs times the factors.
func (r *ModelRun) setLaw(w Water, p *Perturb, i int) {
	bore := factor(p.Bore, i)
	law := r.Law
	law.Set(r.LengthM*factor(p.Length, i), r.BoreM*bore, r.RoughnessM*factor(p.Roughness, i), w.Viscosity/w.Density)
	if r.LengthM == 0 {
		law.Friction = 0
	}
	for _, f := range r.Fittings {
		k := float64(f.Count)
		if f.Barb {
			k *= factor(p.Barbs, i)
		} else {
			k *= factor(p.Fittings, i)
		}
		law.Ahead += laws.SquareOf(k*f.K, f.BoreM*bore)
		law.Aback += laws.SquareOf(k*f.KBack, f.BoreM*bore)
	}
	if k := added(p.Joints, i); k != 0 {
		more := laws.SquareOf(k, r.BoreM*bore)
		law.Ahead += more
		law.Aback += more
	}
}

// Water is water at one temperature; see package formula for where its values come from.
type Water = formula.Water

// waterOf returns the water of a stage: by its temperature, with the density and the
// viscosity the description may give laid over.
func waterOf(set *settle.Stage) Water {
	w := formula.NewWater(set.Water.TemperatureC.V)
	w.Density, w.Viscosity = set.Water.Density.V, set.Water.Viscosity.V
	return w
}

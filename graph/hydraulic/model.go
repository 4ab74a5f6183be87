package hydraulic

import (
	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/hydraulic/network"
	"dryfit/graph/route"
)

// Model is the network of one stage in one mode, built once and solved as often as wanted:
// with its inputs as described, or each of them off by a factor. It keeps the working memory
// of its solver and is not safe for use by several goroutines.
type Model struct {
	Layout *route.Layout
	Mode   graph.Mode
	Stage  graph.Stage
	Water  Water

	Parts []ModelPart // in the order of the circuit
	Runs  []ModelRun  // in the order of the circuit
	Notes []graph.Diagnostic

	net    network.Network
	nodes  map[string]int
	tub    int // node of the water in the tub
	solver *network.Solver
	plain  *network.Flow // solution without a Perturb
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

	ports []string // with water, in the order of the part
	nodes []int    // of each
	edges []int    // two-port parts: one; tee, manifold, diverter: one for each port; -1 none
	law   *partLaw // loss of two-port parts
	times float64  // of the loss, as described
	check *checkLaw
	crack float64 // m, as described
	pump  *pumpLaw
	rise  runningPump
	bend  *runLaw // reducers: by the way of the water
	bend0 [2]float64
	tee   *teeLaw
	ways  []*partLaw // of manifold and diverter, for each port; nil none
	way0  []float64
}

// ModelRun is a run as the model sees it.
type ModelRun struct {
	Run        *graph.Run
	LengthM    float64
	BoreM      float64
	RoughnessM float64
	Fittings   []FittingLoss
	Entrance   bool // its start lies in the tub: the water enters the pipe there, or leaves it
	Exit       bool // its end does
	edge       int  // -1: no water
	law        *runLaw
}

// FittingLoss is what one kind of fitting in a run costs.
type FittingLoss struct {
	Kind   string
	Where  string
	Count  int
	K      float64 // of one, for water in the direction of the run
	KBack  float64 // of one, against it
	BoreM  float64 // bore K stands on
	Source string
}

// Perturb holds factors on the inputs of a model: a nil slice leaves all of its kind as they
// are. Parts' slices have one entry for each part of the circuit, runs' one for each run.
type Perturb struct {
	Loss      []float64 // parts: on the head lost (a tee's K, a valve's, the jets'); of a running pump on its head
	Cracking  []float64 // parts: on a check's cracking pressure
	Fittings  []float64 // runs: on the K of fittings, entrance and exit
	Length    []float64 // runs
	Bore      []float64 // runs
	Roughness []float64 // runs
}

func factor(list []float64, i int) float64 {
	if i < len(list) {
		return list[i]
	}
	return 1
}

// perturb sets the laws to the inputs times the factors.
func (m *Model) perturb(p *Perturb) {
	if p == nil {
		p = &Perturb{}
	}
	for i := range m.Runs {
		r := &m.Runs[i]
		if r.edge < 0 {
			continue
		}
		r.setLaw(m.Water, factor(p.Length, i), factor(p.Bore, i), factor(p.Roughness, i), factor(p.Fittings, i))
	}
	for i := range m.Parts {
		part := &m.Parts[i]
		f := factor(p.Loss, i)
		switch {
		case part.pump != nil:
			part.pump.times = f
		case part.check != nil:
			part.check.open.times = part.times * f
			part.check.cracking = part.crack * factor(p.Cracking, i)
		case part.law != nil:
			part.law.times = part.times * f
		case part.bend != nil:
			part.bend.ahead, part.bend.aback = part.bend0[0]*f, part.bend0[1]*f
		case part.tee != nil:
			part.tee.times = f
		}
		for k, w := range part.ways {
			if w != nil {
				w.times = part.way0[k] * f
			}
		}
	}
}

// setLaw makes the run's law of its inputs times the factors.
func (r *ModelRun) setLaw(w Water, length, bore, roughness, fittings float64) {
	law := newRunLaw(r.LengthM*length, r.BoreM*bore, r.RoughnessM*roughness, w.Viscosity/w.Density)
	if r.LengthM == 0 {
		law.friction = 0
	}
	for _, f := range r.Fittings {
		k := float64(f.Count) * fittings
		law.ahead += squareOf(k*f.K, f.BoreM*bore)
		law.aback += squareOf(k*f.KBack, f.BoreM*bore)
	}
	*r.law = *law
}

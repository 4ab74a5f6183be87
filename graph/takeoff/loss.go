package takeoff

import (
	"fmt"
	"math"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/catalog/tables"
	"dryfit/graph"
	"dryfit/graph/hydraulic/formula"
	"dryfit/graph/route"
	"dryfit/graph/settle"
)

// method says where K and the equivalent lengths of a bill come from.
const method = "K = (L/D)·f_T and equivalent length = (L/D)·bore, fully turbulent, by Crane TP-410 (2009): " +
	"elbow 90 30, elbow 45 16, tee 20 through and 60 round the corner, gate 8, ball 3, butterfly 45, swing check 100; " +
	"a part known by K, Kv or one point of a sheet counts K·bore/f_T; a change of bore by Borda-Carnot; couplings and unions as nothing. " +
	"A catalogue row of your own goes before the method. Lengths are of pipe of the part's own size and are handbook values: " +
	"at the flow of a mode the pipe's own friction differs, and with it the length a part counts for. " +
	"Pumps, filters, heaters, jets and other equipment are not counted: they have their own drop."

// handbook is what a fitting costs by the handbook.
type handbook struct {
	k       float64 // on the bore
	lengthM float64 // of pipe of that bore
}

func (h handbook) times(n float64) handbook { return handbook{h.k * n, h.lengthM * n} }

// fromLoverD returns K = (L/D)·f_T and the length L = (L/D)·D for a bore in mm.
//
// Source: Crane Co., Flow of Fluids Through Valves, Fittings, and Pipe, TP-410, 2009.
func fromLoverD(loverD, boreMM float64) handbook {
	if loverD <= 0 || boreMM <= 0 {
		return handbook{}
	}
	return handbook{k: formula.HandbookK(loverD, boreMM/1000), lengthM: loverD * boreMM / 1000}
}

// fromK returns the length that loses as much at full turbulence: K·D/f_T.
func fromK(k, boreMM float64) handbook {
	if k == 0 || boreMM <= 0 {
		return handbook{}
	}
	d := boreMM / 1000
	return handbook{k: k, lengthM: k * d / formula.FullyTurbulent(d)}
}

// ofRow returns what a row's part costs on pipe of a bore in mm: by its L/D, K, Kv or one
// point of a sheet, the first it has; of water of a density (kg/m³).
func ofRow(row *catalog.Row, boreMM, density float64) handbook {
	if row.K > 0 && row.LoverD == 0 && row.BoreMM > 0 {
		boreMM = row.BoreMM // of a barb: narrower than its pipe
	}
	d := boreMM / 1000
	switch {
	case row.LoverD > 0:
		return fromLoverD(row.LoverD, boreMM)
	case row.K > 0:
		return fromK(row.K, boreMM)
	case d <= 0:
		return handbook{}
	case row.Kv > 0:
		return fromK(formula.KvToK(row.Kv, d), boreMM)
	case row.LossFlow > 0:
		return fromK(pointK(row.LossFlow, row.LossDropPa/(density*formula.Gravity), d), boreMM)
	}
	return handbook{}
}

// pointK returns K on a bore (m) of what loses a head (m) at a flow (m³/s).
func pointK(flow, head, bore float64) float64 {
	return head / (flow * flow * formula.HeadPerFlow2(bore))
}

// ofDescribed returns what a loss in the words of the description costs; nothing where it is not of
// one square law.
func ofDescribed(l *graph.Loss, boreMM, density float64) handbook {
	if l.HasK && l.BoreMM > 0 {
		boreMM = l.BoreMM
	}
	switch {
	case l.None || boreMM <= 0:
		return handbook{}
	case l.HasK:
		return fromK(l.K, boreMM)
	case l.Kv > 0:
		return fromK(formula.KvToK(l.Kv, boreMM/1000), boreMM)
	case len(l.Points) == 1 && l.Points[0].Flow > 0:
		return fromK(pointK(l.Points[0].Flow, l.Points[0].Drop.Head(density), boreMM/1000), boreMM)
	}
	return handbook{}
}

// bores finds the bore of pipe.
type bores struct {
	lay *route.Layout
}

// density is that of the water pumped, kg/m³.
func (b *bores) density() float64 { return b.lay.Stage.Water.Density.V }

// ofRun returns the bore of a run in mm; 0 where nothing gives one.
func (b *bores) ofRun(path *route.Path) float64 {
	return b.lay.Stage.Run(path.Run.ID).Bore.V
}

// ofSize returns the bore in mm of pipe of a size, of the spec where the catalogue has it.
func (b *bores) ofSize(spec catalog.Spec, size catalog.Size) float64 {
	return b.lay.Stage.SizeBore(spec, size)
}

// ofPart returns the bore a part's loss stands on: that of a run of its size, else of its size.
func (b *bores) ofPart(p *graph.Part, fit *settle.Part) float64 {
	for i := range b.lay.Paths {
		r := b.lay.Paths[i].Run
		if (r.From.Part == p.ID || r.To.Part == p.ID) && (r.Size == fit.Size.V || fit.Size.V.IsZero()) {
			return b.ofRun(&b.lay.Paths[i])
		}
	}
	return b.ofSize(fit.Spec.V, fit.Size.V)
}

// ofFitting returns what a fitting of a path costs, in the direction of the run.
func (b *bores) ofFitting(path *route.Path, f *route.Fitting) handbook {
	bore := b.ofRun(path)
	switch f.Kind {
	case "reducing-bush", "reducer", "transition":
		if !f.From.IsZero() && !f.To.IsZero() {
			h := step(b.near(path, f.From), b.near(path, f.To))
			return handbook{h.k + f.Row.K, h.lengthM + fromK(f.Row.K, min(b.near(path, f.From), b.near(path, f.To))).lengthM}
		}
	}
	if h := ofRow(&f.Row, bore, b.density()); h.k != 0 {
		return h
	}
	return fromLoverD(formula.LoverD(f.Kind), bore)
}

// near returns the bore of a size where it meets a run.
func (b *bores) near(path *route.Path, size catalog.Size) float64 {
	if size == path.Run.Size {
		return b.ofRun(path)
	}
	return b.ofSize(path.Run.Spec, size)
}

// step returns what a sudden change from one bore to another costs, on the smaller one.
func step(fromMM, toMM float64) handbook {
	switch {
	case fromMM <= 0 || toMM <= 0 || math.Abs(fromMM-toMM) < 1e-9:
		return handbook{}
	case fromMM > toMM:
		return fromK(formula.Contraction(toMM, fromMM), toMM)
	}
	return fromK(formula.Expansion(fromMM, toMM), fromMM)
}

// isEquipment reports whether a kind has its own drop and no equivalent length.
func isEquipment(k graph.Kind) bool {
	switch k {
	case graph.Tub, graph.Suction, graph.JetGroup, graph.Manifold, graph.Pump, graph.Filter, graph.ElementHeater,
		graph.HeatPump, graph.DiverterValve, graph.Feeder, graph.SaltCell, graph.OzoneInjector, graph.UVChamber, graph.HeatExchanger, graph.Blower,
		graph.AirControl, graph.Strainer:
		return true
	}
	return false
}

// lossOf returns what a part costs through its run, and of a tee round its corner; zero for
// equipment and for what stands at the end of a run.
func (b *bores) lossOf(p *graph.Part, fit *settle.Part) (through, corner handbook) {
	if isEquipment(p.Kind) || p.Kind.OnePort() {
		return handbook{}, handbook{}
	}
	bore := b.ofPart(p, fit)
	if p.Loss != nil {
		h := ofDescribed(p.Loss, bore, b.density())
		if p.Kind == graph.Tee { // the flow counts it round the corner
			return handbook{}, h
		}
		return h, handbook{}
	}
	switch p.Kind {
	case graph.Tee:
		run, branch := fit.Row.V.LoverD, fit.Row.V.LoverDBranch
		if run == 0 {
			run = formula.LoverDTeeRun
		}
		if branch == 0 {
			branch = formula.LoverDTeeBranch
		}
		cornerBore := bore
		if fit.Reducing() {
			cornerBore = b.ofSize(fit.Spec.V, fit.Branch.V)
		}
		return fromLoverD(run, bore), fromLoverD(branch, cornerBore)
	case graph.Reducer, graph.Transition:
		return b.change(p, fit), handbook{}
	}
	return ofRow(&fit.Row.V, bore, b.density()), handbook{}
}

// asSet is lossOf with a hand valve as it is set; lossOf has it fully open, as it is bought.
func (b *bores) asSet(p *graph.Part, fit *settle.Part) (through, corner handbook) {
	if h, ok := b.setting(p, fit); ok {
		return h, handbook{}
	}
	return b.lossOf(p, fit)
}

// setting returns what a hand valve costs that is neither open nor shut; ok is false for any other part.
func (b *bores) setting(p *graph.Part, fit *settle.Part) (h handbook, ok bool) {
	if !p.Kind.IsHandValve() || p.Valve == nil {
		return handbook{}, false
	}
	bore := b.ofPart(p, fit)
	if bore <= 0 {
		return handbook{}, false
	}
	return ofSetting(p, &fit.Row.V, bore, b.density())
}

// ofSetting returns what a hand valve costs as it is set: by its Kv, or partly open by its own opening
// curve, else by that of its kind; ok is false for one that stands open or shut.
func ofSetting(p *graph.Part, row *catalog.Row, boreMM, density float64) (h handbook, ok bool) {
	share := float64(p.Opening())
	switch {
	case p.Valve.Kv > 0:
		return fromK(formula.KvToK(p.Valve.Kv, boreMM/1000), boreMM), true
	case share <= 0 || share >= 1:
		return handbook{}, false
	case row.Opening != nil:
		return fromK(tables.CurveK(row.Opening, share, ofRow(row, boreMM, density).k), boreMM), true
	}
	k, _ := tables.OpeningK(string(p.Kind), share, ofRow(row, boreMM, density).k)
	return fromK(k, boreMM), true
}

// change returns what a reducer or transition that is a part costs between its two runs.
func (b *bores) change(p *graph.Part, fit *settle.Part) handbook {
	var in, out float64
	for i := range b.lay.Paths {
		path := &b.lay.Paths[i]
		for _, end := range []graph.PortRef{path.Run.From, path.Run.To} {
			switch {
			case end.Part != p.ID:
			case end.Port == graph.In:
				in = b.ofRun(path)
			default:
				out = b.ofRun(path)
			}
		}
	}
	h, own := step(in, out), fromK(fit.Row.V.K, min(in, out))
	return handbook{h.k + own.k, h.lengthM + own.lengthM}
}

// metres is a length of pipe as it is sold: "3.048 m", or in feet where the job is in inch.
func (b *biller) metres(mm float64) string {
	if system := quantity.SystemOf(b.c.Job.Units); system == quantity.InchSystem {
		return quantity.Format(mm, quantity.Length, system)
	}
	return fmt.Sprintf("%g m", math.Round(mm)/1000)
}

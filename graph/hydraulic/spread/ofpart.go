package spread

import (
	"fmt"

	"dryfit/catalog/quantity"
	"dryfit/catalog/tables"
	"dryfit/graph"
	"dryfit/graph/hydraulic"
	"dryfit/graph/hydraulic/formula"
	"dryfit/graph/settle"
)

// ofPart returns what an unknown of a part moves in its model: nothing where no water passes,
// or where the loss was made from something else.
func ofPart(m *hydraulic.Model, p *hydraulic.ModelPart, n settle.Unknown) []unknown {
	switch k := p.Part.Kind; {
	case k == graph.Pump:
		if p.Pump == nil {
			return nil
		}
		return one(pumpUnknown(p, n))
	case k == graph.Tee || k == graph.Reducer:
		return teeUnknown(p, n, k)
	case p.Off || p.Shut || len(p.Edges) == 0 || p.Given == hydraulic.GivenNothing && p.Check == nil:
		return nil
	case k == graph.JetGroup:
		return jetUnknowns(m, p, n)
	case k.IsHandValve():
		return valveUnknown(p, n)
	}
	return otherUnknown(p, n)
}

func one(u unknown) []unknown { return []unknown{u} }

// teeUnknown is one of a tee, or of a reducer.
func teeUnknown(p *hydraulic.ModelPart, n settle.Unknown, kind graph.Kind) []unknown {
	u := start(n, kind)
	switch {
	case n.Number == settle.FittingsNumber:
		return one(fittings(n, kind))
	case n.Number == settle.StraightNumber && p.Tee != nil:
		u.set, u.used = onStraight, byClass(n.Spread, "no loss but the handbook's")
	case n.Number == settle.ReducingNumber && reducingTee(p):
		u.set, u.used = onReducingTees, byClass(n.Spread, "as the handbook's tee of one size")
	default:
		return nil
	}
	return one(u)
}

func fittings(n settle.Unknown, kind graph.Kind) unknown {
	u := start(n, kind)
	u.set, u.used = onFittings, byClass(n.Spread, "by the handbook")
	if n.Class == settle.TeesClass {
		u.set = onTees
	}
	return u
}

// reducingTee reports whether a tee's branch is so much narrower than its run that the handbook
// has no factor for it: between the two thirds and the whole it has one for.
func reducingTee(p *hydraulic.ModelPart) bool {
	return p.Tee != nil && !formula.TeeIsReduced(p.Tee.Beta) && p.Tee.Beta < 0.95
}

// otherUnknown is one of a filter, a heater, a unit or a check.
func otherUnknown(p *hydraulic.ModelPart, n settle.Unknown) []unknown {
	id, u := p.Part.ID, start(n, p.Part.Kind)
	switch n.Number {
	case settle.LossNumber:
		u.set, u.used = onLoss(id, 1), bySettled(settle.Key{Of: id, What: "loss"}, p.Set.Loss.Origin, p.Part.Known)
		if p.Given == hydraulic.GivenSize && p.Law != nil { // not at the row's own flow
			at := p.Law.Ref
			h, _ := p.Law.Loss(at)
			u.used.value = graph.Say("%s at %s, %s of its pump", quantity.Pressure.Of(h*formula.Gravity*p.Density), quantity.Flow.Of(at), p.Set.Loss.BestFlow())
		}
	case settle.PositionNumber:
		if !p.PartTurned() {
			return nil
		}
		u.set = func(m *hydraulic.Model, q *hydraulic.Perturb, v float64) { addPart(m, &q.Position, id, v) }
		u.used = used{value: "its ways as described", given: true, guess: p.Part.Known == graph.Assumed}
	case settle.OpeningNumber:
		if !p.PartTurned() || len(p.Row.Opening) > 0 { // its row has a curve of its own
			return nil
		}
		source := tables.SpreadSource(n.Spread, assumed)
		u.set = func(m *hydraulic.Model, q *hydraulic.Perturb, v float64) { addPart(m, &q.Opening, id, v) }
		u.used = used{value: "as much of its Kv as it is turned", source: source, guess: true}
	case settle.ExponentNumber:
		if !p.Power {
			return nil
		}
		e := tables.ExponentOf(p.Row.Style, p.Row.Kind)
		u.set = func(m *hydraulic.Model, q *hydraulic.Perturb, v float64) { addPart(m, &q.Exponent, id, v) }
		u.used = used{key: settle.Key{Of: id, What: "exponent"}, value: graph.Say("flow to the power %.2f", e.Likely), source: e.Source, guess: true}
	case settle.CrackingNumber:
		if p.Check == nil || p.Crack <= 0 {
			return nil
		}
		u.set = func(m *hydraulic.Model, q *hydraulic.Perturb, v float64) { timesPart(m, &q.Cracking, id, v) }
		u.used = bySettled(settle.Key{Of: id, What: "cracking pressure"}, p.Set.Cracking.Origin, p.Part.Known)
	case settle.HoldNumber:
		if p.Hold <= 0 {
			return nil
		}
		u.set = func(m *hydraulic.Model, q *hydraulic.Perturb, v float64) { timesPart(m, &q.Hold, id, v) }
		u.used = byClass(n.Spread, graph.Say("%s", quantity.Flow.Of(p.Hold)))
	}
	return one(u)
}

func pumpUnknown(p *hydraulic.ModelPart, n settle.Unknown) unknown {
	id, u := p.Part.ID, start(n, p.Part.Kind)
	curve := used{value: "the curve described", given: true, guess: p.Part.Known == graph.Assumed}
	switch n.Number {
	case settle.SizeNumber:
		u.used = ofType(p)
		u.set = func(m *hydraulic.Model, q *hydraulic.Perturb, v float64) {
			flow, head := formula.PumpOfSize(v)
			timesPart(m, &q.Flow, id, flow)
			timesPart(m, &q.Loss, id, head)
		}
	case settle.ShapeNumber:
		u.used = byClass(n.Spread, "as that of its row")
		u.set = func(m *hydraulic.Model, q *hydraulic.Perturb, v float64) {
			timesPart(m, &q.Flow, id, v)
			timesPart(m, &q.Loss, id, 1/v)
		}
	case settle.HeadNumber:
		u.set, u.used = onLoss(id, 1), curve
	case settle.FlowNumber:
		u.set, u.used = func(m *hydraulic.Model, q *hydraulic.Perturb, v float64) { timesPart(m, &q.Flow, id, v) }, curve
	case settle.RatioNumber:
		if !p.Rise.ByRatio {
			return unknown{}
		}
		u.set = func(m *hydraulic.Model, q *hydraulic.Perturb, v float64) { timesPart(m, &q.Speed, id, v) }
		u.used = bySettled(settle.Key{Of: id, What: "speed ratio at " + p.Speed}, p.Set.Speeds.Origin, p.Part.Known)
	}
	return u
}

// ofType says what a pump known by its type or its label was taken for.
func ofType(p *hydraulic.ModelPart) used {
	c := p.Rise.Curve
	at := "" // the curve is that of one speed, and a pump of several must not be read by its slowest
	if len(p.Set.Speeds.V) > 1 {
		at = " at " + p.Speed
	}
	u := used{source: p.Row.Source, guess: true,
		value: graph.Say("%s%s: shut-off %s, at most %s", p.Row.Name, at, quantity.Head.Of(c.ShutOff()), quantity.Flow.Of(c.Last()))}
	if d := p.Part.Pump; d != nil && d.LabelW > 0 {
		if at != "" {
			at = ";" + at // the watts are those of the speed with the most
		}
		u.value = graph.Say("%s%s: shut-off %s, at most %s", d.LabelWords(), at, quantity.Head.Of(c.ShutOff()), quantity.Flow.Of(c.Last()))
		u.source = "common practice, no source: the watts of its label through the efficiency of its kind"
	}
	return u
}

// jetUnknowns shares what may be off of jets out by what their loss was made from: a point or
// K, their bore, or the head of their pump.
func jetUnknowns(m *hydraulic.Model, p *hydraulic.ModelPart, n settle.Unknown) []unknown {
	if n.Number != settle.LossNumber {
		return nil
	}
	id, known := p.Part.ID, p.Part.Known.String()
	loss := start(n, graph.JetGroup)
	loss.slot = jetLossSlot
	loss.set, loss.used = onLoss(id, 1), bySettled(settle.Key{Of: id, What: "loss"}, p.Set.Loss.Origin, p.Part.Known)
	loss.span = tables.Spread(tables.SpreadJetLoss, known)
	k := unknown{what: "K of the jets of " + id, part: id, slot: jetLossSlot, set: onLoss(id, 1),
		span: tables.Span{Low: p.Row.KLow/p.Row.K - 1, High: p.Row.KHigh/p.Row.K - 1},
		used: used{value: graph.Say("K %.3g", p.Row.K), source: p.Row.Source, guess: true}}
	bore := unknown{what: "the bore of " + id, part: id, slot: jetBoreSlot, set: onLoss(id, -4), power: 4,
		used: used{value: graph.Say("%s", quantity.Length.Finely(p.Row.BoreMM)), source: p.Row.Source, given: p.Row.Owns("bore"),
			guess: !p.Row.Owns("bore") || p.Part.Known == graph.Assumed}}
	bore.span = tables.Spread(tables.SpreadJetBore, known)
	if j := p.Part.Jets; j != nil && j.BoreMM > 0 {
		bore.used = used{value: graph.Say("%s", quantity.Length.Finely(j.BoreMM)), given: true, guess: p.Part.Known == graph.Assumed}
	}
	out := one(loss)
	switch p.Given {
	case hydraulic.GivenSize: // hoses and manifold are in the share
		loss.what, loss.part, loss.set = shareOfHead(m, p)
		loss.span = tables.Span{Low: p.Row.HeadShareLow/p.Row.HeadShare - 1, High: p.Row.HeadShareHigh/p.Row.HeadShare - 1}
		loss.used = used{key: loss.used.key, value: graph.Say("%.0f %% of the head at the pump's best flow", 100*p.Row.HeadShare), source: p.Row.Source, guess: true}
		return one(loss)
	case hydraulic.GivenBore, hydraulic.GivenRow:
		out = []unknown{k, bore}
		if p.Part.Jets != nil && p.Part.Jets.HasK || p.Row.KHigh <= p.Row.KLow { // said, and not between what
			out = []unknown{loss, bore}
		}
	}
	if hangsOnHoses(p) {
		out = append(out, hoses())
	}
	return out
}

// hangsOnHoses reports whether the loss of a group was made from that of one nozzle, or the sheet of one
// jet, so that what brings the water to them is not in it: a bore that was measured is a nozzle's, too. A loss
// of the whole group has it, as have jets whose flow at a drop, or whose K, was measured where they stand; open
// eyes of a pool or a circulation line sit on their pipe.
func hangsOnHoses(p *hydraulic.ModelPart) bool {
	j, stands := p.Part.Jets, p.Part.Known == graph.Measured
	switch p.Given {
	case hydraulic.GivenLoss:
		stands = stands || j == nil || j.Rated == nil
	case hydraulic.GivenBore, hydraulic.GivenRow:
		stands = stands && (j != nil && j.HasK || p.Row.Owns("k"))
	default:
		return false
	}
	return !stands && !p.Set.OpenEyes()
}

// hoses is the unknown of what brings the water to the jets: one maker's, for all groups of a tub.
func hoses() unknown {
	u := unknown{what: hosesClass, slot: jetHosesSlot, used: byClass(tables.SpreadJetHoses, "no loss")}
	u.span = tables.Spread(tables.SpreadJetHoses, assumed)
	u.set = func(m *hydraulic.Model, q *hydraulic.Perturb, v float64) {
		for i := range m.Parts {
			if p := &m.Parts[i]; p.Part.Kind == graph.JetGroup && hangsOnHoses(p) {
				timesPart(m, &q.Loss, p.Part.ID, v)
			}
		}
	}
	return u
}

const hosesClass = "the hoses and the manifold of the jets"

// shareOfHead is the unknown of jets their maker sized to a pump: what they take of its head.
// Several groups on one pump are one maker's, and are off together; they are named by the first.
func shareOfHead(m *hydraulic.Model, p *hydraulic.ModelPart) (what, part string, set func(*hydraulic.Model, *hydraulic.Perturb, float64)) {
	groups := func(m *hydraulic.Model) (ids []string) {
		for i := range m.Parts {
			if q := &m.Parts[i]; q.Part.Kind == graph.JetGroup && q.SizedTo() != "" && q.SizedTo() == p.SizedTo() {
				ids = append(ids, q.Part.ID)
			}
		}
		return ids
	}
	ids := groups(m)
	if len(ids) == 1 {
		return "the share of the head taken by " + ids[0], ids[0], onLoss(ids[0], 1)
	}
	return fmt.Sprintf("the share of the head taken by the jets of %q", p.SizedTo()), ids[0], func(m *hydraulic.Model, q *hydraulic.Perturb, v float64) {
		for _, id := range groups(m) {
			timesPart(m, &q.Loss, id, v)
		}
	}
}

// valveUnknown is one of a hand valve: how it is off hangs on whether it stands open, partly
// open, or has a Kv of its own.
func valveUnknown(p *hydraulic.ModelPart, n settle.Unknown) []unknown {
	id, u := p.Part.ID, start(n, p.Part.Kind)
	byKv := p.Given == hydraulic.GivenPosition || p.Given == hydraulic.GivenKv
	guess := p.Part.Known == graph.Assumed
	switch n.Number {
	case settle.KvNumber:
		if !byKv {
			return nil
		}
		u.set, u.used = onLoss(id, -2), byClass(n.Spread, "by the handbook's opening curve")
		if p.Given == hydraulic.GivenKv || p.Part.Valve != nil && p.Part.Valve.Kv > 0 {
			u.used = used{key: settle.Key{Of: id, What: "Kv"}, value: graph.Say("%s", quantity.Kv.Of(p.Part.Valve.Kv)), given: true, guess: guess}
		}
	case settle.PositionNumber:
		if p.Given != hydraulic.GivenPosition || p.Valve == nil {
			return nil
		}
		u.set = func(m *hydraulic.Model, q *hydraulic.Perturb, v float64) { addPart(m, &q.Position, id, v) }
		u.used = used{value: quantity.Text(graph.Opening(p.Valve.Share).Words()), given: true, guess: guess}
		if p.Part.Valve != nil && p.Part.Valve.PositionSet && float64(p.Part.Valve.Position) == p.Valve.Share { // not a mode's
			u.used.key = settle.Key{Of: id, What: "position"}
		}
	case settle.LossNumber:
		if byKv {
			return nil
		}
		u.set, u.used = onLoss(id, 1), bySettled(settle.Key{Of: id, What: "loss"}, p.Set.Loss.Origin, p.Part.Known)
	}
	return one(u)
}

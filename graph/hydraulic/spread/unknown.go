package spread

import (
	"cmp"
	"math"

	"dryfit/catalog/quantity"
	"dryfit/catalog/tables"
	"dryfit/graph"
	"dryfit/graph/hydraulic"
	"dryfit/graph/hydraulic/formula"
	"dryfit/graph/hydraulic/laws"
	"dryfit/graph/settle"
)

// unknown is one input that is not known exactly.
type unknown struct {
	what string // in words
	part string // id; "" for a class
	span tables.Span
	adds bool // span is added to the number, not a share of it
	set  func(m *hydraulic.Model, p *hydraulic.Perturb, value float64)
	used used
}

// used is what was used for an unknown, and whose word that is.
type used struct {
	key    settle.Key    // of the settled value; zero: Value says it
	value  quantity.Text // in words, where no settled value says it
	source string
	given  bool // the description says it
	guess  bool // nobody gave it, or the description says it is assumed
}

// byClass is what a class of the spreads says of a number that no settled value holds.
func byClass(class string, value quantity.Text) used {
	_, source := tables.Spread(class, assumed)
	return used{value: value, source: source, guess: true}
}

// bySettled is a settled value of a part or run, as well known as that is.
func bySettled(key settle.Key, from settle.Origin, known graph.Knowledge) used {
	given := from.How == settle.Given || from.How == settle.OwnRow
	return used{key: key, source: from.Row + from.Why, given: given, guess: !given || known == graph.Assumed}
}

// value returns what the unknown is at a quantile u, 0 to 1: a factor, or what is added.
func (u *unknown) value(at float64) float64 {
	if u.adds {
		return u.span.Middle + steps(at, u.span.Middle-u.span.Low, u.span.High-u.span.Middle)
	}
	return factorAt(at, u.span)
}

// asDescribed is the value that leaves the description as it is.
func (u *unknown) asDescribed() float64 {
	if u.adds {
		return 0
	}
	return 1
}

// unknowns lists the inputs of the models that have a spread, in the order of the circuit.
// The same part in several models (before and after, every mode) is one unknown. What one
// handbook gives is off together: K of all fittings is one unknown, and so are the bore of
// all pipe of one spec and the joints of one hand's work.
func unknowns(models []*hydraulic.Model) []unknown {
	var out []unknown
	seen := map[string]bool{}
	for _, m := range models {
		add := func(list []unknown) {
			for _, u := range list {
				key := u.what + "\x00" + u.part
				if !seen[key] && u.span.High > u.span.Low {
					seen[key] = true
					out = append(out, u)
				}
			}
		}
		for i := range m.Parts {
			add(partUnknowns(m, &m.Parts[i]))
		}
		for i := range m.Runs {
			add(runUnknowns(&m.Runs[i]))
		}
	}
	return out
}

func spreadOf(what, known string) tables.Span {
	span, _ := tables.Spread(what, known)
	return span
}

// partUnknowns lists what is not known exactly of a part.
func partUnknowns(m *hydraulic.Model, p *hydraulic.ModelPart) []unknown {
	switch {
	case p.Pump != nil:
		return pumpUnknowns(p)
	case reducingTee(p):
		return []unknown{fittingsUnknown(), {what: "the loss of reducing tees", span: spreadOf(tables.SpreadReducingTee, assumed), set: onReducingTees,
			used: byClass(tables.SpreadReducingTee, "as the handbook's tee of one size")}}
	case p.Part.Kind == graph.Tee || p.Part.Kind == graph.Reducer:
		return []unknown{fittingsUnknown()}
	case p.Off || p.Shut || len(p.Edges) == 0 || p.Given == hydraulic.GivenNothing && p.Check == nil:
		return nil
	case p.Part.Kind == graph.JetGroup:
		return jetUnknowns(m, p)
	case p.Part.Kind.IsHandValve():
		return valveUnknowns(p)
	}
	id := p.Part.ID
	key := func(what string) settle.Key { return settle.Key{Of: id, What: what} }
	out := []unknown{{what: lossWords(id), part: id, span: p.Set.Loss.Span, set: onLoss(id, 1), used: bySettled(key("loss"), p.Set.Loss.Origin, p.Part.Known)}}
	if p.Given == hydraulic.GivenSize && p.Law != nil { // not at the row's own flow
		at := p.Law.Ref
		h, _ := p.Law.Loss(at)
		out[0].used.value = graph.Say("%s at %s, the best flow of its pump", quantity.Pressure.Of(h*formula.Gravity*p.Density), quantity.Flow.Of(at))
	}
	if p.Power {
		if e := laws.ExponentOf(p.Row); e.High > e.Low {
			out = append(out, unknown{what: "the shape of the drop of " + id + " over its flow", part: id, adds: true,
				span: tables.Span{Low: e.Low - e.Likely, High: e.High - e.Likely},
				set:  func(m *hydraulic.Model, q *hydraulic.Perturb, v float64) { addPart(m, &q.Exponent, id, v) },
				used: used{value: graph.Say("flow to the power %.2f", e.Likely), source: e.Source, guess: true}})
		}
	}
	if p.Check != nil && p.Crack > 0 {
		out = append(out, unknown{what: "the cracking pressure of " + id, part: id, span: p.Set.Cracking.Span,
			set:  func(m *hydraulic.Model, q *hydraulic.Perturb, v float64) { timesPart(m, &q.Cracking, id, v) },
			used: bySettled(key("cracking pressure"), p.Set.Cracking.Origin, p.Part.Known)})
	}
	if p.Hold > 0 {
		out = append(out, unknown{what: "the flow that holds " + id + " open", part: id, span: spreadOf(tables.SpreadHoldOpen, p.Part.Known.String()),
			set:  func(m *hydraulic.Model, q *hydraulic.Perturb, v float64) { timesPart(m, &q.Hold, id, v) },
			used: byClass(tables.SpreadHoldOpen, graph.Say("%s", quantity.Flow.Of(p.Hold)))})
	}
	return out
}

// reducingTee reports whether a tee's branch is so much narrower than its run that the handbook
// has no factor for it: between the two thirds and the whole it has one for.
func reducingTee(p *hydraulic.ModelPart) bool {
	return p.Tee != nil && p.Tee.Beta > 2.0/3+0.01 && p.Tee.Beta < 0.95
}

const assumed = "assumed"

func lossWords(id string) string { return "the drop of " + id }

// onLoss returns what sets the factor of a part's loss to a power of a value.
func onLoss(id string, power float64) func(*hydraulic.Model, *hydraulic.Perturb, float64) {
	return func(m *hydraulic.Model, q *hydraulic.Perturb, v float64) {
		timesPart(m, &q.Loss, id, math.Pow(v, power))
	}
}

// How a pump's size goes into its flow and its head: see labelFlow and labelHead of package
// description, which move the curve by the same.
const (
	sizeFlow = 0.7
	sizeHead = 0.3
)

// pumpUnknowns lists what is not known of a running pump: of one with a curve of its own how
// far head and flow are off, of one of a type how large it is and which shape it has.
func pumpUnknowns(p *hydraulic.ModelPart) []unknown {
	id, known := p.Part.ID, p.Part.Known.String()
	data := p.Part.Pump
	typed := data == nil || len(data.Speeds) == 0 || data.TypeSaid
	var out []unknown
	if typed && !(p.Row.Own && p.Part.Known != graph.Assumed) {
		class, what := tables.SpreadPumpSize, "how large "+id+" is"
		if data != nil && data.LabelW > 0 {
			class, what = tables.SpreadPumpLabel, "how much of its watts "+id+" turns into flow"
		}
		out = append(out, unknown{what: what, part: id, span: spreadOf(class, known), set: func(m *hydraulic.Model, q *hydraulic.Perturb, v float64) {
			timesPart(m, &q.Flow, id, math.Pow(v, sizeFlow))
			timesPart(m, &q.Loss, id, math.Pow(v, sizeHead))
		}, used: ofType(p)}, unknown{what: "whether " + id + " makes more flow or more head", part: id, span: spreadOf(tables.SpreadPumpShape, known), set: func(m *hydraulic.Model, q *hydraulic.Perturb, v float64) {
			timesPart(m, &q.Flow, id, v)
			timesPart(m, &q.Loss, id, 1/v)
		}, used: byClass(tables.SpreadPumpShape, "as that of its row")})
	} else {
		curve := used{value: "the curve described", given: true, guess: p.Part.Known == graph.Assumed}
		out = append(out, unknown{what: "the head of " + id, part: id, span: spreadOf(tables.SpreadPumpHead, known), set: onLoss(id, 1), used: curve},
			unknown{what: "the flow of " + id + " at a head", part: id, span: spreadOf(tables.SpreadPumpFlow, known),
				set: func(m *hydraulic.Model, q *hydraulic.Perturb, v float64) { timesPart(m, &q.Flow, id, v) }, used: curve})
	}
	if p.Rise.ByRatio {
		out = append(out, unknown{what: "the low speed of " + id, part: id, span: spreadOf(tables.SpreadSpeedRatio, known),
			set:  func(m *hydraulic.Model, q *hydraulic.Perturb, v float64) { timesPart(m, &q.Speed, id, v) },
			used: bySettled(settle.Key{Of: id, What: "speed ratio at " + p.Speed}, p.Set.Speeds.Origin, p.Part.Known)})
	}
	return out
}

// ofType says what a pump known by its type or its label was taken for.
func ofType(p *hydraulic.ModelPart) used {
	c := p.Rise.Curve
	u := used{source: p.Row.Source, guess: true,
		value: graph.Say("%s: shut-off %s, at most %s", p.Row.Name, quantity.Head.Of(c.ShutOff()), quantity.Flow.Of(c.Last()))}
	if d := p.Part.Pump; d != nil && d.LabelW > 0 {
		u.value = graph.Say("%s on its label: shut-off %s, at most %s", quantity.Power.Of(d.LabelW), quantity.Head.Of(c.ShutOff()), quantity.Flow.Of(c.Last()))
		u.source = "common practice, no source: the watts of its label through the efficiency of its kind"
	}
	return u
}

// jetUnknowns lists what is not known of jets.
func jetUnknowns(m *hydraulic.Model, p *hydraulic.ModelPart) []unknown {
	id, known := p.Part.ID, p.Part.Known.String()
	settled := bySettled(settle.Key{Of: id, What: "loss"}, p.Set.Loss.Origin, p.Part.Known)
	loss := unknown{what: lossWords(id), part: id, set: onLoss(id, 1), used: settled}
	k := unknown{what: "K of the jets of " + id, part: id, set: onLoss(id, 1),
		span: tables.Span{Low: p.Row.KLow/p.Row.K - 1, High: p.Row.KHigh/p.Row.K - 1},
		used: used{value: graph.Say("K %.3g", p.Row.K), source: p.Row.Source, guess: true}}
	bore := unknown{what: "the bore of " + id, part: id, span: spreadOf(tables.SpreadJetBore, known), set: onLoss(id, -4),
		used: used{value: graph.Say("%s", quantity.Length.Of(p.Row.BoreMM)), source: p.Row.Source, guess: true}}
	if j := p.Part.Jets; j != nil && j.BoreMM > 0 {
		bore.used = used{value: graph.Say("%s", quantity.Length.Of(j.BoreMM)), given: true, guess: p.Part.Known == graph.Assumed}
	}
	switch p.Given {
	case hydraulic.GivenSize:
		loss.what, loss.part, loss.set = shareOfHead(m, p)
		loss.span = tables.Span{Low: p.Row.HeadShareLow/p.Row.HeadShare - 1, High: p.Row.HeadShareHigh/p.Row.HeadShare - 1}
		loss.used = used{key: settled.key, value: graph.Say("%.0f %% of the head at the pump's best flow", 100*p.Row.HeadShare), source: p.Row.Source, guess: true}
		return []unknown{loss}
	case hydraulic.GivenBore, hydraulic.GivenRow:
		if p.Part.Jets != nil && p.Part.Jets.HasK {
			loss.span = spreadOf(tables.SpreadJetLoss, known)
			return []unknown{loss, bore}
		}
		return []unknown{k, bore}
	}
	loss.span = spreadOf(tables.SpreadJetLoss, known)
	return []unknown{loss}
}

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
		return "what " + ids[0] + " takes of the head", ids[0], onLoss(ids[0], 1)
	}
	return "what the jets of " + p.SizedTo() + " take of the head", ids[0], func(m *hydraulic.Model, q *hydraulic.Perturb, v float64) {
		for _, id := range groups(m) {
			timesPart(m, &q.Loss, id, v)
		}
	}
}

// valveUnknowns lists what is not known of a hand valve.
func valveUnknowns(p *hydraulic.ModelPart) []unknown {
	id, known := p.Part.ID, p.Part.Known.String()
	kv := unknown{what: "the Kv of " + id, part: id, span: spreadOf(tables.SpreadValveKv, known), set: onLoss(id, -2), used: byClass(tables.SpreadValveKv, "by the handbook's opening curve")}
	if p.Given == hydraulic.GivenKv || p.Part.Valve != nil && p.Part.Valve.Kv > 0 {
		kv.used = used{value: graph.Say("%s", quantity.Kv.Of(p.Part.Valve.Kv)), given: true, guess: p.Part.Known == graph.Assumed}
	}
	loss := bySettled(settle.Key{Of: id, What: "loss"}, p.Set.Loss.Origin, p.Part.Known)
	switch {
	case p.Given == hydraulic.GivenPosition && p.Valve != nil:
		return []unknown{kv, {what: "where the handle of " + id + " stands", part: id, adds: true, span: spreadOf(tables.SpreadPosition, known),
			set:  func(m *hydraulic.Model, q *hydraulic.Perturb, v float64) { addPart(m, &q.Position, id, v) },
			used: used{value: graph.Say("%.0f %% open", 100*p.Valve.Share), given: true, guess: p.Part.Known == graph.Assumed}}}
	case p.Given == hydraulic.GivenPosition, p.Given == hydraulic.GivenKv:
		return []unknown{kv}
	case p.Given == hydraulic.GivenLoss:
		return []unknown{{what: lossWords(id), part: id, span: spreadOf(tables.SpreadPartLoss, known), set: onLoss(id, 1), used: loss}}
	}
	return []unknown{{what: lossWords(id), part: id, span: spreadOf(tables.SpreadValveOpen, known), set: onLoss(id, 1), used: loss}}
}

// runUnknowns lists what is not known exactly of a run.
func runUnknowns(r *hydraulic.ModelRun) []unknown {
	if r.Edge < 0 {
		return nil
	}
	var out []unknown
	if r.Entrance {
		out = append(out, unknown{what: "the covers of the suctions", adds: true, span: spreadOf(tables.SpreadEntrance, assumed), set: onEntrances, used: byClass(tables.SpreadEntrance, "no loss but the pipe's own end")})
	}
	if r.LengthM == 0 {
		return out
	}
	id, known, spec, old := r.Run.ID, r.Run.Known.String(), r.Run.Spec, isOld(r)
	class, what := tables.SpreadRunLength, "the length of "+id
	if len(r.Run.Legs) > 0 {
		class, what, id = tables.SpreadLegs, "lengths measured leg by leg", ""
	}
	out = append(out, unknown{what: what, part: id, span: spreadOf(class, known), set: onLengths(id),
		used: used{value: graph.Say("%s", quantity.Length.Of(1000*r.LengthM)), given: true, guess: id != "" && r.Run.Known == graph.Assumed}})
	for _, f := range r.Fittings {
		if f.Barb {
			out = append(out, unknown{what: "K of " + age(old) + " barbs", span: spreadOf(tables.SpreadBarb, assumed), set: onBarbs(old),
				used: byClass(tables.SpreadBarb, graph.Say("K %.2g on the hose", f.K))})
		} else if f.Kind != "entrance" && f.Kind != "exit" {
			out = append(out, fittingsUnknown())
		}
	}
	class, what = tables.SpreadJointsNew, "joints and burrs in the new pipe"
	if old {
		class, what = tables.SpreadJointsOld, "joints in the old pipe"
	}
	if whole := wholeOf(r); old && len(r.Run.Legs) == 0 {
		out = append(out, unknown{what: "elbows nobody listed in " + whole, part: whole, adds: true, span: spreadOf(tables.SpreadUnlisted, known), set: onUnlisted(whole),
			used: byClass(tables.SpreadUnlisted, "none")})
	}
	out = append(out, unknown{what: what, adds: true, span: spreadOf(class, assumed), set: onJoints(old), used: byClass(class, "no loss")})
	if r.Run.RoughnessMM <= 0 {
		class, what = tables.SpreadRoughness, "the wall of new "+string(spec)+" pipe"
		if old {
			class, what = tables.SpreadRoughnessOld, "the wall of old "+string(spec)+" pipe"
		}
		if spec.Flexible() {
			class, what = tables.SpreadRibs, "the ribs of "+age(old)+" "+string(spec)+" pipe"
		}
		out = append(out, unknown{what: what, span: spreadOf(class, known), set: onRoughness(spec, old),
			used: byClass(class, graph.Say("%.2g µm", 1e6*r.RoughnessM))})
	}
	if r.Run.BoreMM > 0 {
		return out // the user's own number
	}
	class = tables.SpreadBore
	if spec.Flexible() {
		class = tables.SpreadHoseBore
	}
	return append(out, unknown{what: "the bore of " + age(old) + " " + string(spec) + " pipe", span: spreadOf(class, known), set: onBores(spec, old),
		used: byClass(class, "the catalogue's")})
}

// isOld reports whether the run lay there before the work. Pipe, hose and barbs of the old work
// are of another make than those of the new, and are off by themselves.
func isOld(r *hydraulic.ModelRun) bool { return r.Run.Existing || r.Run.RemainsOf != "" }

func age(old bool) string {
	if old {
		return "old"
	}
	return "new"
}

// wholeOf is the id of the old run this one is, or is left of.
func wholeOf(r *hydraulic.ModelRun) string {
	if r.Run.RemainsOf != "" {
		return r.Run.RemainsOf
	}
	return r.Run.ID
}

func fittingsUnknown() unknown {
	return unknown{what: "the handbook's K of fittings", span: spreadOf(tables.SpreadFittingK, assumed), set: onFittings,
		used: byClass(tables.SpreadFittingK, "by the handbook")}
}

// compareInfluence puts what matters most first.
func compareInfluence(a, b Influence) int {
	return cmp.Or(cmp.Compare(math.Round(b.Effect/alike), math.Round(a.Effect/alike)), cmp.Compare(a.What, b.What), cmp.Compare(a.Mode, b.Mode))
}

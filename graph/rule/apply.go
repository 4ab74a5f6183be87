package rule

import (
	"sync"

	"dryfit/graph"
	"dryfit/graph/settle"
)

// All returns every rule, family by family: the place of the unit, the bypass, what closes
// off, the checks, heat, joints and sizes, geometry, pressure, height, the cut, the circuit as
// such, its modes, and the flows. The order is that of the table in the README.
func All() []*Rule {
	var all []*Rule
	for _, family := range [][]*Rule{
		placeRules(), bypassRules(), isolateRules(), checkRules(), heatRules(), settingRules(), suctionRules(), standRules(), joinRules(),
		sizeRules(), geometryRules(), pipeworkRules(), pressureRules(), liftRules(), cutRules(), swappedRules(), circuitRules(), modeRules(), flowRules(), limitRules(), badDayRules(), supplyRules(), tariffRules(),
	} {
		all = append(all, family...)
	}
	return all
}

// ByName returns the rule with the name, or nil.
func ByName(name string) *Rule {
	for _, r := range All() {
		if r.Name == name {
			return r
		}
	}
	return nil
}

// anywhere holds the names of the rules that say the same wherever the unit is let in.
var anywhere = sync.OnceValue(func() map[string]bool {
	names := map[string]bool{}
	for _, r := range All() {
		if r.Anywhere {
			names[r.Name] = true
		}
	}
	return names
})

// SaysAnywhere reports whether the rule with the name says the same wherever the unit is let
// in, so that it is no reason for or against a place.
func SaysAnywhere(name string) bool { return anywhere()[name] }

// Apply judges the input by every rule that needs no more than need, and returns the
// findings sorted. A rule whose input is not there (no layout, no solutions) is left out.
// Every finding carries its rule's name. Where an inlet and an outlet are mixed up, that is
// said and nothing else.
func Apply(in *Input, need Needs) []graph.Diagnostic {
	ready := *in
	ready.view = newView(in)
	ready.past = newPast(&ready)
	if swapped := applyAll(swappedRules(), &ready); len(swapped) > 0 {
		return swapped
	}
	var out []graph.Diagnostic
	for _, r := range All() {
		if r.Needs > need || !ready.has(r.Needs) {
			continue
		}
		out = append(out, apply(r, &ready)...)
	}
	return graph.SortDiagnostics(out)
}

// ApplyCut judges the place of the cut alone. What the cut rules say differs from leg to leg
// of a run; what the other rules on the circuit say does not.
func ApplyCut(in *Input) []graph.Diagnostic {
	ready := *in
	set := in.Settled
	if set == nil || set.Circuit != in.Circuit {
		set = settle.Of(in.Circuit)
	}
	ready.view = &view{c: in.Circuit, set: set}
	return applyAll(cutRules(), &ready)
}

// ApplyPlace judges where the work stands: by the rules on the unit's place in the water's
// way, and where none of them bars it by all the others that read the circuit alone. barred
// tells the two apart.
func ApplyPlace(in *Input) (ds []graph.Diagnostic, barred bool) {
	ready := *in
	ready.view = newView(in)
	ready.past = newPast(&ready)
	if ds = applyAll(swappedRules(), &ready); len(ds) > 0 {
		return ds, true
	}
	ds = applyAll(placeRules(), &ready)
	if graph.HasErrors(ds) {
		return ds, true
	}
	var all []*Rule
	for _, r := range All() {
		if r.Needs == NeedsCircuit {
			all = append(all, r)
		}
	}
	return applyAll(all, &ready), false
}

func applyAll(rules []*Rule, in *Input) []graph.Diagnostic {
	var out []graph.Diagnostic
	for _, r := range rules {
		out = append(out, apply(r, in)...)
	}
	return graph.SortDiagnostics(out)
}

// has reports whether what a rule needs is there.
func (in *Input) has(need Needs) bool {
	switch need {
	case NeedsLayout:
		return in.Layout != nil
	case NeedsFlow:
		return len(in.Solutions) > 0
	}
	return true
}

// apply returns the findings of one rule: of the new work all, and of old work what the new does to
// it; of what was there before at most one, as a note that counts the rest.
func apply(r *Rule, in *Input) []graph.Diagnostic {
	var out, old []graph.Diagnostic
	was := in.before(r)
	r.Check(in, func(existing bool, d graph.Diagnostic) {
		d.Rule = r.Name
		if existing && was.so(d) {
			d.Severity = graph.Note
			old = append(old, d)
			return
		}
		out = append(out, d)
	})
	if len(old) == 0 {
		return out
	}
	old = graph.SortDiagnostics(old)
	first := old[0]
	if in.ask().job { // else there is no work that it was there before
		first.Message = "was there before: " + first.Message
	}
	if more := len(old) - 1; more > 0 {
		first.Message += graph.Say(", and %d more like it", more)
	}
	return append(out, first)
}

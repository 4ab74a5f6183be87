package pack

import (
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/plan"
	"dryfit/graph/practice"
	"dryfit/graph/route"
	"dryfit/render/tag"
)

// stretch is one stretch of the work. Hold is what has to be true before the next begins.
type stretch struct {
	Title string
	First int // number of its first step
	Steps []string
	Hold  string

	Pictures []benchPicture // small ones, by the step they stand before
}

// method is the work from the first measuring to the hand-over: the steps of the assembly
// with what practice says round them. A step stands there only if the job has what it is
// about.
func method(p *plan.Plan, j jobIn) []stretch {
	if joints(p) == 0 {
		return nil
	}
	if why := p.WhyNot(); why != "" {
		return []stretch{{Title: "Nothing is built here", First: 1, Steps: []string{"There is no order of work: " + why.In(j.units) + ". The first page says what has to be mended, and what would help."}}}
	}
	var out []stretch
	add := func(title, hold string, steps ...string) {
		if len(steps) > 0 {
			out = append(out, stretch{Title: title, Hold: quantity.Capital(hold), Steps: steps})
		}
	}
	add("Before the day", "Every part is there and measured; the owner has signed for the work on his tub; the electrician has a date.", j.said(practice.Beforehand())...)
	add("How a joint is made", "", jointSteps(j)...)
	bench := benchSteps(p, j)
	add("On the bench", ifSo(j.Cement, "The bench work cures before it is moved."), bench...)
	if len(bench) > 0 {
		out[len(out)-1].Pictures = benchPictures(p, j, len(bench))
	}
	called, many := j.SetDown()
	unit, stands := "unit", " stands level on its base; nothing hangs on its ports."
	if many {
		unit, stands = "units", " stand level on their bases; nothing hangs on their ports."
	}
	place := func() {
		add("The "+unit, j.say(called)+stands, j.said(practice.Place())...)
		add("The rest of the bench work", ifSo(j.Cement, "This bench work too cures before it is moved."), waitingSteps(p, j)...)
	}
	if len(j.Leaves) == 0 {
		place()
	}
	ready, gone := append(j.said(practice.Ready()), append(j.said(practice.Leave()), j.saidTo(practice.Fitter, practice.TakenOut())...)...), j.said(practice.TakeOut())
	if !j.Cuts && !j.CutsHose {
		ready = append(ready, gone...)
		gone = nil
	}
	ready = append(ready, j.said(practice.Bore())...)
	add("Getting ready at the tub", "Power is off, locked and proved dead; no water above the work; what is joined is dry.", ready...)
	if len(j.Leaves) > 0 { // it may stand where the old one stood
		place()
	}
	add("Dry fit", dryFitHold(p, j), j.said(practice.DryFit())...)
	add("Into the old line", ifSo(j.Arrows, "Arrows of checks and pump agree; ")+ifSo(j.PlugIn || j.NoCabinet, "handles can be reached.")+ifSo(!j.PlugIn && !j.NoCabinet, "handles can be reached with the panel on."), lineSteps(p, j, gone)...)
	add("Pipes to the "+unit, ifSo(j.UnionNuts && j.Cement, "Union nuts are on the pipe before their tails are cemented; ")+"no strain on the ports of "+j.say(called)+".", phase(p, j, route.Pipes)...)
	add("At the "+unit+", last", "", phase(p, j, route.Unit)...)
	if j.Cement {
		out[len(out)-1].Hold = "HOLD: no water and no power before the cure is over: " + j.say(j.Hold) + ", or what the tin says where that is longer."
	}
	fill := j.said(practice.Commissioning())
	add("Power, fill and test", "HOLD: every joint dry at each stage, or back to the joint.", fill...)
	add("Insulation and clips", "", j.said(practice.Insulation())...)
	hand := slices.Concat(elementSteps(j), setSteps(j), j.said(practice.Hygiene()), j.said(practice.HandOver()))
	add("Commissioning and hand-over", "The record is filled in and signed"+ifSo(j.Unit != nil, "; the owner knows the valves, the winter and the first hour of a frost")+".", hand...)
	n := 1
	for i := range out {
		out[i].First = n
		n += len(out[i].Steps)
	}
	return out
}

// jointSteps is how a joint of this job is made.
func jointSteps(j jobIn) []string {
	out := j.said(practice.Jointing())
	if j.UnionNuts && j.Cement {
		out = append(out, "Union nuts first: each is slid on its pipe, thread towards the union, before the tail is cemented.")
	}
	return out
}

// benchSteps is the work on the bench, its pieces cut first.
func benchSteps(p *plan.Plan, j jobIn) []string {
	bench := phase(p, j, route.Bench)
	if len(bench) == 0 {
		return nil
	}
	first := []string{"Cut the pieces of the bench work to the cut list" + j.say(j.CutEnds())}
	return slices.Concat(first, bench)
}

// dryFitHold is what is looked at before anything is cut or glued for good.
func dryFitHold(p *plan.Plan, j jobIn) string {
	if !j.Cuts {
		return "HOLD: every depth and every way a part points agrees with the drawing."
	}
	tees := slices.ContainsFunc(p.After.Circuit.Parts, func(part *graph.Part) bool { return part.New() && part.Kind == graph.Tee })
	return "HOLD: hold the new string beside the old pipe. " + ifSo(tees, "Tee to tee, cut to cut and every depth agree") + ifSo(!tees, "Cut to cut and every depth agree") + " with the drawing. After this there is no way back."
}

// lineSteps is the work in the old line: it is cut, what is to go is taken out, the new goes in.
func lineSteps(p *plan.Plan, j jobIn, gone []string) []string {
	line := phase(p, j, route.InLine)
	if j.CutsHose && len(line) > 0 {
		line = slices.Concat([]string{"Cut the hose once at each line, square, and slide both clips on each end."}, gone, line)
		gone = nil
	}
	if j.Cuts && len(line) > 0 {
		line = slices.Concat([]string{"Cut the old pipe once at each line, on the waste side; clean and dry the ends."}, gone, j.said(practice.OldJoints()), line)
	}
	return line
}

// ifSo is a text where something is so.
func ifSo(so bool, text string) string {
	if so {
		return text
	}
	return ""
}

// tooHot is what stops a unit: water that it heats too far, or cools too far.
func (j jobIn) tooHot() string {
	if j.Cold {
		return "the water gets too cold or stands still"
	}
	return "the water gets too hot"
}

func elementSteps(j jobIn) []string {
	if j.Unit == nil {
		return nil
	}
	return []string{j.OfUnits("Set unit", "Set the units") + " and controller as the section on set points says; prove what stops " + j.OfUnits("the unit", "each unit") + " when " + j.tooHot() + "."}
}

func setSteps(j jobIn) []string {
	if j.Unit == nil {
		return nil
	}
	return []string{"Set or prove the bypass as the valve schedule says; fill in the record in every mode."}
}

// phase lists the steps of the assembly that belong to a phase.
func phase(p *plan.Plan, j jobIn, ph route.Phase) []string {
	if p.Assembly == nil {
		return nil
	}
	var out []string
	names := tag.Of(p.Circuit, p.Net())
	for _, s := range p.Assembly.Steps {
		if s.Phase != ph {
			continue
		}
		out = append(out, quantity.Capital(stepText(p, j, s, names))+".")
	}
	return out
}

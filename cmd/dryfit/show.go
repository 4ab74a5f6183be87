package main

import (
	"fmt"
	"slices"

	"dryfit/cmd/dryfit/world"
	heatjob "dryfit/graph/heat/job"
	"dryfit/graph/plan"
	"dryfit/graph/plan/stage"
	"dryfit/graph/settle"
	"dryfit/render/table"
)

func showVerb() *verb {
	return &verb{
		name: "show", args: "FILE [PART|RUN]",
		does: "every value of a part or run, and where it came from",
		more: "What was settled for the circuit with the work built in: given in the description, a row's, derived or assumed,\n" +
			"and how far it may be off. Without a name: the water, every part and every run,\n" +
			"and what heat goes by besides. In CSV and JSON low and high are\n" +
			"bounds in the value's unit; of a value in words, factors on what it costs the water. Last stands every number\n" +
			"that may be off and is sampled for the ranges of flow.",
		example: "dryfit show job.toml filter\ndryfit show --format json job.toml",
		run:     runShow,
	}
}

func runShow(v *verb, args []string, w *world.World) int {
	var j job
	f := v.flags()
	formats := []string{"text", "csv", "json"}
	j.add(f, formats...)
	if code, done := j.start(v, f, formats, args, w); done {
		return code
	}
	of := ""
	switch f.NArg() {
	case 0:
		return world.Complain(w, fmt.Errorf("show wants a description: dryfit show FILE [PART|RUN]"))
	case 1:
	case 2:
		of = f.Arg(1)
	default:
		return world.Complain(w, fmt.Errorf("show takes a description and one part or run, not %d words", f.NArg()))
	}
	j.file = f.Arg(0)
	if code, ok := j.readFile(v, w); !ok {
		return code
	}
	p, err := j.make(plan.Findings)
	if err != nil {
		return world.Complain(w, err)
	}
	var stages []*settle.Stage
	var names []string
	for _, s := range []*stage.Stage{p.After, p.Before} {
		if s != nil && s.Layout != nil {
			stages = append(stages, s.Layout.Stage)
			names = append(names, s.Layout.Stage.Names()...)
		}
	}
	if of != "" && !slices.Contains(names, of) {
		return world.Complain(w, fmt.Errorf("there is no part or run %q%s", of, meantAmong(of, names)))
	}
	values, unknowns := table.ShownOf(stages, of), table.UnknownsOf(p.Unknowns(), stages, of)
	ofHeat := table.ShownOfHeat(p.HeatAccount(heatjob.Ask{}).Noted(), of)
	var out []byte
	switch j.format {
	case "json":
		out, err = table.ShowJSON(slices.Concat(values, ofHeat), unknowns, j.style(w))
	case "csv":
		out = table.ShowCSV(slices.Concat(values, ofHeat), unknowns, j.style(w))
	default:
		out = table.ShowText(values, ofHeat, unknowns, j.style(w))
	}
	if err != nil {
		return world.Complain(w, err)
	}
	return w.Write(j.output, out)
}

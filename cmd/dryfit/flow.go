package main

import (
	"dryfit/cmd/dryfit/world"
	"dryfit/graph/plan"
	"dryfit/render/table"
)

func flowVerb() *verb {
	return &verb{
		name: "flow", args: "FILE",
		does:    "flows, velocities, heads and valve states in every mode, before and after",
		more:    "--advise compares every bypass element this job could have.\n--quick leaves the ranges out.",
		example: "dryfit flow job.toml\ndryfit flow --advise job.toml\ndryfit flow --format json job.toml",
		run:     runFlow,
	}
}

func runFlow(v *verb, args []string, w *world.World) int {
	var j job
	var advise, quick bool
	f := v.flags()
	formats := []string{"text", "csv", "json"}
	j.add(f, formats...)
	f.BoolVar(&advise, "advise", false, "compare the bypass elements this job could have, and name the one to take")
	f.BoolVar(&quick, "quick", false, "the answers only, no ranges")
	if code, done := j.start(v, f, formats, args, w); done {
		return code
	}
	if code, ok := j.read(f, v, w); !ok {
		return code
	}
	want := plan.Flows
	if !quick {
		want |= plan.Ranges
	}
	if advise {
		want |= plan.Advice
	}
	show := map[string]printer{"text": table.FlowText, "csv": table.FlowCSV, "json": table.FlowJSON}[j.format]
	return j.printPart(want, show, w)
}

package main

import (
	"errors"
	"fmt"

	"dryfit/graph/description"
	"dryfit/graph/plan"
	"dryfit/render/table"
)

func cutinVerb() *verb {
	return &verb{
		name: "cutin", args: "FILE",
		does:    "places to cut, ranked, with the reason for each that was ruled out",
		more:    "--write-plan writes the whole description with the best place built in: existing,\nremoved and new work, ready for every other verb.",
		example: "dryfit cutin job.toml\ndryfit cutin --write-plan planned.toml job.toml",
		run:     runCutin,
	}
}

func runCutin(v *verb, args []string, w *world) int {
	var j job
	var writePlan string
	f := v.flags()
	formats := []string{"text", "csv", "json"}
	j.add(f, formats...)
	f.StringVar(&writePlan, "write-plan", "", "also write the description with the work built in to this file (- instead of the places)")
	if code, done := j.start(v, f, formats, args, w); done {
		return code
	}
	if code, ok := j.read(f, v, w); !ok {
		return code
	}
	if j.circuit.Retrofit == nil {
		return complain(w, fmt.Errorf("%s has no [retrofit]: it asks for nothing to be fitted; add [retrofit] with unit = \"…\"", j.file))
	}
	p, err := j.make(plan.Places)
	if err != nil {
		return complain(w, err)
	}
	noPlan := writePlan != "" && p.Proposal == nil
	if writePlan != "" && !noPlan {
		if code := writeOut(writePlan, description.Write(p.Circuit), w); code != exitDone {
			return code
		}
	}
	if writePlan != "-" {
		show := map[string]printer{"text": table.CutinText, "csv": table.CutinCSV, "json": table.CutinJSON}[j.format]
		if code := j.emit(p, show, w); code != exitDone {
			return code
		}
	}
	code := j.say(p.Findings, w)
	switch {
	case noPlan:
		return complain(w, errors.New("no place can take the unit: there is no plan to write"))
	case code == exitDone && len(p.Places) > 0 && p.Places[0].Verdict == "ruled out": // the place was named, and is built all the same
		return exitFindings
	}
	return code
}

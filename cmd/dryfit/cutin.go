package main

import (
	"errors"
	"fmt"
	"slices"

	"dryfit/cmd/dryfit/disk"
	"dryfit/cmd/dryfit/world"
	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/description/layout"
	"dryfit/graph/plan"
	"dryfit/render/table"
)

func cutinVerb() *verb {
	return &verb{
		name: "cutin", args: "FILE",
		does:    "places to cut, ranked, with the reason for each that was ruled out",
		more:    "--write-plan writes the whole description with the best place built in: existing,\nremoved and new work, ready for every other verb; with --as-built as it stands once\nthat is done, all of it existing, with notes of what a throttle is set by and what was\nread: what a second unit or any later work is planned from. Remarks of FILE stay at\ntheir keys and tables, where these are still written; one by itself before a table that\nis gone stands before the next and says so. Of a place that is ruled out nothing is\nwritten. A file that is there is left alone without --force.",
		example: "dryfit cutin job.toml\ndryfit cutin --write-plan planned.toml job.toml",
		run:     runCutin,
	}
}

func runCutin(v *verb, args []string, w *world.World) int {
	var j job
	var writePlan string
	var force, built bool
	f := v.flags()
	formats := []string{"text", "csv", "json"}
	j.add(f, formats...)
	f.StringVar(&writePlan, "write-plan", "", "also write the description with the work built in to this file (- instead of the places)")
	f.BoolVar(&built, "as-built", false, "write the plan as it stands once the work is done")
	f.BoolVar(&force, "force", false, "let --write-plan replace a file that is there")
	if code, done := j.start(v, f, formats, args, w); done {
		return code
	}
	if code, ok := j.read(f, v, w); !ok {
		return code
	}
	if err := mayWritePlan(writePlan, j.output, force, w); err != nil {
		return world.Complain(w, err)
	}
	if j.circuit.Retrofit == nil {
		return world.Complain(w, nothingToFit(j.file, j.circuit))
	}
	if built && writePlan == "" {
		return world.Complain(w, errors.New("--as-built says how --write-plan writes: name a file with --write-plan"))
	}
	p, err := j.make(plan.Places | plan.Flows) // what is found of the flows too: as check has it
	if err != nil {
		return world.Complain(w, err)
	}
	noPlan := writePlan != "" && (p.Proposal == nil || p.RuledOut() != nil)
	if writePlan != "" && !noPlan {
		planned := p.Circuit
		if built {
			planned = p.Built()
		}
		if code := writeOver(w, writePlan, layout.Carry(j.sources[j.file], description.Write(planned), description.Names, description.Moves), force); code != world.Done {
			return code
		}
	}
	if writePlan != "-" {
		show := map[string]printer{"text": table.CutinText, "csv": table.CutinCSV, "json": table.CutinJSON}[j.format]
		if code := j.emit(p, show, w); code != world.Done {
			return code
		}
	}
	code := j.say(p.Findings, w)
	switch {
	case noPlan && p.Proposal != nil:
		return world.Complain(w, errors.New("the place asked for is ruled out: there is no plan to write"))
	case noPlan:
		return world.Complain(w, errors.New("no place can take the unit: there is no plan to write"))
	case code == world.Done && len(p.Places) > 0 && p.Places[0].Verdict == "ruled out": // the place was named, and is built all the same
		return world.Findings
	}
	return code
}

// mayWritePlan refuses a plan in the place of another file before the work is done.
func mayWritePlan(name, output string, force bool, w *world.World) error {
	switch {
	case name == "" || name == "-":
		return nil
	case output != "-" && disk.OneFile(name, output):
		return fmt.Errorf("--write-plan names %s and -o %s, which is or may be the same file", name, output)
	case force:
		return w.Files.Writable(name)
	}
	if err := disk.Absent(name); err != nil {
		return fmt.Errorf("%w, or let --force overwrite it", err)
	}
	return nil
}

func writeOver(w *world.World, name string, data []byte, force bool) int {
	if name == "-" || force {
		return w.Write(name, data)
	}
	if err := w.Files.Create(name, data); err != nil {
		return world.Complain(w, err)
	}
	return world.Done
}

// nothingToFit says why no place is looked for in a description without [retrofit]. Where its new
// unit is joined already, a [retrofit] would only be refused.
func nothingToFit(file string, c *graph.Circuit) error {
	if u := c.TheUnit(); u != nil && !u.Existing && slices.ContainsFunc(c.Runs, func(r *graph.Run) bool { return r.From.Part == u.ID || r.To.Part == u.ID }) {
		return fmt.Errorf("%s has no [retrofit]: %q is joined already, its new work is drawn in full, and there is no place to look for; dryfit cuts, dryfit parts and dryfit pack say how it is made", file, u.ID)
	}
	return fmt.Errorf("%s has no [retrofit]: it asks for nothing to be fitted; add [retrofit] with unit = \"…\"", file)
}

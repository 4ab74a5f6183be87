package main

import (
	"dryfit/cmd/dryfit/world"
	"dryfit/graph/plan"
	"dryfit/render/order"
	"dryfit/render/table/form"
	"dryfit/render/table/lists"
)

// printer is how a verb prints its part of the plan in one format.
type printer func(p *plan.Plan, s form.Style) ([]byte, error)

// printPlan is the whole of a verb that prints one part of the plan as text, csv or json.
func printPlan(v *verb, j *job, want plan.Want, printers map[string]printer, args []string, w *world.World) int {
	f := v.flags()
	formats := []string{"text", "csv", "json"}
	if _, ok := printers["xlsx"]; ok {
		formats = append(formats, "xlsx")
	}
	j.add(f, formats...)
	if code, done := j.start(v, f, formats, args, w); done {
		return code
	}
	if code, ok := j.read(f, v, w); !ok {
		return code
	}
	return j.printPart(want, printers[j.format], w)
}

// printPart works the job out, prints a part of it, and says the findings.
func (j *job) printPart(want plan.Want, show printer, w *world.World) int {
	p, err := j.make(want)
	if err != nil {
		return world.Complain(w, err)
	}
	if code := j.emit(p, show, w); code != world.Done {
		return code
	}
	return j.say(p.Findings, w)
}

// emit writes what a printer makes of the plan.
func (j *job) emit(p *plan.Plan, show printer, w *world.World) int {
	out, err := show(p, j.style(w))
	if err != nil {
		return world.Complain(w, err)
	}
	return w.Write(j.output, out)
}

// partsWorkbook prints the order as a workbook.
func partsWorkbook(p *plan.Plan, s form.Style) ([]byte, error) { return order.XLSX(p, s.Units) }

func partsVerb() *verb {
	return &verb{
		name: "parts", args: "FILE",
		does:    "bill of fittings with equivalent lengths, and what to order",
		example: "dryfit parts job.toml\ndryfit parts --format csv -o parts.csv job.toml\ndryfit parts --format xlsx -o parts.xlsx job.toml",
		run: func(v *verb, args []string, w *world.World) int {
			return printPlan(v, &job{}, plan.Lists|plan.Flows, map[string]printer{
				"text": lists.PartsText, "csv": lists.PartsCSV, "json": lists.PartsJSON, "xlsx": partsWorkbook,
			}, args, w)
		},
	}
}

package main

import (
	"errors"
	"fmt"

	"dryfit/catalog/quantity"
	"dryfit/cmd/dryfit/world"
	"dryfit/graph"
	"dryfit/graph/plan"
	"dryfit/graph/takeoff"
	"dryfit/graph/takeoff/stock"
	"dryfit/render/table/lists"
)

func cutsVerb() *verb {
	return &verb{
		name: "cuts", args: "FILE",
		does: "cut list and stock plan",
		more: "With --pieces it plans from a plain list (CSV columns length and quantity) and the\nstock named by --stock; a description is not needed then.",
		example: "dryfit cuts job.toml\n" +
			`dryfit cuts --pieces pieces.csv --stock "3000 mm @ 9.60" --stock "1740 mm @ 0 x 1" --kerf "3 mm"`,
		run: runCuts,
	}
}

func runCuts(v *verb, args []string, w *world.World) int {
	var j job
	var pieces, kerf string
	var lengths []string
	f := v.flags()
	formats := []string{"text", "csv", "json"}
	j.add(f, formats...)
	f.StringVar(&pieces, "pieces", "", "plan from this CSV file instead of a description")
	f.StringArrayVar(&lengths, "stock", nil, `with --pieces: a length and its price, "3000 mm @ 9.60"; "x 1" after it if there is just one`)
	f.StringVar(&kerf, "kerf", "", `with --pieces: what one saw cut takes, "1.3 mm" (hand saw) if left out`)
	if code, done := j.start(v, f, formats, args, w); done {
		return code
	}
	if pieces != "" {
		if f.NArg() > 0 {
			return world.Complain(w, fmt.Errorf("cuts takes a description or --pieces, not both"))
		}
		return j.planPieces(pieces, lengths, kerf, w)
	}
	if len(lengths) > 0 || kerf != "" {
		return world.Complain(w, errors.New("--stock and --kerf go with --pieces; a description says them in [[stock]] and in [job]'s kerf"))
	}
	if code, ok := j.read(f, v, w); !ok {
		return code
	}
	return j.printPart(plan.Lists, cutsPrinter(j.format), w)
}

func cutsPrinter(format string) printer {
	return map[string]printer{"text": lists.CutsText, "csv": lists.CutsCSV, "json": lists.CutsJSON}[format]
}

// planPieces is cuts from a plain list.
func (j *job) planPieces(file string, lengths []string, kerf string, w *world.World) int {
	if len(lengths) == 0 {
		return world.Complain(w, errors.New(`--pieces wants at least one --stock, like --stock "3000 mm @ 9.60"`))
	}
	var supply []stock.Supply
	for _, s := range lengths {
		one, err := takeoff.ParseStock(s)
		if err != nil {
			return world.Complain(w, err)
		}
		supply = append(supply, one)
	}
	kerfMM := takeoff.DefaultKerfMM()
	if kerf != "" {
		q, err := quantity.Parse(kerf, quantity.Length)
		if err != nil {
			return world.Complain(w, fmt.Errorf("--kerf: %w", err))
		}
		if q.Value < 0 || q.Value > 20 {
			return world.Complain(w, fmt.Errorf("--kerf is %s; a saw takes 0 to 20 mm", kerf))
		}
		kerfMM = q.Value
	}
	data, err := w.Read(file)
	if err != nil {
		return world.Complain(w, err)
	}
	if err := w.Files.Writable(j.output); err != nil {
		return world.Complain(w, err)
	}
	file = world.ShownName(file)
	demands, bad := takeoff.ParsePieces(file, data)
	if graph.HasErrors(bad) {
		j.keep(file, data)
		return j.say(bad, w)
	}
	if j.watch(w); j.tell != nil {
		j.tell("planning the cuts", 0, 0)
	}
	list, findings := takeoff.PlainCutList(demands, supply, kerfMM)
	if code := j.emit(&plan.Plan{Cuts: list}, cutsPrinter(j.format), w); code != world.Done {
		return code
	}
	for i := range findings {
		findings[i].Pos.File = file
	}
	return j.say(findings, w)
}

package main

import (
	"errors"
	"fmt"
	"strings"

	"dryfit/cmd/dryfit/world"
	"dryfit/graph/description"
	"dryfit/render/survey"
)

func newVerb() *verb {
	return &verb{
		name: "new", args: "[FILE]",
		does:    "a commented description to start from",
		more:    "The blanks are written as \"?\": dryfit check names each one left.\nAn existing file is never overwritten.",
		example: "dryfit new --circuit two-speed job.toml\ndryfit new --circuit two-speed --survey survey.pdf",
		run:     runNew,
	}
}

func runNew(v *verb, args []string, w *world.World) int {
	var circuit, paper string
	var sheets bool
	f := v.flags()
	names := description.Templates()
	f.StringVar(&circuit, "circuit", "two-speed", "what stands in the cabinet: "+strings.Join(names, ", "))
	f.BoolVar(&sheets, "survey", false, "a PDF to take to the tub instead: the circuit drawn, and a blank for each of its keys")
	f.StringVar(&paper, "paper", "a4", "of --survey: a4, a3 or letter")
	if code, done := v.parse(f, args, w); done {
		return code
	}
	if f.NArg() > 1 {
		return world.Complain(w, errors.New("new writes one file"))
	}
	text, err := description.Template(circuit)
	if err != nil {
		return world.Complain(w, fmt.Errorf("no circuit %q%s (there are %s)", circuit, meant(circuit, names), strings.Join(names, ", ")))
	}
	if sheets {
		if text, err = surveyOf(circuit, text, paper); err != nil {
			return world.Complain(w, err)
		}
	} else if f.Changed("paper") {
		return world.Complain(w, errors.New("--paper goes with --survey"))
	}
	if f.NArg() == 0 || f.Arg(0) == "-" {
		return w.Write("-", text)
	}
	name := f.Arg(0)
	if err := w.Files.Create(name, text); err != nil {
		return world.Complain(w, err)
	}
	if sheets {
		world.Tell(w, "%s written: print it at 100 %% and take it to the tub; then dryfit new --circuit %s job.toml", name, circuit)
		return world.Done
	}
	world.Tell(w, "%s written: fill its blanks (\"?\"), then dryfit check %s", name, name)
	world.Tell(w, "for an editor that checks as you type: dryfit schema -o %s, beside it", description.SchemaFile)
	return world.Done
}

// surveyOf is the PDF of a template's survey sheets.
func surveyOf(circuit string, template []byte, paper string) ([]byte, error) {
	page, err := pageOf(paper)
	if err != nil {
		return nil, err
	}
	b, err := survey.Book(circuit, template, page)
	if err != nil {
		return nil, err
	}
	return b.PDF()
}

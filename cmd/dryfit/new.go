package main

import (
	"errors"
	"fmt"
	"strings"

	"dryfit/graph/description"
)

func newVerb() *verb {
	return &verb{
		name: "new", args: "[FILE]",
		does:    "a commented description to start from",
		more:    "The blanks are written as \"?\": dryfit check names each one left.\nAn existing file is never overwritten.",
		example: "dryfit new --circuit two-speed job.toml",
		run:     runNew,
	}
}

func runNew(v *verb, args []string, w *world) int {
	var circuit string
	f := v.flags()
	names := description.Templates()
	f.StringVar(&circuit, "circuit", "two-speed", "what stands in the cabinet: "+strings.Join(names, ", "))
	if code, done := v.parse(f, args, w); done {
		return code
	}
	if f.NArg() > 1 {
		return complain(w, errors.New("new writes one file"))
	}
	text, err := description.Template(circuit)
	if err != nil {
		return complain(w, fmt.Errorf("no circuit %q%s (there are %s)", circuit, meant(circuit, names), strings.Join(names, ", ")))
	}
	if f.NArg() == 0 || f.Arg(0) == "-" {
		return w.write("-", text)
	}
	name := f.Arg(0)
	if err := w.files.Create(name, text); err != nil {
		return complain(w, err)
	}
	fmt.Fprintf(w.stderr, "%s written: fill its blanks (\"?\"), then dryfit check %s\n", name, name)
	return exitDone
}

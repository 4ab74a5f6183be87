package main

import (
	"bytes"
	"errors"
	"fmt"

	"dryfit/cmd/dryfit/disk"
	"dryfit/graph/description"
	"dryfit/graph/description/layout"
	"dryfit/graph/description/located"
)

func formatVerb() *verb {
	return &verb{
		name: "format", args: "FILE",
		does: "lay a description out as the house does, comments kept",
		more: "A key at the left, a comment at its column, a blank line before each table. Values,\n" +
			"comments and their order stay; a file with mistakes in its TOML is left alone. The file\n" +
			"itself is written, unless -o names another; - is standard input and output.",
		example: "dryfit format job.toml\ndryfit format -o laid-out.toml job.toml",
		run:     runFormat,
	}
}

func runFormat(v *verb, args []string, w *world) int {
	f := v.flags()
	output := f.StringP("output", "o", "", "file to write in place of FILE itself; - is standard output")
	if code, done := v.parse(f, args, w); done {
		return code
	}
	if f.NArg() != 1 {
		return complain(w, fmt.Errorf("format takes one description, not %d", f.NArg()))
	}
	name := f.Arg(0)
	read := w.read
	if *output == "" && name != "-" { // the file itself is what is written
		read = func(name string) ([]byte, error) { return disk.Peek(name, located.MaxBytes) }
	}
	text, err := read(name)
	if err != nil {
		return complain(w, err)
	}
	out, err := layout.Format(text)
	if err != nil {
		return notLaidOut(name, text, err, w)
	}
	switch {
	case *output != "":
		return w.write(*output, out)
	case name == "-":
		return w.write("-", out)
	case bytes.Equal(text, out):
		fmt.Fprintf(w.stderr, "%s: nothing changes\n", name)
		return exitDone
	}
	if err := w.files.Replace(name, text, out); err != nil {
		return complain(w, err)
	}
	fmt.Fprintf(w.stderr, "%s is laid out\n", name)
	return exitDone
}

// notLaidOut says why a file was left alone: its mistakes in TOML, at their places, else the
// reason there is.
func notLaidOut(name string, text []byte, err error, w *world) int {
	shown := shownName(name)
	file := located.New(shown, text)
	if _, ok := file.Decode(); ok {
		return complain(w, fmt.Errorf("%s is left alone: %w", shown, err))
	}
	_, found := description.Read(shown, text)
	if len(found) == 0 {
		return complain(w, errors.New(shown+" is no TOML"))
	}
	j := job{sources: map[string][]byte{shown: text}}
	return j.say(found, w)
}

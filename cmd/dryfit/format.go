package main

import (
	"bytes"
	"errors"
	"fmt"

	"dryfit/cmd/dryfit/disk"
	"dryfit/cmd/dryfit/world"
	"dryfit/graph/description"
	"dryfit/graph/description/layout"
	"dryfit/graph/description/located"
)

func formatVerb() *verb {
	return &verb{
		name: "format", args: "FILE",
		does: "lay a description out in place as the house does, comments kept",
		more: "A key at the left, a comment at its column, a blank line before each table. Values,\n" +
			"comments, their order and how lines end stay; a file with mistakes in its TOML is left\n" +
			"alone. The file itself is written, unless -o names another; - is standard input and output.",
		example: "dryfit format job.toml\ndryfit format -o laid-out.toml job.toml",
		run:     runFormat,
	}
}

func runFormat(v *verb, args []string, w *world.World) int {
	f := v.flags()
	output := f.StringP("output", "o", "", "file to write in place of FILE itself; - is standard output")
	if code, done := v.parse(f, args, w); done {
		return code
	}
	if f.NArg() != 1 {
		return world.Complain(w, fmt.Errorf("format takes one description, not %d: dryfit format FILE", f.NArg()))
	}
	name := f.Arg(0)
	read := w.Read
	if *output == "" && name != "-" { // the file itself is what is written
		read = func(name string) ([]byte, error) { return disk.Peek(name, located.MaxBytes) }
	}
	text, err := read(name)
	if err != nil {
		return world.Complain(w, err)
	}
	if said, ok := located.New(world.ShownName(name), text).Decode(); ok && len(said.V.(map[string]any)) == 0 {
		return notRead(name, text, w) // nothing is laid out where nothing is said
	}
	out, err := layout.Format(text)
	if err != nil {
		return notLaidOut(name, text, err, w)
	}
	switch {
	case *output != "":
		return w.Write(*output, out)
	case name == "-":
		return w.Write("-", out)
	case bytes.Equal(text, out):
		world.Tell(w, "%s: nothing changes", name)
		return world.Done
	}
	if err := w.Files.Replace(name, text, out); err != nil {
		return world.Complain(w, err)
	}
	world.Tell(w, "%s is laid out", name)
	return world.Done
}

// notLaidOut says why a file was left alone: its mistakes in TOML, at their places, else the
// reason there is.
func notLaidOut(name string, text []byte, err error, w *world.World) int {
	shown := world.ShownName(name)
	file := located.New(shown, text)
	if _, ok := file.Decode(); ok {
		return world.Complain(w, fmt.Errorf("%s is left alone: %w", shown, err))
	}
	return notRead(name, text, w)
}

// notRead says what keeps a text from being read as a description.
func notRead(name string, text []byte, w *world.World) int {
	shown := world.ShownName(name)
	_, found := description.Read(shown, text)
	if len(found) == 0 {
		return world.Complain(w, errors.New(shown+" is no TOML"))
	}
	j := job{sources: map[string][]byte{shown: text}}
	return j.say(found, w)
}

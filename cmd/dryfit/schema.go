package main

import (
	"errors"

	"dryfit/cmd/dryfit/world"
	"dryfit/graph/description"
)

func schemaVerb() *verb {
	return &verb{
		name: "schema", args: "",
		does: "JSON Schema of the description, for editors that complete and check",
		more: "Draft 2020-12. The first line of a template names it; beside the description it is\n" +
			description.SchemaFile + ". An editor that understands \"#:schema\" then shows what each key\n" +
			"means and marks unknown keys, missing ones and values of the wrong type. What units fit,\n" +
			"and what belongs together, dryfit check says.",
		example: "dryfit schema -o " + description.SchemaFile,
		run:     runSchema,
	}
}

func runSchema(v *verb, args []string, w *world.World) int {
	f := v.flags()
	output := f.StringP("output", "o", "-", "file to write; - is standard output")
	if code, done := v.parse(f, args, w); done {
		return code
	}
	if f.NArg() > 0 {
		return world.Complain(w, errors.New("schema takes no file"))
	}
	return w.Write(*output, description.Schema())
}

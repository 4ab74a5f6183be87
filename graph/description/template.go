package description

import (
	"embed"
	"fmt"
	"slices"
)

// templateFiles are the descriptions to start from, their blanks written as "?".
//
//go:embed templates/*.toml
var templateFiles embed.FS

// templates are the circuits there is one for, from the most common on.
var templates = []string{"two-speed", "one-speed", "circulation", "large-circulation", "plunge-pool", "plug-in"}

// Templates returns the names of the circuits a description can be started for.
func Templates() []string { return slices.Clone(templates) }

// Template returns a commented description to start from, for one of Templates. What only
// the person at the tub can know is left as "?", which Read reports as a blank with what to
// write there. Its first line names the schema for editors.
func Template(circuit string) ([]byte, error) {
	if !slices.Contains(templates, circuit) {
		return nil, fmt.Errorf("there is no template %q", circuit)
	}
	text, err := templateFiles.ReadFile("templates/" + circuit + ".toml")
	return append([]byte("#:schema ./"+SchemaFile+"\n\n"), text...), err
}

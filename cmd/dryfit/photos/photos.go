// Package photos reads the pictures that [job] names, beside the description.
package photos

import (
	"fmt"
	"path/filepath"

	"dryfit/graph"
	"dryfit/graph/description/located"
	"dryfit/render/photo"
)

// Within reads a file that lies in a folder or below it.
type Within func(dir, name string, most int64) ([]byte, error)

// Read reads the pictures [job] names, beside the description; each is what is done with
// each. What is wrong with one is found where its name stands.
func Read(file string, job graph.Job, read Within, each func(name string, data []byte) (photo.Photo, error)) ([]photo.Photo, []graph.Diagnostic) {
	var out []photo.Photo
	var found []graph.Diagnostic
	for _, named := range job.Photos {
		wrong := func(message, hint string) {
			found = append(found, graph.Diagnostic{Pos: named.Pos, Rule: located.Rule, Severity: graph.Error, Message: graph.Say("%s", message), Hint: graph.Say("%s", hint)})
		}
		data, err := read(filepath.Dir(file), named.File, photo.MostBytes)
		if err != nil {
			wrong(err.Error(), "a photo is named by its path from this file's folder; take the name out if there is none to show")
			continue
		}
		p, err := each(named.File, data)
		if err != nil {
			wrong(fmt.Sprintf("%q %v", named.File, err), "a photo is a picture beside this file; take the name out if there is none to show")
			continue
		}
		out = append(out, p)
	}
	return out, found
}

// Look only looks whether a file is a picture.
func Look(name string, data []byte) (photo.Photo, error) {
	return photo.Photo{Name: name}, photo.Check(data)
}

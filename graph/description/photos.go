package description

import (
	"path"
	"path/filepath"
	"slices"
	"strings"

	"dryfit/graph"
	"dryfit/graph/description/field"
	"dryfit/graph/description/located"
	"dryfit/graph/description/schema"
)

// photosField is the list of pictures taken on site; one name alone will do. Whoever touches
// files looks at the pictures themselves.
func photosField(name string) field.Field[graph.Job] {
	return field.Field[graph.Job]{
		Key:   name,
		Shape: func() schema.Shape { return schema.Either(schema.Text(), schema.List(schema.Text(), 0)) },
		Like:  `["cabinet.jpg"]`,
		Read: func(r *field.Reader, v located.Value, into *graph.Job) {
			items, ok := v.Items()
			if !ok {
				items = []located.Value{v}
			}
			if len(items) > field.MaxPhotos {
				r.Fail(items[field.MaxPhotos], "keep those that show what the drawings don't", "%d photos are more than the %d that go with a job", len(items), field.MaxPhotos)
				return
			}
			for _, i := range items {
				if p, ok := photo(r, i, into.Photos); ok {
					into.Photos = append(into.Photos, p)
				}
			}
		},
		Write: func(from *graph.Job) string {
			var out []string
			for _, p := range from.Photos {
				out = append(out, field.Quote(p.File))
			}
			return field.List(out)
		},
	}
}

// photo reads the name of a picture, which lies in the description's folder or below it.
func photo(r *field.Reader, v located.Value, before []graph.Photo) (graph.Photo, bool) {
	const write = `the name of a picture beside this file, such as "cabinet.jpg"`
	s, ok := r.Text(v, write)
	switch {
	case !ok:
	case s == "" || strings.ContainsRune(s, 0):
		r.Fail(v, "write "+write, "%s is no name of a file", located.Said(s))
	case strings.Contains(s, `\`):
		r.Fail(v, "write "+field.Quote(strings.ReplaceAll(s, `\`, "/")), "%s has backslashes: folders are parted by /", located.Said(s))
	case path.IsAbs(s), !filepath.IsLocal(filepath.FromSlash(s)):
		r.Fail(v, "copy it beside this file and write its name there", "%s lies outside this file's folder", located.Said(s))
	case slices.ContainsFunc(before, func(p graph.Photo) bool { return path.Clean(p.File) == path.Clean(s) }):
		r.Fail(v, "name each picture once", "%s is named twice", located.Said(s))
	default:
		return graph.Photo{File: s, Pos: r.ValuePos(v)}, true
	}
	return graph.Photo{}, false
}

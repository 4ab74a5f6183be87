package whatif

import (
	"fmt"
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/description/located"
)

// edit is one value that is to be another. It belongs to a part or run by its id, else to a
// table of the top, else to every mode.
type edit struct {
	list, id string // "part" or "run", and which
	mode     string // a key of every mode
	path     []any
	value    string // as TOML
}

func ofPart(id, value string, path ...any) edit {
	return edit{list: "part", id: id, path: path, value: value}
}

func ofRun(id, value string, path ...any) edit {
	return edit{list: "run", id: id, path: path, value: value}
}

func ofTop(value string, path ...any) edit { return edit{path: path, value: value} }

func ofModes(key, value string) edit { return edit{mode: key, value: value} }

// source is a text that was read: what it says, by its keys, and the circuit it reads to.
type source struct {
	file    string
	text    []byte
	top     located.Value
	circuit *graph.Circuit
	units   quantity.System // what it is written in
}

// sourceOf reads a text for its keys.
func sourceOf(file string, text []byte, c *graph.Circuit) (source, error) {
	top, ok := located.New(file, text).Decode()
	if !ok {
		return source{}, fmt.Errorf("%s can't be read", file)
	}
	units := quantity.SystemOf(c.Job.Units)
	job, _ := top.In("job")
	if own, ok := job.In("units"); ok { // whatever it is shown in
		word, _ := own.V.(string)
		units = quantity.SystemOf(word)
	}
	return source{file: file, text: text, top: top, circuit: c, units: units}, nil
}

// inItsUnits says an edit in the units the text is written in; the nominal size of pipe and a Kv
// have names that are the same in both.
func (s *source) inItsUnits(e edit) string {
	if n := len(e.path); n > 0 && (e.path[n-1] == "size" || e.path[n-1] == "kv") {
		return e.value
	}
	return description.InSystem(e.value, s.units)
}

// with returns the text with the edits made in it, by located.Apply or Draft. The modes are
// those of the circuit it reads to: where the text has none, they are written out first.
func (s *source) with(edits []edit, by func([]byte, ...located.Edit) ([]byte, error)) ([]byte, error) {
	if len(edits) == 0 {
		return s.text, nil
	}
	var out []located.Edit
	for _, e := range edits {
		switch {
		case e.mode != "":
		case e.list == "":
			out = append(out, located.Edit{Path: e.path, Value: s.inItsUnits(e)})
		default:
			i := indexOf(s.top, e.list, e.id)
			if i < 0 {
				return nil, fmt.Errorf("%s has no %s %q", s.file, e.list, e.id)
			}
			out = append(out, located.Edit{Path: slices.Concat([]any{e.list, i}, e.path), Value: s.inItsUnits(e)})
		}
	}
	return by(s.text, append(out, modeEdits(s.circuit, edits)...)...)
}

// modeEdits sets keys in every mode, and writes the modes out where only the pumps say them.
func modeEdits(c *graph.Circuit, edits []edit) []located.Edit {
	var out []located.Edit
	if !slices.ContainsFunc(edits, func(e edit) bool { return e.mode != "" }) {
		return nil
	}
	written := len(c.Modes)
	if written == 0 {
		for _, m := range c.AllModes() {
			out = append(out, located.Edit{Value: description.ModeText(graph.Mode{Name: m.Name, Speeds: m.Speeds, JetsOpen: 1})})
			written++
		}
	}
	for i := range written {
		for _, e := range edits {
			if e.mode != "" {
				out = append(out, located.Edit{Path: []any{"mode", i, e.mode}, Value: e.value})
			}
		}
	}
	return out
}

// indexOf returns which element of a list of tables has the id; -1 where none has. A run
// without an id is called by its ends.
func indexOf(top located.Value, list, id string) int {
	v, _ := top.In(list)
	items, _ := v.Items()
	return slices.IndexFunc(items, func(item located.Value) bool {
		if own, ok := item.In("id"); ok {
			return own.V == id
		}
		from, _ := item.In("from")
		to, _ := item.In("to")
		return fmt.Sprintf("%v>%v", from.V, to.V) == id
	})
}

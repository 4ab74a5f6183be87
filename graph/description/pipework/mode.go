package pipework

import (
	"maps"
	"slices"
	"strings"

	"dryfit/graph"
	"dryfit/graph/description/field"
	"dryfit/graph/description/located"
	"dryfit/graph/description/schema"
)

// ModeFields are the keys of [[mode]].
var ModeFields = []field.Field[graph.Mode]{
	field.Needed(field.Text("name", `what the mode is called, such as "jets"`, func(m *graph.Mode) *string { return &m.Name }), `what it is called, such as name = "jets"`),
	{
		Key:   "speeds",
		Shape: func() schema.Shape { return schema.Map(schema.Text()) },
		Read: func(r *field.Reader, v located.Value, into *graph.Mode) {
			const write = `which pumps run: { pump = "high" }`
			if _, ok := v.V.(map[string]any); !ok {
				r.WrongType(v, "a table", write)
				return
			}
			into.Speeds = map[string]string{}
			for _, id := range v.Keys() {
				c, _ := v.In(id)
				if s, ok := readModeSpeed(r, c); ok {
					into.Speeds[id] = s
				}
			}
		},
		Write: func(from *graph.Mode) string {
			return pairsText(slices.Sorted(maps.Keys(from.Speeds)), func(id string) string { return field.Quote(from.Speeds[id]) })
		},
	},
	{
		Key:   "positions",
		Shape: func() schema.Shape { return schema.Map(field.OpeningShape()) },
		Read: func(r *field.Reader, v located.Value, into *graph.Mode) {
			const write = `how the valves stand: { v3 = "shut" }`
			if _, ok := v.V.(map[string]any); !ok {
				r.WrongType(v, "a table", write)
				return
			}
			into.Positions = map[string]graph.Opening{}
			for _, id := range v.Keys() {
				c, _ := v.In(id)
				if p, ok := partOfKind(r, c, id, "hand valve", func(k graph.Kind) bool { return k.IsHandValve() }); ok && p != nil {
					if o, ok := r.Opening(c); ok {
						into.Positions[id] = o
					}
				}
			}
		},
		Write: func(from *graph.Mode) string {
			return pairsText(slices.Sorted(maps.Keys(from.Positions)), func(id string) string { return field.OpeningText(from.Positions[id]) })
		},
	},
	field.QtyOr("jets", field.Share, 1, func(m *graph.Mode) *float64 { return &m.JetsOpen }),
	{
		Key:   "filter",
		Shape: func() schema.Shape { return schema.Word("clean", "dirty") },
		Read: func(r *field.Reader, v located.Value, into *graph.Mode) {
			words := []string{"clean", "dirty"}
			if s, ok := r.Text(v, field.QuotedList(words)); ok {
				if !slices.Contains(words, s) {
					r.Fail(v, located.Near(s, words), "a filter is clean or dirty, not %s", located.Said(s))
				}
				into.Dirty = s == "dirty"
			}
		},
		Write: func(from *graph.Mode) string {
			if from.Dirty {
				return field.Quote("dirty")
			}
			return ""
		},
	},
}

func pairsText(keys []string, of func(string) string) string {
	var out []string
	for _, k := range keys {
		out = append(out, field.Key(k)+" = "+of(k))
	}
	if len(out) == 0 {
		return ""
	}
	return "{ " + strings.Join(out, ", ") + " }"
}

// readModeSpeed reads the speed of the pump named by the key.
func readModeSpeed(r *field.Reader, c located.Value) (string, bool) {
	p, ok := partOfKind(r, c, c.Key, "pump", func(k graph.Kind) bool { return k == graph.Pump })
	if !ok {
		return "", false
	}
	s, ok := r.Text(c, `the name of a speed`)
	if !ok {
		return "", false
	}
	if names := p.SpeedNames(); !slices.Contains(names, s) {
		r.Fail(c, located.Near(s, names), "the pump %s has no speed %s", located.Said(p.ID), located.Said(s))
		return "", false
	}
	return s, true
}

// partOfKind returns the part a key names, if it is there and of the kind.
func partOfKind(r *field.Reader, at located.Value, id, word string, is func(graph.Kind) bool) (*graph.Part, bool) {
	p, ok := r.Parts[id]
	switch {
	case !ok:
		Missed(r, r.KeyPos(at), id, r.NearAmong(id, func() []string { return IDsOf(r, is) }))
	case p.Kind == "":
		return nil, false // its kind is reported
	case !is(p.Kind):
		hint := located.ThereAre(IDsOf(r, is))
		if hint == "" {
			hint = "there is no " + word + " in this description"
		}
		if p.Kind == graph.DiverterValve {
			hint = "a diverter stands in every mode as it is turned on the part itself: " + waysOf(p) + "; take it out here, and turn it there to see another turn"
		}
		d := r.Add(r.KeyPos(at), hint, "%s is %s, not %s", located.Said(id), graph.A(p.Kind), graph.A(word))
		located.Related(d, r.IDPos(p, p.Pos), "it is described here")
	default:
		return p, true
	}
	return nil, false
}

// waysOf is how a diverter is written that leads all its water to the first of its ways.
func waysOf(p *graph.Part) string {
	var out []string
	for _, q := range p.Ports {
		if q.Name == graph.In {
			continue
		}
		share := "0 %"
		if len(out) == 0 {
			share = "100 %"
		}
		out = append(out, q.Name+" = "+field.Quote(share))
	}
	return "ways = { " + strings.Join(out, ", ") + " }"
}

// IDsOf returns the ids of the parts of some kinds, in the order of the file.
func IDsOf(r *field.Reader, is func(graph.Kind) bool) []string {
	var out []string
	for _, p := range r.Circuit.Parts {
		if is(p.Kind) {
			out = append(out, p.ID)
		}
	}
	return out
}

// ReadMode reads a [[mode]].
func ReadMode(r *field.Reader, v located.Value) {
	m := graph.Mode{Pos: r.KeyPos(v), JetsOpen: 1}
	field.ReadTable(r, v, "a mode", ModeFields, &m)
	for _, other := range r.Circuit.Modes {
		if other.Name == m.Name && m.Name != "" {
			d := r.Add(m.Pos, "give each mode a name of its own", "the mode %s is there twice", located.Said(m.Name))
			located.Related(d, other.Pos, "it is here first")
			break
		}
	}
	r.Circuit.Modes = append(r.Circuit.Modes, m)
}

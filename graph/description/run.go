package description

import (
	"fmt"
	"slices"
	"strings"

	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/description/located"
	"dryfit/graph/description/meaning"
	"dryfit/graph/description/schema"
)

// draft is a run as it is read: what only the reader wants to know stands beside it.
type draft struct {
	graph.Run
	air bool
}

// runFields are the keys of [[run]].
var runFields = slices.Concat([]field[draft]{
	{
		key:   "id",
		shape: schema.Text,
		read: func(r *reader, v located.Value, into *draft) {
			if s, ok := r.Text(v, `a name of your own, such as "return-line"`); ok && goodID(r, v, s) {
				into.ID, into.Named = s, true
			}
		},
		write: func(from *draft) string {
			if from.Named {
				return quote(from.ID)
			}
			return ""
		},
	},
	needed(endField("from", func(d *draft) *graph.PortRef { return &d.From }), `where it starts, such as from = "pump.out"`),
	needed(endField("to", func(d *draft) *graph.PortRef { return &d.To }), `where it ends, such as to = "filter.in"`),
	specField("spec", func(d *draft) *catalog.Spec { return &d.Spec }),
	sizeField("size", func(d *draft) *catalog.Size { return &d.Size }),
	boolField("existing", func(d *draft) *bool { return &d.Existing }),
	boolField("removed", func(d *draft) *bool { return &d.Removed }),
	textField("remains-of", `the id of the run it is what is left of`, func(d *draft) *string { return &d.RemainsOf }),
	knownField(func(d *draft) *graph.Knowledge { return &d.Known }),
	legsField("legs", func(d *draft) *[]graph.Leg { return &d.Legs }),
	qtySet("length", runLength, func(d *draft) *float64 { return &d.LengthMM }, func(d *draft) *bool { return &d.HasLength }),
	fittingsField(),
	{
		key:   "measured",
		shape: func() schema.Shape { return schema.Word("faces", "centres") },
		read: func(r *reader, v located.Value, into *draft) {
			words := []string{"faces", "centres"}
			if s, ok := r.Text(v, quotedList(words)); ok {
				if !slices.Contains(words, s) {
					r.Fail(v, located.Near(s, words), "a run is measured between faces or centres, not %s", located.Said(s))
				}
				into.Faces = s == "faces"
			}
		},
		write: func(from *draft) string {
			if from.Faces {
				return quote("faces")
			}
			return ""
		},
	},
	qtyField("bore", boreWidth, func(d *draft) *float64 { return &d.BoreMM }),
	qtyOr("roughness", roughness, -1, func(d *draft) *float64 { return &d.RoughnessMM }),
	numberField("k", 0, mostK, func(d *draft) *float64 { return &d.K }, nil),
	qtyField("measured-outside-diameter", outsideWidth, func(d *draft) *float64 { return &d.MeasuredOutsideMM }),
	boolField("insulated", func(d *draft) *bool { return &d.Insulated }),
	boolField("outside", func(d *draft) *bool { return &d.Outside }),
	amountField("insulation", lagging, func(d *draft) *graph.Amount { return &d.InsulationMM }),
	amountField("buried", buriedDepth, func(d *draft) *graph.Amount { return &d.BuriedMM }),
	boolField("through-wall", func(d *draft) *bool { return &d.ThroughWall }),
	boolField("air", func(d *draft) *bool { return &d.air }),
}, placeFields(func(d *draft) *graph.Place { return &d.Place }))

// endField is one end of a run, "part.port".
func endField(name string, at func(*draft) *graph.PortRef) field[draft] {
	return field[draft]{
		key:   name,
		shape: portShape,
		read: func(r *reader, v located.Value, into *draft) {
			if ref, ok := readPortRef(r, v, `a part and its port, such as "pump.out"`); ok {
				*at(into) = ref
			}
		},
		write: func(from *draft) string { return quote(at(from).String()) },
	}
}

// readPortRef reads "part.port"; write says what to write there.
func readPortRef(r *reader, v located.Value, write string) (graph.PortRef, bool) {
	s, ok := r.Text(v, write)
	if !ok {
		return graph.PortRef{}, false
	}
	dot := strings.LastIndexByte(s, '.')
	if dot <= 0 || dot == len(s)-1 || strings.ContainsRune(s[:dot], '.') {
		r.Fail(v, `write the part's id, a point and the port: "pump.out"`, "%s names no port of a part", located.Said(s))
		return graph.PortRef{}, false
	}
	return graph.PortRef{Part: s[:dot], Port: s[dot+1:], Pos: r.ValuePos(v)}, true
}

// countedKinds are the fittings that may be counted in a run nobody measured leg by leg.
var countedKinds = []string{"elbow-90", "elbow-45", "elbow-22.5", "elbow-90-sweep", "coupling", "slip-coupling", "union"}

func fittingsField() field[draft] {
	const write = `{ elbow-90 = 2, elbow-45 = 1 }`
	return field[draft]{
		key: "fittings",
		shape: func() schema.Shape {
			var keys schema.Shape
			for _, kind := range countedKinds {
				keys = keys.With(kind, describe(schema.Whole(0, mostFittings), meaning.Of("fittings", kind), nil))
			}
			return schema.Table(keys, nil)
		},
		read: func(r *reader, v located.Value, into *draft) {
			if _, ok := v.V.(map[string]any); !ok {
				r.WrongType(v, "a table", write)
				return
			}
			for _, kind := range v.Keys() {
				c, _ := v.In(kind)
				if !slices.Contains(countedKinds, kind) {
					d := r.Add(r.KeyPos(c), located.Near(kind, countedKinds), "no fitting %s can be counted in a run", located.Said(kind))
					if _, dotted := c.V.(map[string]any); dotted {
						d.Hint = `write a name with a point in quotes: "elbow-22.5" = 2`
					}
					continue
				}
				if n, ok := r.Count(c, 0, mostFittings); ok {
					into.Fittings = append(into.Fittings, graph.FittingCount{Kind: kind, Count: n, Pos: r.KeyPos(c)})
				}
			}
		},
		write: func(from *draft) string {
			var out []string
			for _, f := range from.Fittings {
				out = append(out, fmt.Sprintf("%s = %d", key(f.Kind), f.Count))
			}
			if len(out) == 0 {
				return ""
			}
			return "{ " + strings.Join(out, ", ") + " }"
		},
	}
}

func readRun(r *reader, v located.Value) {
	d := &draft{Run: graph.Run{Pos: r.KeyPos(v), RoughnessMM: -1, Place: graph.NoPlace()}}
	what := "this run"
	for _, k := range []string{"id", "from"} {
		if c, ok := v.In(k); ok && what == "this run" {
			if s, ok := c.V.(string); ok && k == "id" {
				what = "run " + located.Said(s)
			} else if ok {
				what = "the run from " + located.Said(s)
			}
		}
	}
	d.KeyPos = readTable(r, v, what, runFields, d)
	if _, ok := v.V.(map[string]any); !ok {
		return
	}
	if d.ID == "" && d.From.Part != "" && d.To.Part != "" {
		d.ID = d.From.String() + ">" + d.To.String()
	}
	checkRun(r, v, d, what)
	run := &d.Run
	for _, k := range []string{"id", "from", "to", "remains-of"} {
		if c, ok := v.In(k); ok {
			r.note(run, k, c)
		}
	}
	r.circuit.Runs = append(r.circuit.Runs, run)
	if d.air {
		r.note(run, "air", v)
	}
}

// checkRun looks at the keys of a run together, and fills in [pipe].
func checkRun(r *reader, v located.Value, d *draft, what string) {
	legs, hasLegs := v.In("legs")
	length, hasLength := v.In("length")
	switch {
	case hasLegs && hasLength:
		x := r.Add(r.KeyPos(length), "keep the legs; without them keep the length and count the bends in fittings", "%s has legs and a length", what)
		located.Related(x, r.KeyPos(legs), "the legs are here")
	case !hasLegs && !hasLength:
		r.missing(v, what, "legs and no length", legsExample+`; where nobody measured them guess: length = "900 mm" along the pipe, and its bends counted, fittings = { elbow-90 = 2 }`)
	}
	if c, ok := v.In("fittings"); ok && hasLegs {
		r.Add(r.KeyPos(c), "leave them out", "%s has legs: its bends follow from them and are not counted", what)
	}
	if c, ok := v.In("removed"); ok && d.Removed && !d.Existing {
		d.Removed = false // so that its ends are not reported open
		r.Fail(c, "write existing = true as well", "%s is removed but was never there", what)
	}
	pipeOfRun(r, v, d, what)
}

// pipeOfRun fills in what a run is made of.
func pipeOfRun(r *reader, v located.Value, d *draft, what string) {
	pipe := r.circuit.Pipe
	_, badSpec := v.In("spec")
	_, badSize := v.In("size")
	if d.Spec == "" && !badSpec {
		d.Spec = pipe.Spec
	}
	if d.Size.IsZero() && !badSize {
		d.Size = pipe.Size
	}
	direct := d.HasLength && d.LengthMM == 0
	if d.BoreMM > 0 || direct {
		return // pipe that no table has, or none at all
	}
	for _, k := range []struct {
		name    string
		missing bool
		example string
	}{
		{"spec", d.Spec == "" && !badSpec, `spec = "pvc-sch40"`},
		{"size", d.Size.IsZero() && !badSize, `size = "2 in"`},
	} {
		if _, said := pipe.KeyPos[k.name]; k.missing && !said && !slices.Contains(r.unread, "pipe") {
			r.missing(v, what, k.name, fmt.Sprintf("%s here, or once for all runs in [pipe]", k.example))
		}
	}
	r.sizeInCatalog(v, d.Spec, d.Size)
}

// writeRun writes a run; what [pipe] says of it is left to [pipe].
func writeRun(b *strings.Builder, run *graph.Run, pipe graph.PipeDefault) {
	d := draft{Run: *run}
	if d.Spec == pipe.Spec {
		d.Spec = ""
	}
	if d.Size == pipe.Size {
		d.Size = catalog.Size{}
	}
	b.WriteString("\n[[run]]\n")
	writeFields(b, runFields, &d)
}

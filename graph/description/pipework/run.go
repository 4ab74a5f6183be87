package pipework

import (
	"fmt"
	"slices"
	"strings"

	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/description/field"
	"dryfit/graph/description/located"
	"dryfit/graph/description/schema"
)

// Draft is a run as it is read: what only the reader wants to know stands beside it.
type Draft struct {
	graph.Run
	air bool
}

// RunFields are the keys of [[run]].
var RunFields = slices.Concat([]field.Field[Draft]{
	{
		Key:   "id",
		Shape: schema.Text,
		Read: func(r *field.Reader, v located.Value, into *Draft) {
			if s, ok := r.Text(v, `a name of your own, such as "return-line"`); ok && goodID(r, v, s) {
				into.ID, into.Named = s, true
			}
		},
		Write: func(from *Draft) string {
			if from.Named {
				return field.Quote(from.ID)
			}
			return ""
		},
	},
	field.Needed(endField("from", func(d *Draft) *graph.PortRef { return &d.From }), `where it starts, such as from = "pump.out"`),
	field.Needed(endField("to", func(d *Draft) *graph.PortRef { return &d.To }), `where it ends, such as to = "filter.in"`),
	field.Spec("spec", func(d *Draft) *catalog.Spec { return &d.Spec }),
	field.Size("size", func(d *Draft) *catalog.Size { return &d.Size }),
	field.Word("material", graph.Materials(), func(d *Draft) *string { return &d.Material }),
	field.Bool("existing", func(d *Draft) *bool { return &d.Existing }),
	field.Bool("removed", func(d *Draft) *bool { return &d.Removed }),
	field.Text("remains-of", `the id of the run it is what is left of`, func(d *Draft) *string { return &d.RemainsOf }),
	keptField(func(d *Draft) *[]graph.PortRef { return &d.AdaptorsKept }),
	field.Known(func(d *Draft) *graph.Knowledge { return &d.Known }),
	legsField("legs", func(d *Draft) *[]graph.Leg { return &d.Legs }),
	field.QtySet("length", field.RunLength, func(d *Draft) *float64 { return &d.LengthMM }, func(d *Draft) *bool { return &d.HasLength }),
	fittingsField(),
	{
		Key:   "measured",
		Shape: func() schema.Shape { return schema.Word("faces", "centres") },
		Read: func(r *field.Reader, v located.Value, into *Draft) {
			words := []string{"faces", "centres"}
			if s, ok := r.Text(v, field.QuotedList(words)); ok {
				if !slices.Contains(words, s) {
					r.Fail(v, located.Near(s, words), "a run is measured between faces or centres, not %s", located.Said(s))
				}
				into.Faces = s == "faces"
			}
		},
		Write: func(from *Draft) string {
			if from.Faces {
				return field.Quote("faces")
			}
			return ""
		},
	},
	field.Qty("bore", field.BoreWidth, func(d *Draft) *float64 { return &d.BoreMM }),
	field.QtyOr("roughness", field.Roughness, -1, func(d *Draft) *float64 { return &d.RoughnessMM }),
	field.Number("k", 0, field.MostK, func(d *Draft) *float64 { return &d.K }, nil),
	field.Qty("measured-outside-diameter", field.OutsideWidth, func(d *Draft) *float64 { return &d.MeasuredOutsideMM }),
	field.Bool("insulated", func(d *Draft) *bool { return &d.Insulated }),
	field.Bool("outside", func(d *Draft) *bool { return &d.Outside }),
	field.Amount("insulation", field.Lagging, func(d *Draft) *graph.Amount { return &d.InsulationMM }),
	field.Amount("buried", field.BuriedDepth, func(d *Draft) *graph.Amount { return &d.BuriedMM }),
	field.Bool("through-wall", func(d *Draft) *bool { return &d.ThroughWall }),
	field.Bool("air", func(d *Draft) *bool { return &d.air }),
}, field.Surroundings(func(d *Draft) *graph.Surroundings { return &d.Surroundings }))

// endField is one end of a run, "part.port".
func endField(name string, at func(*Draft) *graph.PortRef) field.Field[Draft] {
	return field.Field[Draft]{
		Key:   name,
		Shape: portShape,
		Read: func(r *field.Reader, v located.Value, into *Draft) {
			if ref, ok := readPortRef(r, v, `a part and its port, such as "pump.out"`); ok {
				*at(into) = ref
			}
		},
		Write: func(from *Draft) string { return field.Quote(at(from).String()) },
	}
}

// readPortRef reads "part.port"; write says what to write there.
func readPortRef(r *field.Reader, v located.Value, write string) (graph.PortRef, bool) {
	s, ok := r.Text(v, write)
	if !ok {
		return graph.PortRef{}, false
	}
	dot := strings.LastIndexByte(s, '.')
	if dot <= 0 || dot == len(s)-1 || strings.ContainsRune(s[:dot], '.') {
		hint := portMeantBy(r, s)
		if hint == "" {
			hint = `write the part's id, a point and the port: "pump.out"`
		}
		r.Fail(v, hint, "%s names no port of a part", located.Said(s))
		return graph.PortRef{}, false
	}
	return graph.PortRef{Part: s[:dot], Port: s[dot+1:], Pos: r.ValuePos(v)}, true
}

// portMeantBy tells the ports that a text may mean which has no point where one stands in "part.port":
// those of the part of that name, or the one that is spelled like it; "" where there is none.
func portMeantBy(r *field.Reader, text string) string {
	if r.Many() {
		return ""
	}
	if p, ok := r.Parts[text]; ok && len(p.Ports) > 0 {
		var ports []string
		for _, name := range portNames(p) {
			ports = append(ports, field.Quote(graph.PortRef{Part: text, Port: name}.String()))
		}
		return "write one of its ports behind its id and a point: " + strings.Join(ports, ", ")
	}
	for _, p := range r.Circuit.Parts {
		for _, name := range portNames(p) {
			if ref := (graph.PortRef{Part: p.ID, Port: name}).String(); unparted(ref) == unparted(text) {
				return "did you mean " + field.Quote(ref) + "?"
			}
		}
	}
	return ""
}

// unparted is a name without what parts its words.
func unparted(name string) string {
	return strings.ToLower(strings.NewReplacer(".", "", "-", "", "_", "", " ", "", ":", "", "/", "", ">", "").Replace(name))
}

// countedKinds are the fittings that may be counted in a run nobody measured leg by leg.
var countedKinds = []string{"elbow-90", "elbow-45", "elbow-22.5", "elbow-90-sweep", "coupling", "slip-coupling", "union"}

func fittingsField() field.Field[Draft] {
	const write = `{ elbow-90 = 2, elbow-45 = 1 }`
	return field.Field[Draft]{
		Key: "fittings",
		Shape: func() schema.Shape {
			var keys schema.Shape
			for _, kind := range countedKinds {
				keys = keys.With(kind, field.KeyShape(schema.Whole(0, field.MostFittings), "fittings", kind))
			}
			return schema.Table(keys, nil)
		},
		Read: func(r *field.Reader, v located.Value, into *Draft) {
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
				if n, ok := r.Count(c, 0, field.MostFittings); ok {
					into.Fittings = append(into.Fittings, graph.FittingCount{Kind: kind, Count: n, Pos: r.KeyPos(c)})
				}
			}
		},
		Write: func(from *Draft) string {
			var out []string
			for _, f := range from.Fittings {
				out = append(out, fmt.Sprintf("%s = %d", field.Key(f.Kind), f.Count))
			}
			if len(out) == 0 {
				return ""
			}
			return "{ " + strings.Join(out, ", ") + " }"
		},
	}
}

// ReadRun reads a [[run]].
func ReadRun(r *field.Reader, v located.Value) {
	d := &Draft{Run: graph.Run{Pos: r.KeyPos(v), RoughnessMM: -1, Surroundings: graph.NothingSaid()}}
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
	d.KeyPos = field.ReadTable(r, v, what, RunFields, d)
	if _, ok := v.V.(map[string]any); !ok {
		return
	}
	if d.ID == "" && d.From.Part != "" && d.To.Part != "" {
		d.ID = graph.RunName(d.From, d.To)
	}
	checkRun(r, v, d, what)
	run := &d.Run
	for _, k := range []string{"id", "from", "to", "remains-of"} {
		if c, ok := v.In(k); ok {
			r.Note(run, k, c)
		}
	}
	r.Circuit.Runs = append(r.Circuit.Runs, run)
	if d.air {
		r.Note(run, "air", v)
	}
}

// checkRun looks at the keys of a run together, and fills in [pipe].
func checkRun(r *field.Reader, v located.Value, d *Draft, what string) {
	legs, hasLegs := v.In("legs")
	length, hasLength := v.In("length")
	switch {
	case hasLegs && hasLength:
		x := r.Add(r.KeyPos(length), "keep the legs; without them keep the length and count the bends in fittings", "%s has legs and a length", what)
		located.Related(x, r.KeyPos(legs), "the legs are here")
	case !hasLegs && !hasLength:
		r.Missing(v, what, "legs and no length", legsExample+`; where nobody measured them guess: length = "900 mm" along the pipe, and its bends counted, fittings = { elbow-90 = 2 }`)
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
func pipeOfRun(r *field.Reader, v located.Value, d *Draft, what string) {
	pipe := r.Circuit.Pipe
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
		if _, said := pipe.KeyPos[k.name]; k.missing && !said && !slices.Contains(r.Unread, "pipe") {
			r.Missing(v, what, k.name, fmt.Sprintf("%s here, or once for all runs in [pipe]", k.example))
		}
	}
	r.SizeInCatalog(v, d.Spec, d.Size)
}

// WriteRun writes a run; what [pipe] says of it is left to [pipe].
func WriteRun(b *strings.Builder, run *graph.Run, pipe graph.PipeDefault) {
	d := Draft{Run: *run}
	if d.Spec == pipe.Spec {
		d.Spec = ""
	}
	if d.Size == pipe.Size {
		d.Size = catalog.Size{}
	}
	b.WriteString("\n[[run]]\n")
	field.WriteFields(b, RunFields, &d)
}

package pipework

import (
	"math"
	"strings"

	"dryfit/graph"
	"dryfit/graph/description/field"
	"dryfit/graph/description/located"
	"dryfit/graph/description/schema"
)

// Where the unit stands is written in [retrofit] itself; in the circuit it is a value of its
// own, which is there where one of its keys is.

// standField makes a key of [retrofit] of one of a Stand.
func standField(name string, f field.Field[graph.Stand]) field.Field[graph.Retrofit] {
	return field.Field[graph.Retrofit]{
		Key:   name,
		Shape: f.Shape,
		Read: func(r *field.Reader, v located.Value, into *graph.Retrofit) {
			if into.Stand == nil {
				into.Stand = &graph.Stand{Pos: r.KeyPos(v)}
			}
			f.Read(r, v, into.Stand)
		},
		Write: func(from *graph.Retrofit) string {
			if from.Stand == nil {
				return ""
			}
			return f.Write(from.Stand)
		},
	}
}

func standAtField() field.Field[graph.Stand] {
	return field.Field[graph.Stand]{
		Shape: pointShape,
		Read: func(r *field.Reader, v located.Value, into *graph.Stand) {
			into.At, _ = readPoint(r, v, field.StandPosition, `where its inlet is, such as at = ["front 300 mm", "right 1800 mm", "down 250 mm"]`)
		},
		Write: func(from *graph.Stand) string { return placeText(from.At) },
	}
}

func standFromField() field.Field[graph.Stand] {
	return field.Field[graph.Stand]{
		Shape: portShape,
		Read: func(r *field.Reader, v located.Value, into *graph.Stand) {
			if ref, ok := readPortRef(r, v, `a part of the old work and its port, such as "tub.skimmer"`); ok {
				into.From = ref
			}
		},
		Write: func(from *graph.Stand) string {
			if from.From.Part == "" {
				return ""
			}
			return field.Quote(from.From.String())
		},
	}
}

// KeepClearFields are the keys of one box of keep-clear.
var KeepClearFields = []field.Field[graph.KeepClear]{
	field.Needed(cornerField("from", func(k *graph.KeepClear) *graph.Vec { return &k.From }), `one corner: from = ["right 600 mm"]`),
	field.Needed(cornerField("to", func(k *graph.KeepClear) *graph.Vec { return &k.To }), `the corner opposite: to = ["right 1400 mm", "front 900 mm", "down 800 mm"]`),
	field.Prose("what", `what stands or moves there, such as "door"`, func(k *graph.KeepClear) *string { return &k.What }),
}

// cornerField is a corner of a box, as a list of ways.
func cornerField[T any](name string, at func(*T) *graph.Vec) field.Field[T] {
	return field.Field[T]{
		Key:   name,
		Shape: pointShape,
		Read: func(r *field.Reader, v located.Value, into *T) {
			*at(into), _ = readPoint(r, v, field.StandPosition, `a corner as a list of ways, such as ["right 600 mm", "front 900 mm"]`)
		},
		Write: func(from *T) string { return placeText(*at(from)) },
	}
}

// mostBoxes is how many boxes are read.
const mostBoxes = 100

func keepClearField[T any](of func(*T) *[]graph.KeepClear) field.Field[T] {
	const write = `keep-clear = [{ from = ["right 600 mm"], to = ["right 1400 mm", "front 900 mm", "down 800 mm"], what = "door" }]`
	return field.Field[T]{
		Key:   "keep-clear",
		Shape: func() schema.Shape { return schema.List(field.TableShape(KeepClearFields, "keep-clear"), 0) },
		Read: func(r *field.Reader, v located.Value, into *T) {
			items, ok := v.Items()
			switch {
			case !ok && r.Blank(v, write):
				return
			case !ok:
				r.WrongType(v, "a list of boxes", write)
				return
			case len(items) > mostBoxes:
				r.Fail(v, "take several together", "there are %d boxes to keep clear; at most %d are read", len(items), mostBoxes)
				return
			}
			for _, item := range items {
				box := graph.KeepClear{Pos: r.ValuePos(item)}
				before := len(r.Found)
				field.ReadTable(r, item, "a box to keep clear", KeepClearFields, &box)
				if len(r.Found) == before && flat(box.To.Sub(box.From)) {
					r.Fail(item, "give two opposite corners that differ left to right, front to back and in height", "the box to keep clear has no room in it")
				}
				*of(into) = append(*of(into), box)
			}
		},
		Write: func(from *T) string {
			var out []string
			for i := range *of(from) {
				out = append(out, field.Inline(KeepClearFields, &(*of(from))[i]))
			}
			return field.List(out)
		},
	}
}

// flat reports whether a box has no room in it: it is thinner than a tenth of a millimetre.
func flat(by graph.Vec) bool {
	return min(math.Abs(by.X), math.Abs(by.Y), math.Abs(by.Z)) < 0.1
}

// readStand looks at the keys of the unit's place together: what the pipes to it can't be found
// without, and what says nothing without at.
func readStand(r *field.Reader, v located.Value, t *graph.Retrofit) {
	if t.Stand == nil {
		return
	}
	at, has := v.In("at")
	if has {
		t.Stand.Pos = r.KeyPos(at)
	} else {
		for _, key := range []string{"at-from", "ports-face", "keep-clear", "along"} {
			if c, ok := v.In(key); ok {
				r.Add(r.KeyPos(c), `say where the unit's inlet is: at = ["front 300 mm", "right 1800 mm", "down 250 mm"]`, "%s says nothing without at", located.Said(key))
				return
			}
		}
	}
	if t.Stand.From.Part == "" {
		if _, written := v.In("at-from"); !written && (t.Cut == nil || t.Cut.Leg == 0 || t.Cut.AtMM < 0) {
			r.Add(r.KeyPos(at), `write the port it is counted from, such as at-from = "tub.skimmer"; only where cut names leg and place may it be left out, and counts from the first new tee`,
				"at is counted from nothing")
		}
	}
	standPorts(r, v, t)
	if p := r.Parts[t.Unit]; p != nil && t.Stand.PortsFace.Len() > 0 {
		boxBehindPorts(r, p, t.Stand.PortsFace.Unit())
	}
	standOrigin(r, v, t.Stand)
}

// standPorts looks whether the unit says where its ports are and which way they look.
func standPorts(r *field.Reader, v located.Value, t *graph.Retrofit) {
	p := r.Parts[t.Unit]
	if p == nil || p.Kind != graph.HeatPump {
		return
	}
	at, _ := v.In("at")
	out, in := p.Port(graph.Out), p.Port(graph.In)
	if out != nil && out.At == nil {
		d := r.Add(r.KeyPos(at), `measure from the middle of its inlet to that of its outlet, and write it on the part, such as port.out.at = ["up 220 mm"]`,
			"how far the outlet of %s stands from its inlet is not known, and the pipes must end at both", located.Said(p.ID))
		located.Related(d, r.IDPos(p, p.Pos), "it is described here")
	}
	face, says := v.In("ports-face")
	for _, q := range []*graph.Port{in, out} {
		switch {
		case q == nil:
		case q.Faces == nil && !says:
			r.Add(r.KeyPos(at), `write which way its ports look, such as ports-face = "left"`, "which way the ports of %s look is not known", located.Said(p.ID))
			return
		case q.Faces != nil && says && q.Faces.Len() > 0 && t.Stand.PortsFace.Len() > 0 && *q.Faces != t.Stand.PortsFace:
			d := r.Fail(face, "leave out one of the two", "the port %s looks another way by the part itself: %s", located.Said(p.ID+"."+q.Name), strings.Trim(field.DirectionText(*q.Faces), `"`))
			located.Related(d, q.Pos, "it is said here")
			return
		}
	}
}

// standOrigin looks whether the port the place is counted from is one of the old work.
func standOrigin(r *field.Reader, v located.Value, s *graph.Stand) {
	if p := r.Parts[s.From.Part]; p != nil && onlyOldRuns(r, p) != nil {
		return // reported at the part
	}
	originOf(r, v, s.From)
}

// originOf looks whether the port that at-from names is one of the old work.
func originOf(r *field.Reader, v located.Value, from graph.PortRef) bool {
	c, ok := v.In("at-from")
	if !ok || from.Part == "" {
		return false
	}
	p, known := r.Parts[from.Part]
	switch {
	case !known:
		Missed(r, r.ValuePos(c), from.Part, located.Near(from.Part, IDsOf(r, func(graph.Kind) bool { return true })))
	case p.Kind == "" || len(p.Ports) == 0: // reported already
	case p.Port(from.Port) == nil:
		NoPort(r, p, from.Port, r.ValuePos(c), portNames(p))
	case p.Kind != graph.Tub && !p.Existing:
		d := r.Fail(c, "count from what is there already, such as a port of the tub", "%s is new work: it stands nowhere yet", located.Said(p.ID))
		located.Related(d, r.IDPos(p, p.Pos), "it is described here")
	default:
		return true
	}
	return false
}

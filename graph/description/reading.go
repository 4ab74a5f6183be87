package description

import (
	"fmt"
	"slices"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/description/field"
	"dryfit/graph/description/located"
	"dryfit/graph/description/pipework"
	"dryfit/graph/description/schema"
)

// readingFields are the keys of [[reading]].
var readingFields = []field.Field[graph.Reading]{
	field.Needed(field.Field[graph.Reading]{
		Key:   "at",
		Shape: schema.Text,
		Read:  readAt,
		Write: func(from *graph.Reading) string { return field.Quote(from.At) },
	}, `where it was read, such as at = "pump"`),
	{
		Key:   "mode",
		Shape: schema.Text,
		Read: func(r *field.Reader, v located.Value, into *graph.Reading) {
			s, ok := r.Text(v, `the name of a mode`)
			if !ok {
				return
			}
			names := modeNames(r)
			if !slices.Contains(names, s) {
				r.Fail(v, located.Near(s, names), "there is no mode %s", located.Said(s))
			}
			into.Mode = s
		},
		Write: func(from *graph.Reading) string {
			if from.Mode == "" {
				return ""
			}
			return field.Quote(from.Mode)
		},
	},
	field.NeededOr(field.Qty("flow", field.Flow, func(o *graph.Reading) *float64 { return &o.Flow }), "pressure", `what was read: flow = "5.2 m3/h", or pressure = "0.4 bar"`),
	field.QtySet("pressure", field.GaugePressure, func(o *graph.Reading) *float64 { return &o.Pressure }, func(o *graph.Reading) *bool { return &o.PressureSet }),
	{
		Key:   "plus-minus",
		Shape: schema.Quantity,
		Like:  field.Quote(field.ReadingOff.Example()),
		Read: func(r *field.Reader, v located.Value, into *graph.Reading) {
			q, ok := r.Quantity(v, field.ReadingOff)
			switch {
			case !ok:
			case q.Dimension == quantity.Share:
				into.Off = q.Value
			default:
				into.OffPa = r.BaseValue(q)
			}
		},
		Write: func(from *graph.Reading) string {
			switch {
			case from.OffPa > 0:
				return field.ExactText(from.OffPa, quantity.Pressure)
			case from.Off > 0:
				return field.Percent(from.Off)
			}
			return ""
		},
	},
}

// modeNames are the names of all modes, written or following from the pumps.
func modeNames(r *field.Reader) []string {
	var out []string
	for _, m := range r.Circuit.AllModes() {
		out = append(out, m.Name)
	}
	return out
}

// readAt reads the place of a reading: a part, one of its ports, or a run.
func readAt(r *field.Reader, v located.Value, into *graph.Reading) {
	s, ok := r.Text(v, `the id of a part or a run, such as "pump" or "filter.in"`)
	if !ok {
		return
	}
	into.At = s
	if run := r.Circuit.Run(s); run != nil {
		into.Run = s
		if !run.Existing || run.RemainsOf != "" {
			notYet(r, v, s)
		}
		return
	}
	id, port, _ := strings.Cut(s, ".")
	p := r.Parts[id]
	if p == nil {
		words := pipework.IDsOf(r, func(graph.Kind) bool { return true })
		for _, run := range r.Circuit.Runs {
			words = append(words, run.ID)
		}
		if !pipework.Told(r, id, r.ValuePos(v)) {
			r.Fail(v, r.NearAmong(s, func() []string { return words }), "there is no part or run %s", located.Said(s))
		}
		return
	}
	into.Part, into.Port = id, port
	switch ports := waterPorts(p); {
	case port != "" && !slices.Contains(ports, port):
		if p.Port(port) == nil && port != p.Kind.AirPort() {
			pipework.NoPort(r, p, port, r.ValuePos(v), ports)
			return
		}
		r.Fail(v, located.Near(port, ports), "%s has no port %s with water", located.Said(id), located.Said(port))
	case !p.Existing && p.Kind != graph.Tub:
		notYet(r, v, s)
	}
}

// waterPorts are the names of a part's ports that hold water.
func waterPorts(p *graph.Part) []string {
	var out []string
	for i := range p.Ports {
		if !p.Ports[i].Air {
			out = append(out, p.Ports[i].Name)
		}
	}
	return out
}

// notYet reports a reading on what is not marked as standing.
func notYet(r *field.Reader, v located.Value, id string) {
	r.Fail(v, "a reading is of the tub as it stands today; once the work is done, write what stands with dryfit cutin --as-built --write-plan, and what its display says into that file",
		"%s is not there yet: existing = true is not said of it", located.Said(id))
}

func readReading(r *field.Reader, v located.Value) {
	o := graph.Reading{Pos: r.KeyPos(v)}
	field.ReadTable(r, v, "[[reading]]", readingFields, &o)
	if names := modeNames(r); o.Mode == "" && len(names) == 1 {
		o.Mode = names[0]
	} else if _, said := v.In("mode"); !said && len(names) > 1 {
		r.Add(o.Pos, fmt.Sprintf("write mode = %s", field.QuotedList(names)), "[[reading]] has no mode, and there are %d", len(names))
	}
	if p := r.Parts[o.Part]; p != nil {
		at, _ := v.In("at")
		switch {
		case o.Flow > 0 && p.Kind.SeveralWays():
			r.Fail(at, "name the run whose flow it is", "the flow of %s is not one: its water goes several ways", located.Said(o.Part))
		case o.PressureSet && p.Kind == graph.Tub:
			r.Fail(at, "name the part the gauge is on, or the port", "the tub stands open: there is no pressure to read")
		}
	}
	if o.Run != "" && o.PressureSet {
		at, _ := v.In("at")
		r.Fail(at, `name a part at one of its ends, and the port: at = "filter.in"`, "a gauge stands at a place: %s is a whole run", located.Said(o.Run))
	}
	if o.Off > 0 && o.PressureSet && o.Pressure == 0 {
		at, _ := v.In("plus-minus")
		r.Fail(at, `write a pressure, such as plus-minus = "0.06 bar"`, "a share of no pressure is nothing")
	}
	if o.OffPa > 0 && !o.PressureSet {
		at, _ := v.In("plus-minus")
		r.Fail(at, `write a share, such as plus-minus = "5 %"`, "a flow can't be off by a pressure")
	}
	r.Circuit.Readings = append(r.Circuit.Readings, o)
}

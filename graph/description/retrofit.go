package description

import (
	"slices"
	"strings"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/description/located"
	"dryfit/graph/description/schema"
)

// retrofitFields are the keys of [retrofit].
var retrofitFields = []field[graph.Retrofit]{
	needed(field[graph.Retrofit]{
		key:   "unit",
		shape: schema.Text,
		read: func(r *reader, v located.Value, into *graph.Retrofit) {
			s, ok := r.Text(v, `the id of the heat-pump to be fitted`)
			if !ok {
				return
			}
			p, known := r.parts[s]
			heats := func(k graph.Kind) bool { return k == graph.HeatPump }
			switch {
			case !known:
				r.Fail(v, located.Near(s, idsOf(r, heats)), "there is no part %s", located.Said(s))
			case p.Kind != "" && p.Kind != graph.HeatPump:
				d := r.Fail(v, unitHint(idsOf(r, heats)), "the unit is %s, not a heat-pump", graph.A(p.Kind))
				located.Related(d, r.idPos(p, p.Pos), "%s is described here", located.Said(s))
			default:
				into.Unit = s
			}
		},
		write: func(from *graph.Retrofit) string { return quote(from.Unit) },
	}, `the id of the heat-pump to be fitted: unit = "unit"`),
	boolField("remove", func(t *graph.Retrofit) *bool { return &t.Remove }),
	{key: "cut", shape: func() schema.Shape { return schema.Either(schema.Text(), tableShape(cutFields, "cut")) }, read: readCut, write: func(from *graph.Retrofit) string { return cutText(from.Cut) }},
	wordField("bypass", []string{"auto", "spring", "valve", "none"}, func(t *graph.Retrofit) *string { return &t.Bypass }),
	{key: "spring", shape: schema.Text, read: readSpring, write: springText},
	wayField("branch", func(t *graph.Retrofit) *graph.Vec { return &t.Branch }),
	specField("spec", func(t *graph.Retrofit) *catalog.Spec { return &t.Spec }),
	sizeField("size", func(t *graph.Retrofit) *catalog.Size { return &t.Size }),
	sizeField("bypass-size", func(t *graph.Retrofit) *catalog.Size { return &t.BypassSize }),
	wordField("isolators", []string{"ball-valve", "gate-valve", "butterfly-valve"}, func(t *graph.Retrofit) *string { return &t.Isolators }),
	maybeField("true-union", func(t *graph.Retrofit) **bool { return &t.TrueUnion }),
	qtyField("extra", extraLength, func(t *graph.Retrofit) *float64 { return &t.ExtraMM }),
	maybeField("drains", func(t *graph.Retrofit) **bool { return &t.Drains }),
	maybeField("feeder-check", func(t *graph.Retrofit) **bool { return &t.FeederCheck }),
	boolField("inside", func(t *graph.Retrofit) *bool { return &t.Inside }),
	openLegsField("to-unit", func(t *graph.Retrofit) *[]graph.Leg { return &t.ToUnit }),
	openLegsField("from-unit", func(t *graph.Retrofit) *[]graph.Leg { return &t.FromUnit }),
	maybeField("bleeds", func(t *graph.Retrofit) **bool { return &t.Bleeds }),
	boolField("slip-coupling", func(t *graph.Retrofit) *bool { return &t.SlipCoupling }),
	boolField("service-valve", func(t *graph.Retrofit) *bool { return &t.ServiceValve }),
	standField("at", standAtField()),
	standField("at-from", standFromField()),
	standField("ports-face", wayField("ports-face", func(s *graph.Stand) *graph.Vec { return &s.PortsFace })),
	standField("keep-clear", keepClearField()),
	standField("along", legsField("along", func(s *graph.Stand) *[]graph.Leg { return &s.Along })),
}

func unitHint(units []string) string {
	if len(units) == 0 {
		return `describe the unit as a [[part]] of kind = "heat-pump"`
	}
	return located.ThereAre(units)
}

func readRetrofit(r *reader, v located.Value) {
	t := &graph.Retrofit{Pos: r.KeyPos(v)}
	t.KeyPos = readTable(r, v, "[retrofit]", retrofitFields, t)
	r.sizeInCatalog(v, retrofitSpec(r, t), t.Size)
	if c, ok := v.In("bypass-size"); ok && t.Spec != "" && !t.BypassSize.IsZero() {
		r.sizeInCatalog(located.Single("size", c), t.Spec, t.BypassSize)
	}
	readStand(r, v, t)
	readOpenLegs(r, v, t)
	r.circuit.Retrofit = t
}

// retrofitSpec returns what the new work is made of, as far as the file alone says it.
func retrofitSpec(r *reader, t *graph.Retrofit) catalog.Spec {
	if t.Spec != "" {
		return t.Spec
	}
	if t.Cut == nil {
		return r.circuit.Pipe.Spec
	}
	if run := r.circuit.Run(t.Cut.Run); run != nil {
		return run.Spec
	}
	return ""
}

// cutFields are the keys of a cut written as a table.
var cutFields = []field[graph.Cut]{
	needed(textField("run", `the id of an existing run`, func(c *graph.Cut) *string { return &c.Run }), `the run to cut: run = "return-line"`),
	countField("leg", 1, MaxLegs, func(c *graph.Cut) *int { return &c.Leg }),
	qtyOr("at", cutOffset, -1, func(c *graph.Cut) *float64 { return &c.AtMM }),
}

// readCut reads a place to cut: a run, or a table with the leg and the place on it.
func readCut(r *reader, v located.Value, into *graph.Retrofit) {
	cut := &graph.Cut{AtMM: -1, Pos: r.ValuePos(v)}
	at := v
	switch x := v.V.(type) {
	case string:
		s, ok := r.Text(v, `the id of an existing run, or leave the key out: the tool ranks every place`)
		if !ok {
			return
		}
		cut.Run = s
	case map[string]any:
		readTable(r, v, "the cut", cutFields, cut)
		if cut.Run == "" {
			return
		}
		at, _ = v.In("run")
	default:
		r.WrongType(v, "the id of a run", `cut = "return-line", or cut = { run = "return-line", leg = 1, at = "350 mm" }, not `+located.TypeWord(x))
		return
	}
	into.Cut = cut
	run := r.circuit.Run(cut.Run)
	if run == nil {
		ids := runIDsThat(r, func(run *graph.Run) bool { return run.Existing })
		r.Fail(at, located.Near(cut.Run, ids), "there is no run %s", located.Said(cut.Run))
		return
	}
	if !run.Existing {
		d := r.Fail(at, "name a run with existing = true", "the run %s is new work: there is nothing to cut", located.Said(cut.Run))
		located.Related(d, run.Pos, "it is described here")
	}
	readCutLeg(r, v, cut, run)
}

// readCutLeg looks whether the run has the leg and the leg the place.
func readCutLeg(r *reader, v located.Value, cut *graph.Cut, run *graph.Run) {
	if c, ok := v.In("leg"); ok && cut.Leg > max(len(run.Legs), 1) {
		d := r.Fail(c, "count the legs from 1 in the order they are written", "the run %s has no leg %d: it has %s", located.Said(run.ID), cut.Leg, counted(len(run.Legs), "leg"))
		located.Related(d, run.Pos, "it is described here")
		return
	}
	c, ok := v.In("at")
	if !ok || cut.AtMM < 0 {
		return
	}
	long := run.LengthMM
	if len(run.Legs) > 0 {
		long = run.Legs[max(cut.Leg, 1)-1].LengthMM()
	}
	if cut.AtMM > long {
		d := r.Fail(c, "the place is counted from the start of the leg", "the cut is at %s, beyond the end of the leg at %s",
			quantity.Format(cut.AtMM, quantity.Length, quantity.MetricSystem), quantity.Format(long, quantity.Length, quantity.MetricSystem))
		located.Related(d, run.Pos, "the run is described here")
	}
}

func cutText(c *graph.Cut) string {
	switch {
	case c == nil:
		return ""
	case c.Leg == 0 && c.AtMM < 0:
		return quote(c.Run)
	}
	return inline(cutFields, c)
}

// readSpring reads the spring that is asked for: "auto", a cracking pressure, or a row's name.
func readSpring(r *reader, v located.Value, into *graph.Retrofit) {
	s, ok := r.Text(v, `"auto", a cracking pressure such as "2 psi", or the name of a catalogue row`)
	if !ok {
		return
	}
	var names []string
	for _, row := range r.catalog.Springs() {
		names = append(names, row.Name)
	}
	switch {
	case s == "auto" || slices.Contains(names, s):
		into.Spring = s
	case strings.ContainsAny(s[:min(1, len(s))], "0123456789.-"):
		if q, ok := r.quantity(v, springAsked); ok {
			into.SpringPa = r.baseValue(q)
		}
	default:
		r.Fail(v, located.Near(s, append([]string{"auto"}, names...)), "there is no spring check %s", located.Said(s))
	}
}

func springText(t *graph.Retrofit) string {
	if t.SpringPa > 0 {
		return exactText(t.SpringPa, quantity.Pressure)
	}
	if t.Spring != "" {
		return quote(t.Spring)
	}
	return ""
}

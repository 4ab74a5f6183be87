package pipework

import (
	"fmt"
	"slices"
	"strings"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/description/field"
	"dryfit/graph/description/located"
	"dryfit/graph/description/schema"
)

// RetrofitFields are the keys of [retrofit].
var RetrofitFields = []field.Field[graph.Retrofit]{
	field.Needed(field.Field[graph.Retrofit]{
		Key:   "unit",
		Shape: schema.Text,
		Read: func(r *field.Reader, v located.Value, into *graph.Retrofit) {
			s, ok := r.Text(v, `the id of the heat-pump to be fitted`)
			if !ok {
				return
			}
			p, known := r.Parts[s]
			heats := func(k graph.Kind) bool { return k == graph.HeatPump }
			switch {
			case !known:
				units := IDsOf(r, heats)
				hint := unitHint(units)
				if len(units) > 0 {
					hint = located.Near(s, units)
				}
				Missed(r, r.ValuePos(v), s, hint)
			case p.Kind != "" && p.Kind != graph.HeatPump:
				d := r.Fail(v, unitHint(IDsOf(r, heats)), "the unit is %s, not a heat-pump", graph.A(p.Kind))
				located.Related(d, r.IDPos(p, p.Pos), "%s is described here", located.Said(s))
			default:
				into.Unit = s
			}
		},
		Write: func(from *graph.Retrofit) string { return field.Quote(from.Unit) },
	}, `the id of the heat-pump to be fitted: unit = "unit"`),
	field.Bool("remove", func(t *graph.Retrofit) *bool { return &t.Remove }),
	{Key: "cut", Shape: func() schema.Shape { return schema.Either(schema.Text(), field.TableShape(CutFields, "cut")) }, Read: readCut, Write: func(from *graph.Retrofit) string { return CutText(from.Cut) }},
	field.Word("bypass", bypassWords, func(t *graph.Retrofit) *string { return &t.Bypass }),
	{Key: "spring", Shape: schema.Text, Read: readSpring, Write: springText},
	field.Way("branch", func(t *graph.Retrofit) *graph.Vec { return &t.Branch }),
	gluedSpec(),
	field.Size("size", func(t *graph.Retrofit) *catalog.Size { return &t.Size }),
	field.Size("bypass-size", func(t *graph.Retrofit) *catalog.Size { return &t.BypassSize }),
	field.Word("isolators", []string{"ball-valve", "gate-valve", "butterfly-valve"}, func(t *graph.Retrofit) *string { return &t.Isolators }),
	field.Maybe("true-union", func(t *graph.Retrofit) **bool { return &t.TrueUnion }),
	field.Qty("extra", field.ExtraLength, func(t *graph.Retrofit) *float64 { return &t.ExtraMM }),
	field.Maybe("drains", func(t *graph.Retrofit) **bool { return &t.Drains }),
	field.Maybe("feeder-check", func(t *graph.Retrofit) **bool { return &t.FeederCheck }),
	field.Bool("inside", func(t *graph.Retrofit) *bool { return &t.Inside }),
	openLegsField("to-unit", func(t *graph.Retrofit) *[]graph.Leg { return &t.ToUnit }),
	openLegsField("from-unit", func(t *graph.Retrofit) *[]graph.Leg { return &t.FromUnit }),
	field.Maybe("bleeds", func(t *graph.Retrofit) **bool { return &t.Bleeds }),
	keptField(func(t *graph.Retrofit) *[]graph.PortRef { return &t.AdaptorsKept }),
	field.Bool("slip-coupling", func(t *graph.Retrofit) *bool { return &t.SlipCoupling }),
	field.Bool("service-valve", func(t *graph.Retrofit) *bool { return &t.ServiceValve }),
	standField("at", standAtField()),
	standField("at-from", standFromField()),
	standField("ports-face", field.Way("ports-face", func(s *graph.Stand) *graph.Vec { return &s.PortsFace })),
	standField("keep-clear", keepClearField(func(s *graph.Stand) *[]graph.KeepClear { return &s.KeepClear })),
	standField("along", legsField("along", func(s *graph.Stand) *[]graph.Leg { return &s.Along })),
}

// gluedSpec is the spec of the new pipe: all but hose, for between the tees, valves and unions
// of the new work stand pieces too short for two barbs.
func gluedSpec() field.Field[graph.Retrofit] {
	f := field.Spec("spec", func(t *graph.Retrofit) *catalog.Spec { return &t.Spec })
	read := f.Read
	f.Read = func(r *field.Reader, v located.Value, into *graph.Retrofit) {
		read(r, v, into)
		if !into.Spec.IsHose() {
			return
		}
		r.Fail(v, `write glued pipe here, such as spec = "pvc-sch40" or spec = "flex-inch"; then dryfit cutin --write-plan planned.toml, and in that file give the long runs to the unit spec = "hose": the barbs come by themselves`,
			"%s can't be the pipe of the whole new work: between its tees, valves and unions hose has no room for a barb at each end", into.Spec)
		into.Spec = ""
	}
	f.Shape = func() schema.Shape {
		var glued []string
		for _, s := range catalog.Specs() {
			if !s.IsHose() {
				glued = append(glued, string(s))
			}
		}
		return schema.Word(glued...)
	}
	return f
}

func unitHint(units []string) string {
	if len(units) == 0 {
		return `describe the unit as a [[part]] of kind = "heat-pump"`
	}
	return located.ThereAre(units)
}

// ReadRetrofit reads [retrofit].
func ReadRetrofit(r *field.Reader, v located.Value) {
	t := &graph.Retrofit{Pos: r.KeyPos(v)}
	t.KeyPos = field.ReadTable(r, v, "[retrofit]", RetrofitFields, t)
	r.SizeInCatalog(v, retrofitSpec(r, t), t.Size)
	if c, ok := v.In("bypass-size"); ok && t.Spec != "" && !t.BypassSize.IsZero() {
		r.SizeInCatalog(located.Single("size", c), t.Spec, t.BypassSize)
	}
	keptOfRetrofit(r, t)
	readStand(r, v, t)
	readOpenLegs(r, v, t)
	r.Circuit.Retrofit = t
}

// retrofitSpec returns what the new work is made of, as far as the file alone says it.
func retrofitSpec(r *field.Reader, t *graph.Retrofit) catalog.Spec {
	if t.Spec != "" {
		return t.Spec
	}
	if t.Cut == nil {
		return r.Circuit.Pipe.Spec
	}
	if run := r.Circuit.Run(t.Cut.Run); run != nil {
		return run.Spec
	}
	return ""
}

// CutFields are the keys of a cut written as a table.
var CutFields = []field.Field[graph.Cut]{
	field.Needed(field.Text("run", `the id of an existing run`, func(c *graph.Cut) *string { return &c.Run }), `the run to cut: run = "return-line"`),
	field.Count("leg", 1, field.MaxLegs, func(c *graph.Cut) *int { return &c.Leg }),
	field.QtyOr("at", field.CutOffset, -1, func(c *graph.Cut) *float64 { return &c.AtMM }),
}

// readCut reads a place to cut: a run, or a table with the leg and the place on it.
func readCut(r *field.Reader, v located.Value, into *graph.Retrofit) {
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
		field.ReadTable(r, v, "the cut", CutFields, cut)
		if cut.Run == "" {
			return
		}
		at, _ = v.In("run")
	default:
		r.WrongType(v, "the id of a run", `cut = "return-line", or cut = { run = "return-line", leg = 1, at = "350 mm" }, not `+located.TypeWord(x))
		return
	}
	into.Cut = cut
	run := r.Circuit.Run(cut.Run)
	if run == nil {
		ids := runIDsThat(r, func(run *graph.Run) bool { return run.Existing })
		noRun(r, r.ValuePos(at), cut.Run, located.Near(cut.Run, ids))
		return
	}
	if run.Existing && run.Removed && !into.Remove {
		d := r.Fail(at, "name a run that stays; pipe that comes out first is described as it is then, without what is gone", "the run %s is taken out: there is nothing left of it to cut", located.Said(cut.Run))
		located.Related(d, run.Pos, "it is described here")
		return
	}
	if !run.Existing {
		d := r.Fail(at, "name a run with existing = true", "the run %s is new work: there is nothing to cut", located.Said(cut.Run))
		located.Related(d, run.Pos, "it is described here")
	}
	readCutLeg(r, v, cut, run)
}

// readCutLeg looks whether the run has the leg and the leg the place.
func readCutLeg(r *field.Reader, v located.Value, cut *graph.Cut, run *graph.Run) {
	if c, ok := v.In("leg"); ok && cut.Leg > max(len(run.Legs), 1) {
		d := r.Fail(c, "count the legs from 1 in the order they are written", "the run %s has no leg %d: it has %s", located.Said(run.ID), cut.Leg, quantity.Counted(len(run.Legs), "leg"))
		located.Related(d, run.Pos, "it is described here")
		return
	}
	c, ok := v.In("at")
	if !ok || cut.AtMM < 0 {
		return
	}
	switch {
	case cut.Leg > 0 || len(run.Legs) == 0:
	case len(run.Legs) == 1:
		cut.Leg = 1
	default:
		d := r.Fail(c, "name the leg it is on, such as leg = 1, or leave at out to have every leg looked at", "at says where on a leg, and the run %s has %s: which is meant is not said", located.Said(run.ID), quantity.Counted(len(run.Legs), "leg"))
		located.Related(d, run.Pos, "the run is described here")
		return
	}
	long := run.LengthMM
	if cut.Leg > 0 && len(run.Legs) > 0 {
		long = run.Legs[cut.Leg-1].LengthMM()
	}
	if cut.AtMM > long {
		d := r.Fail(c, "the place is counted from the start of the leg", "the cut is at %s, beyond the end of the leg at %s", quantity.Closely(cut.AtMM), quantity.Closely(long))
		located.Related(d, run.Pos, "the run is described here")
	}
}

// CutText writes a place to cut.
func CutText(c *graph.Cut) string {
	switch {
	case c == nil:
		return ""
	case c.Leg == 0 && c.AtMM < 0:
		return field.Quote(c.Run)
	}
	return field.Inline(CutFields, c)
}

// bypassWords are what may be asked for in the bypass.
var bypassWords = []string{"auto", "spring", "valve", "none"}

// readSpring reads the spring that is asked for: "auto", a cracking pressure, or a row's name.
func readSpring(r *field.Reader, v located.Value, into *graph.Retrofit) {
	s, ok := r.Text(v, `"auto", a cracking pressure such as "2 psi", or the name of a catalogue row`)
	if !ok {
		return
	}
	var names []string
	for _, row := range r.Catalog.Springs() {
		names = append(names, row.Name)
	}
	switch {
	case s == "auto" || slices.Contains(names, s):
		into.Spring = s
	case strings.ContainsAny(s[:min(1, len(s))], "0123456789.-"):
		if q, ok := r.Quantity(v, field.SpringAsked); ok {
			into.SpringPa = r.BaseValue(q)
		}
	default:
		hint := located.Near(s, append([]string{"auto"}, names...))
		if !strings.ContainsAny(s, "0123456789") { // how strong it is to be nobody said: the nearest by its letters would be any
			hint = `write "auto", a cracking pressure such as "2 psi", or a row: ` + located.ThereAre(names)
		}
		if slices.Contains(bypassWords, s) {
			hint = fmt.Sprintf(`what stands in the bypass is its own key, bypass = %q; `, s) + hint
		}
		r.Fail(v, hint, "there is no spring check %s", located.Said(s))
	}
}

func springText(t *graph.Retrofit) string {
	if t.SpringPa > 0 {
		return field.ExactText(t.SpringPa, quantity.Pressure)
	}
	if t.Spring != "" {
		return field.Quote(t.Spring)
	}
	return ""
}

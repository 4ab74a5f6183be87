package pipework

import (
	"fmt"
	"slices"
	"strings"
	"sync"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/description/field"
	"dryfit/graph/description/located"
	"dryfit/graph/description/schema"
)

// PartFields are the keys any part may have: those that say what it is, before the keys of
// its kind, and those that say more of it.
var PartFields = []field.Field[graph.Part]{
	field.Needed(field.Text("id", `a name of your own, such as "pump"`, func(p *graph.Part) *string { return &p.ID }), `a name of your own, such as id = "pump"`),
	field.Needed(kindField(), `what it is, such as kind = "pump"`),
	field.Text("type", `the name of a catalogue row`, func(p *graph.Part) *string { return &p.Type }),
	field.Prose("note", `a text`, func(p *graph.Part) *string { return &p.Note }),
	field.Bool("existing", func(p *graph.Part) *bool { return &p.Existing }),
	field.Bool("removed", func(p *graph.Part) *bool { return &p.Removed }),
	field.Known(func(p *graph.Part) *graph.Knowledge { return &p.Known }),
}

// MorePartFields are the keys of every part that are written after those of its kind.
var MorePartFields = slices.Concat([]field.Field[graph.Part]{
	field.Spec("spec", func(p *graph.Part) *catalog.Spec { return &p.Spec }),
	field.Size("size", func(p *graph.Part) *catalog.Size { return &p.Size }),
	field.QtyGiven("length", field.PartLength, func(p *graph.Part) *float64 { return &p.LengthMM }, func(p *graph.Part) *bool { return &p.LengthSet }),
	field.Qty("outside-diameter", field.OutsideWidth.SuchAs("92 mm"), func(p *graph.Part) *float64 { return &p.OutsideMM }),
	field.Word("ends", []string{"socket", "spigot", "thread", "union", "barb"}, func(p *graph.Part) *string { return &p.Ends }),
	boxField(),
	keepClearField(func(p *graph.Part) *[]graph.KeepClear { return &p.KeepClear }),
	portPositionsField(),
	lossField(),
	field.Qty("highest-pressure", field.Highest, func(p *graph.Part) *float64 { return &p.HighestPressurePa }),
	field.Qty("least-flow", field.Flow, func(p *graph.Part) *float64 { return &p.LeastFlow }),
	field.QtySet("below-water", field.Depth, func(p *graph.Part) *float64 { return &p.BelowWaterMM }, func(p *graph.Part) *bool { return &p.BelowWaterSet }),
}, field.Surroundings(func(p *graph.Part) *graph.Surroundings { return &p.Surroundings }))

// kindField is read before everything else: the other keys depend on it.
func kindField() field.Field[graph.Part] {
	return field.Field[graph.Part]{
		Key:   "kind",
		Shape: kindShape,
		Read:  func(*field.Reader, located.Value, *graph.Part) {},
		Write: func(from *graph.Part) string { return field.Quote(string(from.Kind)) },
	}
}

// kindShape is the name of a kind.
func kindShape() schema.Shape {
	var words []string
	for _, k := range graph.Kinds() {
		words = append(words, string(k))
	}
	return schema.Word(words...)
}

// FieldsOf returns the keys of a part of the kind.
func FieldsOf(k graph.Kind) []field.Field[graph.Part] {
	return slices.Concat(PartFields, KindFields[k], MorePartFields)
}

// NewPart returns a part of the kind as it is before anything is said about it.
func NewPart(k graph.Kind) *graph.Part {
	p := &graph.Part{Kind: k, Surroundings: graph.NothingSaid(), Existing: k == graph.Tub}
	for _, n := range k.PortNames() {
		if n != k.AirPort() {
			p.Ports = append(p.Ports, graph.Port{Name: n})
		}
	}
	switch {
	case k == graph.Pump:
		p.Pump = &graph.PumpData{}
	case k == graph.Filter:
		p.Filter = &graph.FilterData{}
	case k == graph.JetGroup:
		p.Jets = &graph.JetData{}
	case k == graph.CheckValve:
		p.Check = &graph.CheckData{}
	case k == graph.HeatPump:
		p.Unit = &graph.UnitData{}
	case k == graph.Blower:
		p.Blower = &graph.BlowerData{}
	case k == graph.ElementHeater:
		p.Element = &graph.ElementData{}
	case k.IsHandValve() || k == graph.DiverterValve:
		p.Valve = &graph.ValveData{Position: 1}
	}
	return p
}

// ReadPart reads a [[part]].
func ReadPart(r *field.Reader, v located.Value) {
	mistypedPart(r, v, "this part", "id", "kind")
	what := "this part"
	if id, ok := v.In("id"); ok {
		if s, ok := id.V.(string); ok {
			what = "part " + located.Said(s)
		}
	}
	if _, ok := v.V.(map[string]any); !ok {
		r.WrongType(v, "a table", "[[part]] and its keys below it")
		return
	}
	kind, ok := readKind(r, v)
	if !ok {
		partOfNoKind(r, v, what)
		return
	}
	p := NewPart(kind)
	p.Pos = r.KeyPos(v)
	if kind.UserPorts() {
		mistypedPart(r, v, what, "ports")
	}
	if names, ok := v.In("ports"); ok && kind.UserPorts() {
		readUserPorts(r, v, names, p) // before the places of the ports
	}
	p.KeyPos = field.ReadTable(r, v, what, ReadFields(kind), p)
	checkPart(r, v, p)
	enterPart(r, v, p)
}

// mistypedPart tells mistyped keys on which all else of a part hangs, and has them read.
func mistypedPart(r *field.Reader, v located.Value, what string, keys ...string) {
	for _, key := range v.Keys() {
		if r.Many() || slices.Contains(everyKey(), key) {
			continue
		}
		c, _ := v.In(key)
		if meant, ok := quantity.Nearest(key, keys); ok && v.TakenAs(key, meant) {
			r.UnknownKey(c, what, keys)
		}
	}
}

// everyKey are the keys a part of any kind may have.
var everyKey = sync.OnceValue(func() []string {
	out := slices.Concat(field.KeysOf(PartFields), field.KeysOf(MorePartFields))
	for _, k := range graph.Kinds() {
		out = append(out, field.KeysOf(KindFields[k])...)
	}
	return out
})

// readKind reads the kind of a part; false where it is not known.
func readKind(r *field.Reader, v located.Value) (graph.Kind, bool) {
	c, ok := v.In("kind")
	if !ok {
		return "", false
	}
	s, ok := r.Text(c, `a kind such as "pump"`)
	if !ok {
		return "", false
	}
	var words []string
	for _, k := range graph.Kinds() {
		if string(k) == s {
			return k, true
		}
		words = append(words, string(k))
	}
	hint := located.Near(s, words)
	if k, ok := kindCalled[strings.ToLower(s)]; ok {
		hint = "did you mean " + located.Said(string(k)) + "?"
	}
	r.Fail(c, hint, "there is no kind of part %s", located.Said(s))
	return "", false
}

// kindCalled are kinds of parts by what the trade calls them as well and no letters would tell.
var kindCalled = map[string]graph.Kind{
	"spa": graph.Tub, "hot tub": graph.Tub, "hot-tub": graph.Tub, "pool": graph.Tub, "plunge pool": graph.Tub, "swim spa": graph.Tub,
	"jets": graph.JetGroup, "jet": graph.JetGroup, "nozzles": graph.JetGroup, "cartridge": graph.Filter,
	"heater": graph.ElementHeater, "element": graph.ElementHeater, "boiler": graph.HeatExchanger, "exchanger": graph.HeatExchanger, "chiller": graph.HeatPump,
	"ozonator": graph.OzoneInjector, "ozonizer": graph.OzoneInjector, "ozone": graph.OzoneInjector, "venturi": graph.OzoneInjector, "uv": graph.UVChamber, "uv-lamp": graph.UVChamber, "uv lamp": graph.UVChamber,
	"chlorinator": graph.Feeder, "doser": graph.Feeder, "electrolyser": graph.SaltCell,
	"non-return valve": graph.CheckValve, "non-return-valve": graph.CheckValve, "nrv": graph.CheckValve, "stop-valve": graph.BallValve, "isolator": graph.BallValve, "slice-valve": graph.GateValve,
	"drain": graph.DrainValve, "drain-off": graph.DrainValve, "vent": graph.AirBleed, "bleed": graph.AirBleed, "hose-tail": graph.Barb,
}

// partOfNoKind remembers the id of a part whose kind is not known, so that the runs that
// name it are not reported as well.
func partOfNoKind(r *field.Reader, v located.Value, what string) {
	if _, ok := v.In("kind"); !ok {
		r.Missing(v, what, "kind", `what it is, such as kind = "pump"`)
	}
	p := &graph.Part{Pos: r.KeyPos(v)}
	if c, ok := v.In("id"); ok {
		p.ID, _ = r.Text(c, `a name of your own, such as "pump"`)
	} else {
		r.Missing(v, what, "id", `a name of your own, such as id = "pump"`)
	}
	enterPart(r, v, p)
}

// enterPart takes a part into the circuit, unless its id is no good.
func enterPart(r *field.Reader, v located.Value, p *graph.Part) {
	c, _ := v.In("id")
	r.Note(p, "id", c)
	if p.ID == "" {
		if s, ok := c.V.(string); ok && s == "" {
			r.Fail(c, `write a name of your own, such as "pump"`, "a part's id is empty")
		}
		return
	}
	if !goodID(r, c, p.ID) {
		return
	}
	if first, ok := r.Parts[p.ID]; ok {
		r.Twice = append(r.Twice, len(r.Found))
		d := r.Fail(c, "give each part an id of its own", "the id %s is used twice", located.Said(p.ID))
		located.Related(d, r.IDPos(first, first.Pos), "it is used here first")
		return
	}
	if first, ok := r.Looks[located.Look(p.ID)]; ok {
		located.Related(r.Fail(c, sameLook, "the id %s looks the same as another part's, and is not", located.Said(p.ID)), r.IDPos(first, first.Pos), "the other is here")
	} else {
		r.Looks[located.Look(p.ID)] = p
	}
	r.Parts[p.ID] = p
	r.Circuit.Parts = append(r.Circuit.Parts, p)
}

// sameLook is the hint where two ids look the same.
const sameLook = "give one of them another id, wherever it is named: in one an accent is part of its letter, in the other a character of its own"

// longestID is how many characters an id may have.
const longestID = 80

// goodID reports whether an id can be used: "part.port" and "from>to" are made from it.
func goodID(r *field.Reader, v located.Value, id string) bool {
	switch {
	case strings.TrimSpace(id) == "":
		r.Fail(v, `write a name of your own, such as "pump"`, "the id is blank")
	case strings.ContainsAny(id, ".>\n\t\r"):
		r.Fail(v, `use letters, digits and "-"`, `an id can't hold ".", ">" or a line end: %s`, located.Said(id))
	case len([]rune(id)) > longestID:
		r.Fail(v, "an id stands on drawings and lists: keep it short", "the id is %d characters long; at most %d are read", len([]rune(id)), longestID)
	default:
		return true
	}
	return false
}

// foreignKeys returns fields for the keys that other kinds have, to say so.
func foreignKeys(k graph.Kind) []field.Field[graph.Part] {
	own := field.KeysOf(FieldsOf(k))
	var out []field.Field[graph.Part]
	for _, other := range graph.Kinds() {
		for _, f := range KindFields[other] {
			if slices.Contains(own, f.Key) || slices.ContainsFunc(out, func(o field.Field[graph.Part]) bool { return o.Key == f.Key }) {
				continue
			}
			out = append(out, field.Field[graph.Part]{Key: f.Key, Foreign: true, Read: func(r *field.Reader, v located.Value, into *graph.Part) {
				hint := "that belongs to " + graph.A(strings.Join(kindsWith(f.Key), ", "))
				switch {
				case k == graph.DiverterValve && v.Key == "position":
					hint = `a diverter says how far each of its outlets is open: ways = { NAME = "100 %", OTHER = "0 %" }`
				case v.Key == "ports-size":
					hint = `how large its ports are is said of each: port.in.size = "2 in", port.out.size = "2 in"`
				}
				r.Add(r.KeyPos(v), hint, "%s has no %s", graph.A(into.Kind), located.Said(v.Key))
			}})
		}
	}
	return out
}

// ReadFields are the fields by which a part of a kind is read; none of a kind there is not. They are
// put together when the first part of the kind is read: of all kinds it takes a millisecond, which
// every command would pay for.
func ReadFields(k graph.Kind) []field.Field[graph.Part] {
	if fields := readFields[k]; fields != nil {
		return fields()
	}
	return nil
}

var readFields = func() map[graph.Kind]func() []field.Field[graph.Part] {
	out := map[graph.Kind]func() []field.Field[graph.Part]{}
	for _, k := range graph.Kinds() {
		out[k] = sync.OnceValue(func() []field.Field[graph.Part] { return slices.Concat(FieldsOf(k), foreignKeys(k)) })
	}
	return out
}()

func kindsWith(key string) []string {
	var out []string
	for _, k := range graph.Kinds() {
		if slices.Contains(field.KeysOf(KindFields[k]), key) {
			out = append(out, string(k))
		}
	}
	return out
}

// checkPart looks at what the keys of a part say together.
func checkPart(r *field.Reader, v located.Value, p *graph.Part) {
	if e, ok := v.In("existing"); ok && p.Kind == graph.Tub && e.V == false {
		p.Existing = true
		r.Fail(e, "leave the key out", "a tub is always existing")
	}
	if c, ok := v.In("removed"); ok && p.Removed {
		switch {
		case p.Kind == graph.Tub:
			p.Removed = false // what hangs on it stays
			r.Fail(c, "leave the key out", "a tub can't be removed")
		case !p.Existing:
			r.Fail(c, "write existing = true as well", "%s is removed but was never there", located.Said(p.ID))
		}
	}
	contradictions(r, p)
	typeInCatalog(r, v, p)
	if p.Spec != "" {
		r.SizeInCatalog(v, p.Spec, p.Size)
	}
	if p.Pump != nil {
		plateWatts(r, p)
		powerAgrees(r, p)
		checkLabel(r, p)
	}
	if p.Unit != nil {
		sizesAgree(r, p)
		checkUnit(r, v, p.Unit)
	}
	dropAgrees(r, v, p)
}

// fewRows is of how many rows a hint lists all.
const fewRows = 20

// typeInCatalog looks the type up and takes a pump's speeds from its row.
func typeInCatalog(r *field.Reader, v located.Value, p *graph.Part) {
	c, ok := v.In("type")
	if !ok || p.Type == "" {
		return
	}
	row, ok := r.Catalog.Row(p.Type)
	switch {
	case !ok:
		hint := r.NearAmong(p.Type, func() []string { return rowNames(r, p.Kind) })
		if hint == "" {
			hint = fmt.Sprintf("add a row with [[catalog.%s]]", p.Kind)
		}
		if first, _, _ := strings.Cut(p.Type, "-"); !strings.HasPrefix(hint, "did you mean \""+first) {
			if names := rowNames(r, p.Kind); strings.HasPrefix(hint, "did you") && len(names) <= fewRows {
				hint += " " + located.ThereAre(names) // what is near is of another thing
			}
			if p.Pump != nil {
				hint += "; or leave type out: a curve, or the power on its label, says what a pump is"
			}
		}
		r.Fail(c, hint, "the catalogue has no row %s", located.Said(p.Type))
	case row.Kind != string(p.Kind):
		r.Fail(c, fmt.Sprintf("dryfit catalog list prints the rows of %s", graph.A(p.Kind)), "the catalogue row %s is %s, not %s", located.Said(p.Type), graph.A(row.Kind), graph.A(p.Kind))
	case p.Pump != nil && len(p.Pump.Speeds) == 0:
		p.Pump.Speeds, p.Pump.TypeSaid = graph.SpeedsOf(row), true
	}
}

// rowNames returns the names of the catalogue's rows for a kind of part.
func rowNames(r *field.Reader, k graph.Kind) []string {
	var names []string
	for row := range r.Catalog.All() {
		if row.Kind == string(k) {
			names = append(names, row.Name)
		}
	}
	return names
}

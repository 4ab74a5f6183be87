package settle

import (
	"iter"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/hydraulic/formula"
)

// waterID is what the water is called in a Key.
const waterID = "water"

// Values walks every settled value: the water's, the parts' and the runs', in the order of
// the circuit. Of a loss and a pump's speeds the words say the form. Values nothing gave are
// left out.
func (s *Stage) Values() iter.Seq2[Key, Value] {
	return func(yield func(Key, Value) bool) {
		if !s.waterValues(yield) {
			return
		}
		for _, p := range s.Parts {
			if !p.values(s.sizedToPump(p), s.onePipe(p), s.Water.Density.V, yield) {
				return
			}
		}
		for _, r := range s.Runs {
			if !r.values(yield) {
				return
			}
		}
	}
}

// Names returns what Values has values of: the water, parts and runs.
func (s *Stage) Names() []string {
	out := []string{waterID}
	for _, p := range s.Circuit.Parts {
		out = append(out, p.ID)
	}
	for _, r := range s.Circuit.Runs {
		out = append(out, r.ID)
	}
	return out
}

// named is a value by what it is.
type named struct {
	what string
	v    Value
}

// walk hands on the values that are known. What is given by no key of its own, as of a part
// the tool built in, is given where the part stands.
func walk(of string, pos graph.Pos, yield func(Key, Value) bool, list []named) bool {
	for _, n := range list {
		if n.v.How == Given && !n.v.Pos.IsValid() && n.v.Why == "" {
			n.v.Pos = pos
		}
		if n.v.Known && !yield(Key{of, n.what}, n.v) {
			return false
		}
	}
	return true
}

func words(text string, from Origin) Value {
	return Value{Text: text, Dim: Words, Known: text != "", Origin: from}
}

func (s *Stage) waterValues(yield func(Key, Value) bool) bool {
	return walk(waterID, s.Circuit.Water.Pos, yield, []named{
		{"volume", s.Water.Volume}, {"temperature", s.Water.TemperatureC}, {"density", s.Water.Density}, {"viscosity", s.Water.Viscosity},
	})
}

// onePipe reports whether the spec and size of a part are those of all its ports: it is made for
// one pipe, says them itself, or its runs are all of one.
func (s *Stage) onePipe(p *Part) bool {
	if Fitted(p.Kind) {
		return true
	}
	for _, i := range s.runsOf(p.ID) {
		r := s.Circuit.Runs[i]
		if p.Part.Spec == "" && r.Spec != p.Spec.V || p.Part.Size.IsZero() && r.Size != p.Size.V {
			return false
		}
	}
	return true
}

// values walks a part's values; toPump: what it costs hangs on its pump's best flow; onePipe: its
// spec and size are those of all its ports; density is the water's, kg/m³.
func (p *Part) values(toPump, onePipe bool, density float64, yield func(Key, Value) bool) bool {
	costs := p.Loss
	costs.ToPump = toPump
	loss := words(costs.Words().String(), costs.Origin)
	loss.Spread = costs.Spread
	if toPump && costs.Jets != nil {
		loss.Span = rowSpan(&costs.Row)
	}
	if !p.Loss.Known() {
		loss.Known = false
	}
	loss.Form = &costs
	row := p.Row
	if row.How == Assumed { // what is taken from it says so itself
		row = Pick[catalog.Row]{}
	}
	spec, size := words(string(p.Spec.V), p.Spec.Origin), words(p.Size.V.String(), p.Size.Origin)
	spec.Known, size.Known = spec.Known && (onePipe || p.Spec.How != Derived), size.Known && (onePipe || p.Size.How != Derived)
	list := []named{
		{"row", words(row.V.Name, row.Origin)},
		{"style", words(p.Style.V, p.Style.Origin)},
		{"spec", spec},
		{"size", size},
		{"branch size", words(p.Branch.V.String(), p.Branch.Origin)},
		{"length", p.Length}, {"take-off", p.TakeOff}, {"branch take-off", p.BranchTakeOff}, {"socket depth", p.Socket},
		{"body", p.Body.words()},
		{"bore", p.Bore}, {"branch bore", p.BranchBore},
		{"position", p.Position}, {"Kv", p.Kv},
		{"loss", loss}, {"exponent", p.Loss.Exponent},
	}
	if p.Kind == graph.Pump {
		list = append(list, p.speedValues(density)...)
		list = append(list, p.suctionValue(density)...)
	}
	list = append(list,
		named{"cracking pressure", p.Cracking}, named{"dirty factor", p.Dirty}, named{"power", p.Power}, named{"air", p.Air},
		named{"least flow", p.Least}, named{"rated flow", p.Rated}, named{"most flow", p.Most},
		named{"voltage", p.Voltage}, named{"full-load current", p.FullLoad}, named{"starting current", p.Starting}, named{"fuse", p.Fuse},
		named{"least air", p.LeastAir}, named{"highest water", p.MostWater},
		named{"highest pressure", p.Highest}, named{"highest pressure, warm", p.Derated},
		named{"depth below water", p.Below})
	return walk(p.ID, p.Pos, yield, list)
}

// suctionValue is the most suction head the pump's sheet asks for (NPSH), at whatever flow; none where it is not
// given.
func (p *Part) suctionValue(density float64) []named {
	if p.Pump == nil || len(p.Pump.NPSH) == 0 {
		return nil
	}
	most := 0.0
	for _, at := range p.Pump.NPSH {
		most = max(most, at.Head.Head(density))
	}
	return []named{{"suction head needed", number(most, quantity.Head, given(firstPos(p.KeyPos, "npsh", "npsh")))}}
}

// speedValues are the shut-off head and the power of each speed. What is off is the head of
// the whole pump.
func (p *Part) speedValues(density float64) []named {
	var out []named
	spread := p.headSpread()
	for i, s := range p.Speeds.V {
		if off, ok := p.ShutOffAt(i, density); ok && len(s.Curve) > 0 {
			name, v := "shut-off head", number(off.HeadM, quantity.Head, p.Speeds.Origin)
			if off.Extrapolated {
				name += ", extrapolated,"
			}
			if !s.Curve[0].Head.IsHead {
				v.V, v.Dim = off.HeadM*density*formula.Gravity, quantity.Pressure
			}
			v.Spread = spread
			if t := p.taken; t != nil {
				v.Origin = t.by
				v.Low, v.High = (1+v.Low)/t.heads[i]-1, (1+v.High)/t.heads[i]-1
			}
			out = append(out, named{name + " at " + s.Name, v})
		}
		if s.Ratio > 0 {
			out = append(out, named{"speed ratio at " + s.Name, number(s.Ratio, Bare, p.Speeds.Origin)})
		}
		if s.Efficiency > 0 {
			out = append(out, named{"efficiency at " + s.Name, number(s.Efficiency, Bare, given(firstPos(p.KeyPos, "efficiency", "speeds")))})
		}
		out = append(out, named{"power at " + s.Name, p.Powers[i]})
	}
	return out
}

func (r *Run) values(yield func(Key, Value) bool) bool {
	list := []named{
		{"spec", words(string(r.Spec), runOrigin(r.Run, "spec"))},
		{"size", words(r.Size.String(), runOrigin(r.Run, "size"))},
		{"bore", r.Bore}, {"roughness", r.Rough}, {"outside diameter", r.Outside},
		{"rating", r.Rating}, {"rating, warm", r.Derated}, {"length", r.Length},
	}
	for k := range r.Ends {
		for i := range r.Ends[k].Adaptors {
			a := &r.Ends[k].Adaptors[i]
			name := a.Kind
			if a.Row.Name != "" {
				name = a.Row.Name
			}
			list = append(list, named{a.Kind + " at " + r.Ends[k].Ref.String(),
				words(name, ofKeys(Key{r.Ends[k].Ref.Part, "size"}, Key{r.ID, "size"}))})
		}
	}
	return walk(r.ID, r.Pos, yield, list)
}

// runOrigin is where a run has its spec or size from: itself, or [pipe].
func runOrigin(r *graph.Run, key string) Origin {
	if pos, ok := r.KeyPos[key]; ok {
		return given(pos)
	}
	return Origin{How: Given, Why: "[pipe]"}
}

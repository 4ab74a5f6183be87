package graph

import (
	"math"
	"slices"

	"dryfit/catalog/quantity"
)

// Fit is what the case as described is taken to be by what was read on the tub: itself, where it comes to
// that; else the values of what may be off that do. It is found once, before anything is solved
// (graph/hydraulic/spread), and goes with the circuit; nothing of it is written into the description.
type Fit struct {
	Read   []Met
	Values []Fitted // nil: the case as described stays
	Unfit  bool     // as described it comes to what was not read, and nothing that may be off comes near
}

// Met is one number that was read, flow or pressure, and what it comes to.
type Met struct {
	Reading
	Off         float64 // how far off it was taken to be either way: a share of a flow, Pa of a pressure
	AsDescribed float64 // what it comes to as described; m³/s, Pa
	Taken       float64 // what it comes to in the case that is taken
	Unanswered  bool    // its mode has no answer as it stands today: nothing is held against it
	Alone       bool    // of an Unfit one: something that may be off comes near it, were it alone
	Against     []int   // of an Unfit one: the others in Read with which it can't both be so, though each can
}

// Pressed reports whether it is a pressure.
func (r *Met) Pressed() bool { return r.PressureSet }

// Value is what was read, m³/s or Pa.
func (r *Met) Value() float64 {
	if r.Pressed() {
		return r.Pressure
	}
	return r.Flow
}

// Amount is a value of what was read, as it is said.
func (r *Met) Amount(v float64) quantity.Amount {
	if r.Pressed() {
		return quantity.Pressure.Of(v)
	}
	return quantity.Flow.Of(v)
}

// Beyond reports whether as described it comes to what was not read: farther off than the reading may be.
func (r *Met) Beyond() bool {
	return !r.Unanswered && math.Abs(r.AsDescribed-r.Value()) > r.OffBy()
}

// OffBy is how far off it was taken to be either way, m³/s or Pa.
func (r *Met) OffBy() float64 {
	if r.Pressed() {
		return r.Off
	}
	return r.Off * r.Flow
}

// Fitted is one number that may be off as it is taken, by what it is called among them.
type Fitted struct {
	What, Part string        // Part is "" of what is off together
	Value      float64       // a factor on what is described, or what is added to it
	Share      float64       // of the way from what is described to what is taken, in all that was read: what it alone makes
	Settles    quantity.Text // what would settle it
	Does       []Effect
}

// Effect is what a number as it is taken does to a part: factors on its loss, of a pump on its head, and of a
// pump on its flow and on its speed where that is known by its ratio. It holds where the number is called
// otherwise, for its part is described by other keys.
type Effect struct {
	Part              string
	Loss, Flow, Speed float64
}

// Changes reports whether the case that is taken is another than the one described.
func (f *Fit) Changes() bool { return f != nil && len(f.Values) > 0 }

// Value is what a number that may be off is taken as; false: as described.
func (f *Fit) Value(what, part string) (float64, bool) {
	if f != nil {
		for i := range f.Values {
			if v := &f.Values[i]; v.What == what && v.Part == part {
				return v.Value, true
			}
		}
	}
	return 0, false
}

// Effects are those on a part.
func (f *Fit) Effects(part string) (out []Effect) {
	if f == nil {
		return nil
	}
	for i := range f.Values {
		for _, e := range f.Values[i].Does {
			if e.Part == part {
				out = append(out, e)
			}
		}
	}
	return out
}

// Without is the fit of a circuit in which another part stands in the place of one: what was read says
// nothing of that.
func (f *Fit) Without(part string) *Fit {
	of := func(v Fitted) bool { return v.Part == part }
	if f == nil || !slices.ContainsFunc(f.Values, of) {
		return f
	}
	out := *f
	out.Values = slices.DeleteFunc(slices.Clone(f.Values), of)
	return &out
}

// By is where what it was fitted to was read.
func (f *Fit) By() (out []Pos) {
	for i := range f.Read {
		if m := &f.Read[i]; !m.Unanswered && (i == 0 || f.Read[i-1].Pos != m.Pos) {
			out = append(out, m.Pos)
		}
	}
	return out
}

package spread

// Moved is a flow that what may be off moves.
type Moved int

// The flows.
const (
	UnitsFlow Moved = iota // what most unknowns move
	JetsFlow               // where the unit has no water
	PumpsFlow              // where there is no unit with water, and no jets
)

// String names the flow: "the unit's flow".
func (m Moved) String() string { return m.Of("") }

// Of names the flow, that of a unit by the unit's name; "" where there is only the one.
func (m Moved) Of(unit string) string {
	switch {
	case m == JetsFlow:
		return "the jets' flow"
	case m == PumpsFlow:
		return "the pump's flow"
	case unit != "":
		return "the flow of " + unit
	}
	return "the unit's flow"
}

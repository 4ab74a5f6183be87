package graph

// Knowledge says how well a value is known; the catalogue says which spread goes with each.
type Knowledge int

// The grades of knowledge, from the least to the most.
const (
	Assumed   Knowledge = iota // a guess, or a catalogue default
	DataSheet                  // from the maker's sheet or the part's label
	Measured                   // measured on this tub
)

// String returns the word used in a description.
func (k Knowledge) String() string {
	switch k {
	case Measured:
		return "measured"
	case DataSheet:
		return "data-sheet"
	default:
		return "assumed"
	}
}

// Reading is what somebody read on the tub as it stands today, in one mode: a flow by a display, a
// meter clamped on or a bucket and a watch, or a pressure by a gauge. Flow or Pressure
// is given, or both.
type Reading struct {
	At       string  // id of a part or a run, with a port behind a dot where it is of that
	Part     string  // id of the part; "" where At is a run
	Port     string  // "" where At names none
	Run      string  // id of the run; "" where At is a part
	Mode     string  // name
	Flow     float64 // m³/s; 0: not read
	Pressure float64 // Pa by the gauge, where the part or port is, below 0 where it sucks; PressureSet
	Off      float64 // how far off it may be either way, nine in ten, as a share; 0: nobody said
	OffPa    float64 // the same in Pa, of a pressure; 0: nobody said
	Pos      Pos

	PressureSet bool // a pressure was read: before a pump a gauge may well stand at 0
}

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

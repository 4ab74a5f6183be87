package rule

import "slices"

// Word is a name in brackets behind a finding that is no rule's: what kind of finding it marks.
type Word struct{ Name, Says string }

// Words are those there are, by name.
var Words = []Word{
	{"accept", "An [[accept]] of the file that takes no warning off: no promise in the mode it names, or none of that name."},
	{"assembly", "The order in which the new joints can be made, replayed piece by piece: where a piece can't be brought in, because pipe, a part or a wall stands in its way by then, it is an error."},
	{"bypass-advice", "What flow --advise has to say where there is no bypass to compare others with."},
	{"catalog", "A row of the catalogue that is built in, which lacks what its kind needs or contradicts itself: dryfit catalog check alone says it. Of a row of yours that is told as reading."},
	{"clash", "Two bodies take the same room: pipe through pipe, through a part or through a wall of the cabinet. An error for new work; of what stands already a note, for the tape was a little off."},
	{"cut", "What stands against a place for the cut, or what must be measured before it can be judged; cutin lists them."},
	{"cut-on-site", "The last pieces to the unit have no length yet: its place or its pipes are not given, so they are cut where they meet."},
	{"flow", "What solving the water came to: a mode without an answer (an error), a pump past the end of its curve, a check that stands near to lifting, water that stands."},
	{"guess", "A value that was guessed and moves the unit's flow by much: read or measure it first. The share of the range it makes is worked out by solving again over what is not known."},
	{"hand-room", "Room for a spanner, a handle, a saw or a brush at a joint of the new work, too little of it. A warning; the sizes are in the catalogue (dryfit catalog list hand-room)."},
	{"internal", "A mistake of dryfit's own. The file is not to blame: keep it, so that the mistake can be found."},
	{"promise", "Something the work is to hold (least flow, most flow, a pressure) that is likely and not sure while what was guessed may be off: a warning with the share of cases in which it holds. [[accept]] takes it off with a reason."},
	{"reading", "The file could not be read at that place: what is wrong stands in the line, what would be right behind hint."},
	{"readings", "What was read on the tub as it stands and does not fit what the file describes: the reading is wrong, or something in the file is. The ranges go by what was read, where that fits anything the file leaves open."},
	{"retrofit", "What [retrofit] asks for can't be built, or was built otherwise than asked; the reason stands with it."},
	{"routing", "Where pipe was led: legs that don't meet their ports, a bend that no elbow makes, a leg too short for the fittings at its ends, a place that is taken for something because nobody measured it."},
	{"stages", "The circuit before the work can't be told from the file, so nothing is compared with today."},
	{"stock", "A piece longer than any bar there is, or bars that don't suffice."},
	{"tolerance", "How far a closed loop of new pipe may be off when all its parts are off a little, and which piece is cut last, to measure, so that it closes."},
	{"weather", "The climate of the file gives no year that can be worked out."},
}

// WordByName returns a word; nil where there is none of that name.
func WordByName(name string) *Word {
	i := slices.IndexFunc(Words, func(w Word) bool { return w.Name == name })
	if i < 0 {
		return nil
	}
	return &Words[i]
}

package catalog

import "dryfit/catalog/quantity"

// How far what the user says of a fitting may lie from the row of the catalogue for that pipe, before he is
// asked about it: makers differ by a half, a long pattern by twice, a wrong unit or decimal point by ten times.
// Of a length from stop to stop, next to nothing in a coupling, only what is too long tells. Common practice,
// no source.
const (
	farFromUsual = 4   // times as much, or as little
	muchLonger   = 150 // mm, that a length besides is more
)

// checkUsual holds what a row of the user's says of its lengths against the catalogue's of that kind, pipe and
// size; of what the catalogue has none of nothing is said.
func checkUsual(r Row, say sayFunc, hint func(string)) {
	usual, ok := Embedded().Row(r.Name)
	if !ok && !r.Size.IsZero() && r.Size2.IsZero() {
		usual, ok = Embedded().Fitting(r.Kind, r.Spec, r.Size)
	}
	if !ok || usual.Kind != r.Kind {
		return
	}
	for _, c := range []struct {
		key          string
		says, usual  float64
		least, above float64 // the share of the usual below which it is asked; the mm above
	}{
		{"take-off", r.TakeOffMM, usual.TakeOffMM, 1. / farFromUsual, 0},
		{"branch-take-off", r.BranchTakeOffMM, usual.BranchTakeOffMM, 1. / farFromUsual, 0},
		{"socket", r.SocketMM, usual.SocketMM, 1. / farFromUsual, 0},
		{"length", r.LengthMM, usual.LengthMM, 0, muchLonger},
	} {
		if !r.Owns(c.key) || c.usual <= 0 || c.says <= 0 {
			continue
		}
		if c.says > farFromUsual*c.usual && c.says > c.usual+c.above || c.says < c.least*c.usual {
			say(c.key, "%s is %s, where %s has %s", c.key, quantity.Length.Finely(c.says), usual.Name, quantity.Length.Finely(c.usual))
			hint("is the unit right, and the decimal point? it is from the centre or the stop of one socket to the stop of the other: measure the part again")
		}
	}
}

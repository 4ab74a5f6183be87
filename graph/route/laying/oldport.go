package laying

import (
	"math"
	"strconv"

	"dryfit/catalog/quantity"
	"dryfit/graph"
)

// portMend is the place of a port that would close its loop if one of its numbers were another, or
// went the other way; false where it takes more than that, or where no description gives the place.
func portMend(w *web, t *tie, by graph.Vec) (oldMend, bool) {
	if t.part == nil || t.part.New() {
		return oldMend{}, false
	}
	port := t.part.Port(w.ports[t.to].Port)
	if port == nil || port.At == nil {
		return oldMend{}, false
	}
	now := tidied(port.At.Add(by))
	changed := tidied(now.Sub(*port.At)).Components()
	was, is := port.At.Components(), now.Components()
	if len(changed) != 1 || len(was) != len(is) {
		return oldMend{}, false
	}
	m := oldMend{
		pos: port.Pos, port: true,
		what: graph.Say("the place of %q, at = %s", w.ports[t.to].String(), placeList(was)), now: placeList(is),
	}
	for k := range was {
		if math.Abs(was[k].By-is[k].By) > 0.5 || was[k].Word != is[k].Word {
			turned := was[k].Word != is[k].Word
			if turned && math.Abs(was[k].By-is[k].By) > tapeMM {
				return oldMend{}, false // longer and another way: two slips in one
			}
			m.likely = turned || penSlip(was[k].By, is[k].By)
		}
	}
	return m, true
}

// placeList writes a place as a description does: ["right 350 mm", "down 420 mm"].
func placeList(of []graph.Component) quantity.Text {
	var out []quantity.Text
	for _, c := range of {
		out = append(out, graph.Say("\"%s %s\"", c.Word, quantity.Closely(c.By)))
	}
	return graph.Say("[%s]", quantity.Join(out, ", "))
}

// penSlip reports whether a length, mm, is another with a digit left out, one too many or two
// neighbours exchanged, in whole mm or whole inches; a last digit left out, or a nought too many, by
// what the tape is off by too.
func penSlip(was, is float64) bool {
	for _, grain := range []float64{1, 25.4} {
		a, okA := digits(was, grain)
		b, okB := digits(is, grain)
		if okA && okB && (lacksDigit(a, b) || lacksDigit(b, a) || swapped(a, b)) {
			return true
		}
	}
	less, more := min(was, is), max(was, is)
	return more > 10*less-tapeMM && more < 10*(less+1)+tapeMM
}

// digits are those of a length in whole grains; false where it is none.
func digits(mm, grain float64) (string, bool) {
	n := math.Round(mm / grain)
	return strconv.Itoa(int(n)), math.Abs(n*grain-mm) <= 0.5*grain/25.4
}

// lacksDigit reports whether a number is the other without one of its digits.
func lacksDigit(short, long string) bool {
	for i := range long {
		if long[:i]+long[i+1:] == short {
			return true
		}
	}
	return false
}

// swapped reports whether a number is the other with two neighbouring digits exchanged.
func swapped(a, b string) bool {
	if len(a) != len(b) {
		return false
	}
	for i := 0; i+1 < len(a); i++ {
		if a[i] != a[i+1] && a[:i]+a[i+1:i+2]+a[i:i+1]+a[i+2:] == b {
			return true
		}
	}
	return false
}

// measure is what is to be measured again, as the end of a sentence has it.
func (m *oldMend) measure() quantity.Text {
	if m.port {
		return "where it stands"
	}
	return "that leg"
}

// eachOf names what some mends have in common.
func eachOf(mends []oldMend) quantity.Text {
	legs, ports := 0, 0
	for i := range mends {
		if mends[i].port {
			ports++
		} else {
			legs++
		}
	}
	switch {
	case ports == 0:
		return "leg"
	case legs == 0:
		return "place"
	}
	return "leg or place"
}

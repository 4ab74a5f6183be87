package practice

import (
	"strings"
	"testing"

	"dryfit/catalog/quantity"
)

// Of several elements each is said to be what it is: the kept ones under their own interlocks, the
// disconnected ones as disconnected, the open ones as not settled. All were named in the sentence of
// the first. Common practice, no source.
func TestEachElementIsToldAsItsOwn(t *testing.T) {
	say := func(plugIn bool, list ...Element) string {
		for i := range list {
			list[i].ID = []string{"E1", "E2"}[i]
		}
		j := &Job{Unit: &Unit{ID: "HP1", LeastAir: Temp{-7, true}}, Elements: list, Water: 38, PlugIn: plugIn, To: []string{"V1"}, From: []string{"V2"}, SiteAir: Temp{-5, true}}
		return strings.Join(Texts(append(Pick(j, SetPoints()), Pick(j, LayUp())...), quantity.MetricSystem), "\n")
	}
	contact, changeover, off, open := Element{PowerW: 2000, Interlock: "contact"}, Element{PowerW: 3000, Interlock: "changeover"}, Element{PowerW: 3000, Disconnected: true}, Element{PowerW: 3000}
	low := Element{PowerW: 2000, Interlock: "set-point", SetPoint: Temp{34, true}}
	isContact, isChangeover := "stays in use: a contact of the unit", "stays in use: a changeover feeds"
	for _, x := range []struct {
		said string
		want []string
		not  []string
	}{
		{say(false, contact), []string{"Element E1 (2 kW) " + isContact, "electrician wires it, tries it", "the element heats only after", "It is put back"}, []string{"proves it dead, takes the leads off"}},
		{say(false, contact, off), []string{"Element E1 (2 kW) " + isContact, "Element E2 (3 kW): a qualified electrician isolates the tub"}, []string{"and element E2", "Element E2 (3 kW) stays", "Element E1 (2 kW):"}},
		{say(true, contact, off), []string{"Element E2 (3 kW): a qualified electrician isolates"}, []string{"keypad"}},
		{say(true, off, off), []string{"Element E1 (3 kW) and element E2 (3 kW) heat no more: their heating"}, nil},
		{say(false, off, contact), []string{"Element E2 (2 kW) " + isContact}, []string{"Element E1 (3 kW) and", "Element E1 (3 kW) stays"}},
		{say(false, contact, changeover), []string{"Element E1 (2 kW) " + isContact, "Element E2 (3 kW) " + isChangeover, "goes to the element in air below -7 °C", "electrician wires each, tries it", "element E1 heats only after the electrician", "; element E2 heats only after the changeover", "Each is put back"}, []string{"and element E2"}},
		{say(false, low, changeover), []string{"those of E1 and E2 (each its controller's own) 2 to 3 K below", "; E1 is set to 34 °C, as described"}, []string{"the element's (the controller's own)", "E2 is set"}},
		{say(false, low), []string{"the element's (the controller's own) 2 to 3 K below", "; it is set to 34 °C, as described"}, nil},
		{say(false, changeover, changeover), []string{"Element E2 (3 kW) " + isChangeover, "each of the elements heats only after the changeover"}, nil},
		{say(false, contact, open), []string{"Element E1 (2 kW) " + isContact, "NOT SETTLED: what becomes of element E2 (3 kW)."}, []string{"and element E2", "becomes of element E1"}},
	} {
		for _, want := range x.want {
			if !strings.Contains(x.said, want) {
				t.Errorf("nothing of %q in %s", want, x.said)
			}
		}
		for _, not := range x.not {
			if strings.Contains(x.said, not) {
				t.Errorf("%q in %s", not, x.said)
			}
		}
	}
}

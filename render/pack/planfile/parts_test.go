package planfile

import (
	"slices"
	"testing"
)

// Another spring is another part to buy, and the earlier one isn't; what was there already is not told.
func TestPartsThatHaveChanged(t *testing.T) {
	of := func(items string) *Earlier {
		return &Earlier{file: planFile{Parts: []byte(`{"items":[` + items + `]}`)}}
	}
	elbow := func(n string) string { return `{"item":"elbow 90","quantity":` + n + `,"unit":"pc","new":true},` }
	old := `{"item":"pump","quantity":1,"unit":"pc","new":false}`
	before := of(elbow("4") + `{"item":"spring check, opens at 2 psi","quantity":1,"unit":"pc","new":true},` + old)
	after := of(elbow("5") + `{"item":"spring check, opens at 1 psi","quantity":1,"unit":"pc","new":true}`)
	want := []string{"To be bought: elbow 90, 5 pc, were 4 pc.", "To be bought now: spring check, opens at 1 psi (1 pc).", "No longer bought: spring check, opens at 2 psi."}
	if got := changedParts(before, after); !slices.Equal(got, want) {
		t.Errorf("%q\nwant %q", got, want)
	}
	if got := changedParts(before, before); len(got) != 0 {
		t.Errorf("the same parts: %q", got)
	}
	if got := changedParts(&Earlier{}, after); len(got) != 0 {
		t.Errorf("a pack without a parts list: %q", got)
	}
}

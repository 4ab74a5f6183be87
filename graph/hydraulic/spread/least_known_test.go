package spread

import (
	"strings"
	"testing"

	"dryfit/catalog/tables"
	"dryfit/graph/hydraulic"
)

// What is off together is as sure as the least known of it, wherever in the file that stands: a hose whose
// length was measured says nothing of the bore of the others. Source: the rows of spreads.csv, by their words.
func TestAClassIsAsSureAsItsLeastKnown(t *testing.T) {
	runs := []string{"tub.a pump.in", "pump.out tee.run-in", "tee.run-out backs.in", "tee.branch feet.in", "backs.out tub.b", "feet.out tub.c"}
	bores := func(measured int) tables.Span {
		text := banksText
		for i, way := range runs {
			from, to, _ := strings.Cut(way, " ")
			text += "[[run]]\nfrom = \"" + from + "\"\nto = \"" + to + "\"\nlength = \"1 m\"\nspec = \"hose\"\nsize = \"38 mm\"\nexisting = true\n"
			if i == measured || measured < 0 {
				text += "known = \"measured\"\n"
			}
		}
		for _, u := range unknowns([]*hydraulic.Model{modelOf(t, text)}) {
			if u.what == "the bore of old hose pipe" {
				return u.span
			}
		}
		t.Fatal("the bore of old hose is not among what may be off")
		return tables.Span{}
	}
	guessed := tables.Spread(tables.SpreadHoseBore, "assumed")
	measured := tables.Spread(tables.SpreadHoseBore, "measured")
	for i := range runs {
		if got := bores(i); got != guessed {
			t.Errorf("run %d of %d measured: the bore of all is off by %+v, want %+v", i+1, len(runs), got, guessed)
		}
	}
	if got := bores(-1); got != measured {
		t.Errorf("all measured: %+v, want %+v", got, measured)
	}
}

// And it is nobody's guess only where it is that at no run: of a bore that is measured at one and guessed at the others
// it is a guess, whichever stands first.
func TestAClassIsAGuessWhereOneIs(t *testing.T) {
	for measured := range 3 {
		text := banksText
		for i, way := range []string{"tub.a pump.in", "pump.out tee.run-in", "tee.run-out backs.in", "tee.branch feet.in", "backs.out tub.b", "feet.out tub.c"} {
			from, to, _ := strings.Cut(way, " ")
			known := "assumed"
			if i == measured {
				known = "measured"
			}
			text += "[[run]]\nfrom = \"" + from + "\"\nto = \"" + to + "\"\nlength = \"1 m\"\nspec = \"hose\"\nsize = \"38 mm\"\nbore = \"38 mm\"\nexisting = true\nknown = \"" + known + "\"\n"
		}
		told := false
		for _, u := range unknowns([]*hydraulic.Model{modelOf(t, text)}) {
			if strings.HasPrefix(u.what, "the bore written of ") {
				told = true
				if !u.used.guess {
					t.Errorf("run %d measured: %s is no guess", measured+1, u.what)
				}
			}
		}
		if !told {
			t.Fatal("the bore that is written is not among what may be off")
		}
	}
}

package spread

import (
	"strings"
	"testing"

	"dryfit/catalog/tables"
	"dryfit/graph/agree"
	"dryfit/graph/hydraulic"
)

// hosesOf is a circuit of six hoses of 38 mm, each with what else is said of it.
func hosesOf(said func(i int) string) string {
	text := banksText
	for i, way := range []string{"tub.a pump.in", "pump.out tee.run-in", "tee.run-out backs.in", "tee.branch feet.in", "backs.out tub.b", "feet.out tub.c"} {
		from, to, _ := strings.Cut(way, " ")
		text += "[[run]]\nfrom = \"" + from + "\"\nto = \"" + to + "\"\nlength = \"1 m\"\nspec = \"hose\"\nsize = \"38 mm\"\nexisting = true\n" + said(i)
	}
	return text
}

// spanOf returns how far the unknown that is called so may be off.
func spanOf(t *testing.T, text, begins string) tables.Span {
	t.Helper()
	for _, u := range unknowns([]*hydraulic.Model{modelOf(t, text)}) {
		if strings.HasPrefix(u.what, begins) {
			return u.span
		}
	}
	t.Fatalf("%q is not among what may be off", begins)
	return tables.Span{}
}

// What is off together is as sure as the least known of it, wherever in the file that stands: a bore that was
// measured of one hose makes what was guessed of the others no surer. Source: the rows of spreads.csv, in mm.
func TestAClassIsAsSureAsItsLeastKnown(t *testing.T) {
	want := func(known string) float64 {
		s := tables.Spread(tables.SpreadBoreWritten, known)
		return s.High / 38
	}
	written := func(measured int) float64 {
		return spanOf(t, hosesOf(func(i int) string {
			if i == measured || measured < 0 {
				return "bore = \"38 mm\"\nknown = \"measured\"\n"
			}
			return "bore = \"38 mm\"\nknown = \"assumed\"\n"
		}), "the bore written of ").High
	}
	for i := range 6 {
		if got := written(i); !agree.Within(got, want("assumed"), 1e-12) {
			t.Errorf("run %d measured: the bore of all is off by %g, want %g", i+1, got, want("assumed"))
		}
	}
	if got := written(-1); !agree.Within(got, want("measured"), 1e-12) {
		t.Errorf("all measured: %g, want %g", got, want("measured"))
	}
}

// A tape along a run tells nothing of what it is like inside: where no bore and no roughness is written, they
// are as little known as of a run that was guessed.
func TestATapeTellsALengthOnly(t *testing.T) {
	for _, what := range []string{"the bore of old hose", "the ribs of old hose"} {
		taped := spanOf(t, hosesOf(func(int) string { return "known = \"measured\"\n" }), what)
		guessed := spanOf(t, hosesOf(func(int) string { return "" }), what)
		if taped != guessed {
			t.Errorf("%s: %+v where every run was taped, %+v where none was", what, taped, guessed)
		}
	}
}

// And it is nobody's guess only where it is that at no run: of a bore that is measured at one and guessed at the others
// it is a guess, whichever stands first.
func TestAClassIsAGuessWhereOneIs(t *testing.T) {
	for measured := range 3 {
		text := hosesOf(func(i int) string {
			if i == measured {
				return "bore = \"38 mm\"\nknown = \"measured\"\n"
			}
			return "bore = \"38 mm\"\nknown = \"assumed\"\n"
		})
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

package plan

import (
	"slices"
	"strings"
	"testing"

	"dryfit/graph"
)

// Where nobody says how the unit stands, what is glued to its tees can be cut and glued at once,
// and all pipe past that waits for the unit (common practice, no source).
func TestAllButTheTeesWaitsForTheUnit(t *testing.T) {
	p := planOf(t, standing(t, func(source string) string {
		source, _, _ = strings.Cut(source, "at = [\"front 540 mm\"")
		return strings.ReplaceAll(source, "port.out = { at = [\"up 220 mm\"] }\n", "")
	}))
	branch, _ := p.After.Layout.Stage.Branch()
	tees := func(r *graph.Run) bool {
		return slices.ContainsFunc([]string{r.From.Part, r.To.Part}, func(id string) bool {
			return id == branch.TeeIn.ID || id == branch.TeeOut.ID
		})
	}
	atTees := 0
	for _, piece := range p.After.Layout.Pieces {
		own := slices.Contains(branch.ToUnitRuns, piece.Run) || slices.Contains(branch.FromUnitRuns, piece.Run)
		if own && tees(piece.Run) {
			atTees++
		}
		if want := own && !tees(piece.Run); piece.OnSite != want {
			t.Errorf("piece %d from %s to %s waits for the unit: %v, want %v", piece.Number, piece.Run.From, piece.Run.To, piece.OnSite, want)
		}
	}
	if atTees < 2 {
		t.Errorf("%d pieces at the two tees: both want one", atTees)
	}
}

// What is written already is not asked for: a unit that says how far its ports are apart is only asked
// where it stands.
func TestWhatIsWrittenIsNotAskedFor(t *testing.T) {
	const apart = "port.out = { at = [\"up 220 mm\"] }\n"
	for _, written := range []bool{true, false} {
		p := planOf(t, standing(t, func(source string) string {
			source, _, _ = strings.Cut(source, "at = [\"front 540 mm\"")
			if !written {
				source = strings.ReplaceAll(source, apart, "")
			}
			return source
		}))
		i := slices.IndexFunc(p.Findings, func(d graph.Diagnostic) bool { return d.Rule == "cut-on-site" })
		if i < 0 {
			t.Fatalf("port.out.at written: %v: no piece waits for the unit", written)
		}
		hint := string(p.Findings[i].Hint)
		if asks := strings.Contains(hint, "port.out.at"); asks == written || !strings.Contains(hint, "where it stands") {
			t.Errorf("port.out.at written: %v: %s", written, hint)
		}
	}
}

package plan_test

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/lots"
	"dryfit/graph/route/laying"
)

var (
	otherLength = regexp.MustCompile(`^leg (\d+) of (\S+) (?:left|right|up|down|back|front) ([\d.]+) mm instead of [\d.]+ mm$`)
	longerLeg   = regexp.MustCompile(`^leg (\d+) of (\S+) at least ([\d.]+) mm longer$`)
	notHere     = regexp.MustCompile(`( \([^)]*\)|: so the loop closes too)+$`)
)

// Work that was drawn closes and goes together. One leg of it written wrong, what is said of the pipe
// that is too short, or of the loop that does not close, is done as it stands there: after two rounds
// of it all is well again. A leg lengthened for its sockets opened the loop it is in before, and a
// loop was closed by the leg of a piece that then was too short. Nothing outside the project.
func TestDrawnLegsAreMended(t *testing.T) {
	followed, left := 0, 0
	for _, file := range []string{"../../testdata/two-speed.toml", "../../testdata/plunge-pool.toml", "testdata/jobs/swim-spa.toml"} {
		c := rewritten(t, planned(t, file)).Asked
		for i, r := range c.Runs {
			if !r.New() {
				continue
			}
			for k := range r.Legs {
				for _, mm := range []float64{-60, -25, 52} {
					if !lots.All() && (i+2*k+int(mm))%4 != 0 || r.Legs[k].LengthMM()+mm < 5 {
						continue
					}
					wrong := withLeg(c, r, k, r.Legs[k].LengthMM()+mm)
					n, words := mendDrawn(t, wrong)
					if n < 0 {
						left++
						continue
					}
					followed += n
					if words != "" {
						t.Errorf("%s: leg %d of %s %g mm longer, and after what is said was done: %s", file, k+1, r.Said(), mm, words)
					}
				}
			}
		}
	}
	t.Logf("%d followed, %d with nothing to follow", followed, left)
	if followed < 15 || left > followed/3 {
		t.Errorf("%d followed, in %d cases nobody can", followed, left)
	}
}

// mendDrawn does what the findings on the lengths of a circuit ask for, two rounds at most, and returns
// how much was followed and what is found then; below nothing where a hint asks for no length.
func mendDrawn(t *testing.T, c *graph.Circuit) (followed int, found string) {
	t.Helper()
	for round := range 3 {
		var wrong *graph.Diagnostic
		for _, d := range graph.SortDiagnostics(laying.Of(c.At(graph.After)).Findings) {
			if d.Severity == graph.Error && d.Rule == "routing" {
				wrong = &d
				break
			}
		}
		if wrong == nil {
			return followed, ""
		}
		if round == 2 {
			return followed, wrong.Message.In(0)
		}
		hint, ok := strings.CutPrefix(notHere.ReplaceAllString(wrong.Hint.In(0), ""), "make ")
		if !ok || strings.Contains(hint, "none other of the new work") {
			return -1, ""
		}
		hint = strings.ReplaceAll(strings.ReplaceAll(hint, ", and with it, or the loop does not close, ", ", and "), ", and make ", ", and ")
		for _, one := range strings.Split(hint, ", and ") {
			m, add := otherLength.FindStringSubmatch(one), false
			if m == nil {
				m, add = longerLeg.FindStringSubmatch(one), true
			}
			if m == nil {
				t.Fatalf("nobody can follow %q", one)
			}
			leg, _ := strconv.Atoi(m[1])
			mm, _ := strconv.ParseFloat(m[3], 64)
			at := slices.IndexFunc(c.Runs, func(r *graph.Run) bool { return r.ID == m[2] })
			if add {
				mm += c.Runs[at].Legs[leg-1].LengthMM()
			}
			c = withLeg(c, c.Runs[at], leg-1, mm)
			followed++
		}
	}
	return followed, ""
}

// withLeg is a circuit with one leg (from 0) of a run as long as that.
func withLeg(c *graph.Circuit, run *graph.Run, leg int, mm float64) *graph.Circuit {
	out := *c
	out.Runs = slices.Clone(c.Runs)
	own := *run
	own.Legs = slices.Clone(run.Legs)
	own.Legs[leg].By = own.Legs[leg].By.Unit().Scale(mm)
	out.Runs[slices.Index(c.Runs, run)] = &own
	return &out
}

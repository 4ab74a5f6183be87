package twin

import (
	"math"
	"slices"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/hydraulic/spread"
	"dryfit/graph/lots"
	"dryfit/graph/route/laying"
)

// TestFirstAdviceNarrowsMost takes the reading that is named first of what is to be measured, and each of the
// other parts and runs named, one at a time: the part in the description becomes what it is, as measured.
// Named first is what narrows the range of the unit's flow most, or next to most, in four of five tubs: a
// range by its logarithm, in the mode it is named for. Once it is known the range is the narrower, and holds the
// truth as often.
func TestFirstAdviceNarrowsMost(t *testing.T) {
	var all, blind advised
	for wi, w := range []*world{workshop, bench, office} {
		for fi, f := range w.families {
			for i := range lots.Count(3, 1) {
				all.hear(t, newTub(w, f, labels, careful, uint64(8_000_000+10_000*wi+100*fi+i)))
			}
		}
	}
	for wi, who := range []surveyor{depotCareful, depotHurried} {
		for fi, f := range depot.families {
			for i := range max(*twins, lots.Count(6, 1)) {
				blind.hear(t, newTub(depot, f, levels[i%2], who, uint64(8_500_000+10_000*wi+100*fi+i)))
			}
		}
	}
	all.judge(t, "of the first makers'")
	blind.judge(t, "of the depot's")
}

// advised counts tubs by the rank of what is named first, and those that hold the truth once that is known.
type advised struct{ tubs, first, two, once, held int }

func (a *advised) hear(t *testing.T, u *tub) {
	t.Helper()
	truth, ok := u.solve(t)
	if !ok {
		return
	}
	rank, of, held := u.rankOfFirst(t, truth)
	if of == 0 {
		return
	}
	if a.once++; held {
		a.held++
	}
	if of < 3 { // nothing to choose from
		return
	}
	a.tubs++
	if rank == 0 {
		a.first++
	}
	if rank < 2 {
		a.two++
	}
}

func (a *advised) judge(t *testing.T, whose string) {
	t.Helper()
	t.Logf("%s %d tubs the first advice narrows most in %d, is one of the two best in %d; of %d that took it %d hold the truth", whose, a.tubs, a.first, a.two, a.once, a.held)
	if least := 0.8*float64(a.tubs) - 2*math.Sqrt(0.16*float64(a.tubs)); !(float64(a.two) >= least) {
		t.Errorf("%s %d tubs the first advice is one of the two best in %d, want %.0f", whose, a.tubs, a.two, least)
	}
	if least := 0.85*float64(a.once) - 2*math.Sqrt(0.85*0.15*float64(a.once)); !(float64(a.held) >= least) {
		t.Errorf("%s %d tubs that took the first advice %d hold the truth, want %.0f", whose, a.once, a.held, least)
	}
}

// rankOfFirst returns how many of the first five parts and runs named narrow the unit's flow more than the
// first does, by a fiftieth of it and more, of how many, and whether the unit's flow lies in its range once what is
// named first is known.
func (u *tub) rankOfFirst(t *testing.T, truth answers) (rank, of int, held bool) {
	t.Helper()
	r, _ := u.ranges(t)
	var ids []string
	mode := ""
	for i := range r.MeasureFirst {
		m := &r.MeasureFirst[i]
		if m.Part == "" || slices.Contains(ids, m.Part) || len(ids) == 5 {
			continue
		}
		if len(ids) == 0 {
			mode = m.Mode
		}
		ids = append(ids, m.Part)
	}
	var left []float64
	for _, id := range ids {
		c := read(t, u.revealed(id))
		n := spread.Coarse(laying.Of(c.At(graph.Before)), laying.Of(c.At(graph.After)), "unit", lots.Count(128, 64))
		low, _, high := valueOf(n.Of(mode, graph.After), c.At(graph.After), "unit")
		flow := 3600 * truth[mode]["unit"]
		held = held || len(left) == 0 && low-1e-6 <= flow && flow <= high+1e-6
		left = append(left, math.Log(high/max(low, 1e-3)))
	}
	for i := 1; i < len(left); i++ {
		if left[i] < left[0]-0.02*left[0] {
			rank++
		}
	}
	return rank, len(left), held
}

// revealed is the survey with a part as it is, or a run as long as it is, known as measured.
func (u *tub) revealed(id string) string {
	block := func(text string) (at, end int) {
		i := strings.Index(text, "\nid = \""+id+"\"\n")
		at = strings.LastIndex(text[:i+1], "\n[[")
		end = len(text)
		if j := strings.Index(text[i:], "\n[["); j >= 0 {
			end = i + j
		}
		return at, end
	}
	is, survey := u.is.String(), u.survey.String()
	a, b := block(is)
	c, d := block(survey)
	if strings.HasPrefix(survey[c:], "\n[[run]]") {
		line := func(text string) string {
			i := strings.Index(text, "length = ")
			return text[i : i+strings.Index(text[i:], "\n")]
		}
		run := strings.Replace(survey[c:d], line(survey[c:d]), line(is[a:b]), 1)
		return survey[:c] + strings.Replace(run, "known = \"measured\"\n", "", 1) + "\nknown = \"measured\"\n" + survey[d:]
	}
	return survey[:c] + is[a:b] + "\nknown = \"measured\"\n" + survey[d:]
}

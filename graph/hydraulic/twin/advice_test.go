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
// range by its logarithm, in the mode it is named for.
func TestFirstAdviceNarrowsMost(t *testing.T) {
	tubs, first, two := 0, 0, 0
	for wi, w := range []*world{workshop, bench, office} {
		for fi, f := range w.families {
			for i := range lots.Count(3, 1) {
				u := newTub(w, f, labels, careful, uint64(8_000_000+10_000*wi+100*fi+i))
				if _, ok := u.solve(t); !ok {
					continue
				}
				rank, of := u.rankOfFirst(t)
				if of < 3 { // nothing to choose from
					continue
				}
				tubs++
				if rank == 0 {
					first++
				}
				if rank < 2 {
					two++
				}
			}
		}
	}
	t.Logf("of %d tubs the first advice narrows most in %d, is one of the two best in %d", tubs, first, two)
	if least := 0.8*float64(tubs) - 2*math.Sqrt(0.16*float64(tubs)); float64(two) < least {
		t.Errorf("of %d tubs the first advice is one of the two best in %d, want %.0f", tubs, two, least)
	}
}

// rankOfFirst returns how many of the first five parts and runs named narrow the unit's flow more than the
// first does, by a fiftieth of it and more, and of how many.
func (u *tub) rankOfFirst(t *testing.T) (rank, of int) {
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
		n := spread.Coarse(laying.Of(c.At(graph.Before)), laying.Of(c.At(graph.After)), "unit", 128)
		low, _, high := valueOf(n.Of(mode, graph.After), c.At(graph.After), "unit")
		left = append(left, math.Log(high/max(low, 1e-3)))
	}
	for i := 1; i < len(left); i++ {
		if left[i] < left[0]-0.02*left[0] {
			rank++
		}
	}
	return rank, len(left)
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

package whatif

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/plan/search"
)

// CutID is the control that moves the cut along the old pipe. Its value is CutValue's.
const CutID = "cut"

// CutValue says a place of the cut: a leg of a run, counted from 1, and how far along it the
// first cut line is, mm.
func CutValue(run string, leg int, atMM float64) string {
	return fmt.Sprintf("%d %s %s", leg, quantity.Trim(quantity.Round(atMM, 1)), run)
}

// cut reads a value back, and refuses one that lies in none of the legs.
func (c *Control) cut(value string) (*graph.Cut, error) {
	leg, rest, _ := strings.Cut(value, " ")
	at, run, _ := strings.Cut(rest, " ")
	n, err1 := strconv.Atoi(leg)
	mm, err2 := strconv.ParseFloat(at, 64)
	if err1 != nil || err2 != nil || math.IsNaN(mm) {
		return nil, fmt.Errorf("%s can't be %q", c.Label, value)
	}
	for i := range c.Legs {
		if place := &c.Legs[i]; place.Run == run && place.Leg == n {
			if mm < 0 || mm > place.LegMM() {
				return nil, fmt.Errorf("%s can be 0 to %s mm along %s", c.Label, quantity.Trim(quantity.Round(place.LegMM(), 1)), place.Where())
			}
			return &graph.Cut{Run: run, Leg: n, AtMM: mm}, nil
		}
	}
	return nil, fmt.Errorf("%s can't be in leg %d of %q", c.Label, n, run)
}

// cut is where the old pipe is cut.
func (m *maker) cut() {
	legs := m.study.Plan.Straights()
	if len(legs) == 0 {
		return
	}
	c := Control{ID: CutID, Group: groupCut, Label: "The cut", InFile: true, Legs: legs}
	if cut := m.asked.Retrofit.Cut; cut != nil {
		c.stands = cut
	}
	retro, _ := m.top.In("retrofit")
	said, _ := retro.In("cut")
	_, table := said.V.(map[string]any)
	c.edits = func(value string) ([]edit, error) {
		cut, err := c.cut(value)
		if err != nil {
			return nil, err
		}
		if !table {
			return []edit{ofTop(description.CutText(cut), "retrofit", "cut")}, nil
		}
		return []edit{
			ofTop(description.QuoteText(cut.Run), "retrofit", "cut", "run"),
			ofTop(strconv.Itoa(cut.Leg), "retrofit", "cut", "leg"),
			ofTop(description.QuantityText(cut.AtMM, quantity.Length), "retrofit", "cut", "at"),
		}, nil
	}
	m.add(c)
}

// Cut returns what was found of the place of the cut in an answer: asked for, or chosen by the
// tool; ok is false where there is none. It has a verdict only where the cut was moved.
func (a *Answer) Cut() (v search.Verdict, ok bool) {
	switch p := a.Fit; {
	case p == nil:
	case len(p.Places) > 0 && p.Places[0].Place.Leg > 0:
		return p.Places[0], true
	case p.Proposal != nil && p.Proposal.Place.Leg > 0:
		return search.Verdict{Place: p.Proposal.Place}, true
	}
	return v, false
}

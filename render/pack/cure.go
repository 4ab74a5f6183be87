package pack

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/catalog/tables"
	"dryfit/graph/plan"
	"dryfit/render/table/form"
)

// cureAir are the temperatures of the air cure times are printed for, °C.
var cureAir = []float64{5, 10, 15, 25}

// Cure where the tables or the tin say less, and where it is colder. Source: common
// practice, no source.
const (
	leastCure     = 24 * time.Hour
	leastColdCure = 48 * time.Hour
	coldAir       = 15 // °C
)

// cementSizes lists the sizes that are cemented, the largest first.
func cementSizes(p *plan.Plan) []catalog.Size {
	var out []catalog.Size
	if p.After == nil || p.After.Layout == nil {
		return nil
	}
	for _, j := range p.After.Layout.Joints {
		if (j.Kind == "cement" || j.Kind == "slip") && !j.Size.IsZero() && !slices.Contains(out, j.Size) {
			out = append(out, j.Size)
		}
	}
	slices.SortStableFunc(out, func(a, b catalog.Size) int {
		switch wa, wb := a.NominalMM(), b.NominalMM(); {
		case wa > wb:
			return -1
		case wa < wb:
			return 1
		}
		return 0
	})
	return out
}

// cureBlocks prints how long the cement wants, by size and temperature of the air.
func cureBlocks(p *plan.Plan, units quantity.System) []form.Block {
	sizes := cementSizes(p)
	if len(sizes) == 0 {
		return nil
	}
	g := &form.Grid{Header: []string{"size", "air", "before it is moved", "before water and power"}}
	var sources []string
	for _, size := range sizes {
		for _, air := range cureAir {
			c, ok := tables.CureTimes(size, air)
			if !ok {
				continue
			}
			g.Rows = append(g.Rows, []string{size.String(), quantity.Temperature.About(air).In(units), hours(c.Handling), hours(cureAt(sizes, air))})
			for _, s := range strings.Split(c.Source, "; ") {
				if !slices.Contains(sources, s) {
					sources = append(sources, s)
				}
			}
		}
	}
	lines := []string{"The whole work waits for its slowest joint. The time on the cement's tin is the authority; where it says longer, in damp weather above all, it counts. Never cement below " + quantity.Temperature.About(leastAir).In(units) + " or on wet pipe."}
	if len(sources) > 0 {
		lines = append(lines, "Sources: "+strings.Join(sources, "; "))
	}
	return []form.Block{{Title: "How long the cement wants", Grid: g, Lines: lines}}
}

// cureAt is the cure the whole work waits for at a temperature of the air: that of the
// slowest size, and never less than the trade's own rule.
func cureAt(sizes []catalog.Size, air float64) time.Duration {
	longest := leastCure
	if air < coldAir {
		longest = leastColdCure
	}
	for _, s := range sizes {
		if c, ok := tables.CureTimes(s, air); ok {
			longest = max(longest, c.To11Bar)
		}
	}
	return longest
}

// hours words a duration.
func hours(d time.Duration) string {
	if d < 2*time.Hour && d%time.Hour != 0 {
		return fmt.Sprintf("%.0f min", d.Minutes())
	}
	return strings.TrimSuffix(fmt.Sprintf("%.1f", d.Hours()), ".0") + " h"
}

package pack

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/hydraulic/formula"
	"dryfit/graph/plan"
	"dryfit/graph/stream"
)

// Minutes one fitter takes, with everything that goes with it. Common practice, no source:
// the sum is good to about a third, and is printed so.
const (
	prepareMin  = 90 // lock off, prove dead, photograph, mark, empty, dry
	pieceMin    = 4  // measure, mark, cut, chamfer
	cementMin   = 5  // dry-fit, mark, prime, cement, hold, wipe
	otherMin    = 4  // union, barb or thread
	clipMin     = 45 // clips and insulation
	fillMin     = 60 // fill, bleed
	testMin     = 150
	leastAir    = 5 // °C, below which nothing is cemented
	workSpread  = 1.0 / 3
	minutesHour = 60
)

// chlorineHours is how long free chlorine takes to fall back from the dose after the work to
// what may be bathed in, h. Common practice, no source.
const chlorineHours = "some hours"

// about is a temperature that is a rule of thumb.
func about(c float64) quantity.Amount { return quantity.Temperature.About(c) }

// heatingUp adds what comes before bathing.
func heatingUp(p *plan.Plan, units quantity.System) string {
	c := p.After.Circuit
	if !heats(p.Net()) {
		return "Then " + chlorineHours + " for the chlorine to fall back, before anybody bathes."
	}
	if p.After.Layout.Stage.KeptCold() {
		return "Then the cooling down, and " + chlorineHours + " for the chlorine to fall back, before anybody bathes."
	}
	text := "Then the heating up, and " + chlorineHours + " for the chlorine to fall back, before anybody bathes"
	u := c.TheUnit()
	if u == nil || c.Water.VolumeM3 == 0 || p.Heat != nil {
		return text + "." // what heat reckons stands beside it
	}
	want := p.After.Layout.Stage.Water.TemperatureC.V
	tap := c.Site.TapC()
	energy := formula.Density(want) * formula.HeatCapacity(want) * c.Water.VolumeM3 * (want - tap) / 3.6e6 // kWh
	low, high := 0.0, 0.0
	for _, r := range p.After.Layout.Stage.Part(u.ID).Ratings.V {
		if r.OutputW > 0 {
			h := energy / (r.OutputW / 1000)
			if low == 0 || h < low {
				low = h
			}
			high = max(high, h)
		}
	}
	if high == 0 {
		return text + "."
	}
	return text + quantity.Say(": from %s to %s the unit takes at least %.0f to %.0f h by its ratings, cover on.", about(tap), about(want), math.Floor(low), math.Ceil(high)).In(units)
}

// heats reports whether anything is left that heats the job's water: a unit, an element, or another source's exchanger.
// What heats another tub of the cabinet is none of it.
func heats(net *stream.Net) bool {
	return slices.ContainsFunc(net.Circuit.Parts, func(p *graph.Part) bool {
		switch p.Kind {
		case graph.HeatPump, graph.ElementHeater, graph.HeatExchanger:
			return !net.Apart(p)
		}
		return false
	})
}

// tubDown estimates how long the tub is out of use; the first line alone answers.
func tubDown(p *plan.Plan, units quantity.System) []string {
	if joints(p) == 0 {
		return nil
	}
	cemented, other := 0, 0
	for _, j := range p.After.Layout.Joints {
		if j.Kind == "cement" || j.Kind == "slip" {
			cemented++
		} else {
			other++
		}
	}
	pieces := len(p.After.Layout.Pieces)
	work := prepareMin + pieceMin*pieces + cementMin*cemented + otherMin*other + clipMin
	after := fillMin + testMin
	var down []string
	for _, air := range []struct {
		temp float64
		says quantity.Text
	}{{coldAir, quantity.Say("%s and above", about(coldAir))}, {leastAir, quantity.Say("%s to %s", about(leastAir), about(coldAir))}} {
		cure := 0.0
		if cemented > 0 {
			cure = cureAt(cementSizes(p), air.temp).Hours()
		}
		low := cure + (1-workSpread)*float64(work+after)/minutesHour
		high := cure + (1+workSpread)*float64(work+after)/minutesHour
		down = append(down, fmt.Sprintf("%.0f to %.0f h in air of %s", math.Floor(low), math.Ceil(high), air.says.In(units)))
		if cemented == 0 {
			break
		}
	}
	until := "heating may start"
	switch {
	case !heats(p.Net()):
		until = "it runs again"
	case p.After.Layout.Stage.KeptCold():
		until = "cooling may start"
	}
	lines := []string{"From power off until " + until + ": " + strings.Join(down, ", ") + ". " + heatingUp(p, units)}
	lines = append(lines, fmt.Sprintf("One fitter's work of about %.0f h (%s, %s, %s, and getting ready; give or take a third), the cure of the cement, then about %.1f h to fill, bleed and test.",
		float64(work)/minutesHour, number(pieces, "piece", "pieces"), number(cemented, "cemented joint", "cemented joints"), number(other, "other joint", "other joints"), float64(after)/minutesHour))
	if bench := daysBefore(p.Assembly); bench > 0 {
		lines = append(lines, fmt.Sprintf("%s can be made on the bench, days before: the tub is down for the less.", number(bench, "joint", "joints")))
	}
	return append(lines, "Times are common practice, no source; the cement's tin decides.")
}

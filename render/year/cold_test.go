package year

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph/agree"
	"dryfit/graph/heat/job"
	"dryfit/render/scene"
)

// airs are those of a tub that loses 20 W for each kelvin below 38 °C, and of a unit that gives
// 200 W more for each kelvin of air and stands below -10 °C.
func airs(elementW float64) []job.AtAir {
	var out []job.AtAir
	for c := -14.0; c <= 20; c++ {
		a := job.AtAir{AirC: c, Hours: 10, Colder: int(c+14) * 10, LosesW: 20 * (38 - c), OpenW: 3000, ElementW: elementW}
		if c >= -10 {
			a.GivesW = 4000 + 200*(c+10)
		}
		out = append(out, a)
	}
	return out
}

// of returns the points of the line with a name.
func of(items []scene.Item, name string) []scene.Point {
	var out []scene.Point
	for _, it := range items {
		if s, ok := it.(scene.Shape); ok && s.Name == name {
			for _, p := range s.Paths {
				out = append(out, p.Start)
				for _, g := range p.Segments {
					out = append(out, g.To)
				}
			}
		}
	}
	return out
}

// The lines stand where the axis says: the unit's rises upright at its least air and gives 10 kW
// at 20 °C; the loss is 20 W for each kelvin.
func TestColdMeasuresWhatItSays(t *testing.T) {
	pages := Cold(ColdInput{Airs: airs(0), DesignC: -6, WaterC: 38, HoldsC: -10, HoldsSet: true, Climate: true})
	if len(pages) != 1 {
		t.Fatalf("%d pages", len(pages))
	}
	ticks := map[string]scene.Point{}
	for _, it := range pages[0].Items {
		if x, ok := it.(scene.Text); ok {
			if _, had := ticks[x.Text]; !had {
				ticks[x.Text] = x.At
			}
		}
	}
	perKW := (ticks["0"].Y - ticks["10"].Y) / 10
	perK := (ticks["10 °C"].X - ticks["0 °C"].X) / 10
	if !(perKW > 0) || !(perK > 0) {
		t.Fatalf("no axes: %v", ticks)
	}
	kW := func(p scene.Point) float64 { return (ticks["0"].Y - p.Y) / perKW }
	air := func(p scene.Point) float64 { return (p.X - ticks["0 °C"].X) / perK }
	gives := of(pages[0].Items, "gives")
	if first, second, last := gives[0], gives[1], gives[len(gives)-1]; !agree.Within(air(first), -10, 0.01) || !agree.Within(air(second), -10, 0.01) ||
		!agree.Within(kW(first), 0, 0.01) || !agree.Within(kW(second), 4, 0.01) || !agree.Within(kW(last), 10, 0.01) || !agree.Within(air(last), 20, 0.01) {
		t.Errorf("the unit's line goes from %.2f °C %.2f kW by %.2f kW to %.2f °C %.2f kW", air(first), kW(first), kW(second), air(last), kW(last))
	}
	for _, p := range of(pages[0].Items, "loses") {
		if want := 0.02 * (38 - air(p)); !agree.Within(kW(p), want, 0.01) {
			t.Errorf("the tub loses %.3f kW at %.1f °C, want %.3f", kW(p), air(p), want)
		}
	}
	if at := of(pages[0].Items, "design"); !agree.Within(air(at[0]), -6, 0.01) {
		t.Errorf("asked for at %.2f °C", air(at[0]))
	}
	bars := 0
	for _, it := range pages[0].Items {
		if s, ok := it.(scene.Shape); ok && s.Name == "hours" {
			bars++
		}
	}
	if bars != 35 {
		t.Errorf("%d bars, want one for each of 35 degrees", bars)
	}
}

// A unit that stops between two of the airs that are looked at, such as at 20 °F, rises there: its output
// of 4000 W at -10 °C and 200 W more a kelvin comes to 4000 + 200 * 0.667 = 4133 W at -9.333 °C.
func TestColdRisesWhereTheUnitStarts(t *testing.T) {
	list := airs(2000)
	for i := range list {
		if list[i].AirC < -9 {
			list[i].GivesW = 0
		}
	}
	items := Cold(ColdInput{Airs: list, DesignC: -100, WaterC: 38, StopsC: -9.333})[0].Items
	at := map[string]scene.Point{}
	for _, it := range items {
		if x, ok := it.(scene.Text); ok {
			at[x.Text] = x.At
		}
	}
	perK, perW := (at["20 °C"].X-at["0 °C"].X)/20, (at["0"].Y-at["10"].Y)/10000
	for tag, element := range map[string]float64{"gives": 0, "together": 2000} {
		pts := of(items, tag)
		k := slices.IndexFunc(pts, func(p scene.Point) bool { return agree.Within((p.X-at["0 °C"].X)/perK, -9.333, 0.01) })
		if k < 0 || k+1 == len(pts) || !agree.Within(pts[k+1].X, pts[k].X, 0.001) {
			t.Errorf("%s: nothing rises at -9.333 °C: %v", tag, pts)
			continue
		}
		if low, high := (at["0"].Y-pts[k].Y)/perW, (at["0"].Y-pts[k+1].Y)/perW; !agree.Within(low, element, 5) || !agree.Within(high, 4133+element, 5) {
			t.Errorf("%s rises from %.0f to %.0f W", tag, low, high)
		}
	}
}

// In inches the scale has round degrees of Fahrenheit at their places: 32 °F is 0 °C; a bar is as wide
// as it says.
func TestColdScaleInFahrenheit(t *testing.T) {
	at := map[quantity.System]map[string]float64{}
	for _, units := range []quantity.System{quantity.MetricSystem, quantity.InchSystem} {
		at[units] = map[string]float64{}
		for _, it := range Cold(ColdInput{Airs: airs(0), DesignC: -100, WaterC: 38, Climate: true, Units: units})[0].Items {
			if x, ok := it.(scene.Text); ok && strings.Contains(x.Text, " °") {
				at[units][x.Text] = x.At.X
			}
		}
	}
	c, f := at[quantity.MetricSystem], at[quantity.InchSystem]
	perK := (c["20 °C"] - c["0 °C"]) / 20
	for _, v := range []float64{10, 20, 30, 40, 50, 60} {
		name := fmt.Sprintf("%g °F", v)
		if want := c["0 °C"] + perK*(v-32)/1.8; !(perK > 0) || !agree.Within(f[name], want, 0.01) {
			t.Errorf("%s stands at %.2f, want %.2f", name, f[name], want)
		}
	}
	if _, ok := f["hours a year of such air, a bar for each 1.8 °F"]; !ok { // as wide as the 1 K of airs
		t.Errorf("what a bar is: %v", f)
	}
	if f["32 °F"] != 0 || f["14 °F"] != 0 {
		t.Errorf("degrees that are round in °C alone: %v", f)
	}
}

// Without a climate there are no hours; without an element no line of it; without a unit no sheet.
func TestColdShowsWhatThereIs(t *testing.T) {
	if Cold(ColdInput{}) != nil {
		t.Error("a sheet without a unit")
	}
	words := func(in ColdInput) string {
		var out []string
		for _, it := range Cold(in)[0].Items {
			if x, ok := it.(scene.Text); ok {
				out = append(out, x.Text)
				if x.SizeMM < 1.8 {
					t.Errorf("%q is %.1f mm high", x.Text, x.SizeMM)
				}
			}
		}
		return strings.Join(out, "; ")
	}
	plain := words(ColdInput{Airs: airs(0), DesignC: -6, WaterC: 38, HoldsC: -10, HoldsSet: true})
	if strings.Contains(plain, "hours") || strings.Contains(plain, "element") {
		t.Errorf("%s", plain)
	}
	few := airs(0)
	few[0].MayRun = 0.25
	if hours := words(ColdInput{Airs: few, DesignC: -6, WaterC: 38, HoldsC: 2, HoldsSet: true}); !strings.Contains(hours, "may run 25 % of the day") || strings.Contains(plain, "of the day") {
		t.Errorf("a unit of few hours: %q", hours)
	}
	if full := words(ColdInput{Airs: airs(2000), DesignC: -12, WaterC: 38, HoldsC: -10, HoldsSet: true, Climate: true, Colder: 40}); !strings.Contains(full, "with the element") || !strings.Contains(full, "only down to -10 °C") || !strings.Contains(full, "40 hours of the climate's year are") {
		t.Errorf("%s", full)
	}
}

// The air that is asked for is told as it is asked for, be it no whole degree Celsius, with what is so in it;
// the hours that are colder than the unit holds the tub in say than what. Follows from the words.
func TestColdSaysTheAirThatIsAskedFor(t *testing.T) {
	asked := job.AtAir{AirC: (25 - 32) / 1.8, LosesW: 500, GivesW: 5000}
	in := ColdInput{Airs: airs(0), DesignC: asked.AirC, Asked: &asked, WaterC: 38, HoldsC: -10, HoldsSet: true, Climate: true, Colder: 40, Units: quantity.InchSystem}
	got := strings.Join((&cold{in: in}).says(), "; ")
	for _, want := range []string{"in air of 25 °F it runs 10 % of the time", "40 hours of the climate's year are colder than 14 °F;"} {
		if !strings.Contains(got, want) {
			t.Errorf("%q is not in %q", want, got)
		}
	}
}

// The line of the air asked for passes no number of the scale, be it at one of them, and stands in both plots.
func TestAskedForCrossesNoNumber(t *testing.T) {
	items := Cold(ColdInput{Airs: airs(0), DesignC: -5, WaterC: 38, HoldsC: -10, HoldsSet: true, Climate: true})[0].Items
	var number *scene.Text
	lines := 0
	for _, it := range items {
		if text, ok := it.(scene.Text); ok && text.Text == "-5 °C" {
			number = &text
		}
	}
	if number == nil {
		t.Fatal("no number at -5 °C")
	}
	for _, it := range items {
		s, ok := it.(scene.Shape)
		if !ok || !strings.HasPrefix(s.Name, "design") {
			continue
		}
		lines++
		at := of(items, s.Name)
		low, high := min(at[0].Y, at[1].Y), max(at[0].Y, at[1].Y)
		if half := number.SizeMM / 2; low < number.At.Y+half && high > number.At.Y-half {
			t.Errorf("%s from %.1f to %.1f mm, the number at %.1f", s.Name, low, high, number.At.Y)
		}
	}
	if lines != 2 {
		t.Errorf("%d lines, want one in each plot", lines)
	}
}

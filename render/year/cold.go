package year

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/heat/job"
	"dryfit/render/scene"
	"dryfit/render/sheet"
)

// ColdInput is what the sheet of the airs is drawn from.
type ColdInput struct {
	Airs     []job.AtAir
	DesignC  float64    // coldest air that is asked for
	Asked    *job.AtAir // what is so in it; nil: nobody knows
	WaterC   float64
	HoldsC   float64 // coldest air in which the unit holds the tub; HoldsSet
	HoldsSet bool
	StopsC   float64 // coldest air the unit works in
	Guessed  bool    // HoldsC is where the unit is taken to stop, for nobody says it
	Climate  bool    // Hours of the airs are those of a year, and Colder those of it below HoldsC
	Colder   int
	Job      graph.Job
	Units    quantity.System
	Page     sheet.Page
}

// Cold returns the sheet that says whether the unit holds the tub: over the air what the tub
// loses and what the unit gives, and below how many hours of the year have such air. None where
// there is no unit.
func Cold(in ColdInput) []*scene.Scene {
	if len(in.Airs) < 2 {
		return nil
	}
	p := in.Page
	s := sheet.New(p.Format, p.Orientation, sheet.HeadOf(in.Job, "Does the unit hold the tub?"))
	c := &cold{in: in, element: slices.ContainsFunc(in.Airs, func(a job.AtAir) bool { return a.ElementW > 0 })}
	s.Notes(c.says()...)
	s.Legend(c.legend()...)
	a := s.Area()
	c.plot = scene.Box{MinX: a.MinX + 18, MinY: a.MinY + 8, MaxX: a.MaxX - 4, MaxY: a.MaxY - 12}
	if in.Climate {
		c.hours = c.plot
		c.plot.MaxY -= 0.3*c.plot.H() + 10
		c.hours.MinY = c.plot.MaxY + 12
	}
	s.Add(c.draw()...)
	return []*scene.Scene{s.Scene}
}

// cold is the sheet in the making.
type cold struct {
	in          ColdInput
	element     bool
	plot, hours scene.Box
	top         float64 // W at the top of the plot
}

// The lines of the plot.
var (
	givesStyle   = scene.Stroke(sheet.Thick)
	togetherLine = scene.Dashed(sheet.Thick, 4, 1.2)
	losesStyle   = scene.Dashed(sheet.Thin, 1.2, 0.9)
	openStyle    = scene.Dashed(sheet.Thin, 5, 1, 1, 1)
	markStyle    = scene.Style{StrokeMM: sheet.Fine, Grey: 0.35}
	gridStyle    = scene.Style{StrokeMM: sheet.Hair, Grey: 0.75}
)

// x is the place of an air.
func (c *cold) x(airC float64) float64 {
	first, last := c.in.Airs[0].AirC-0.5, c.in.Airs[len(c.in.Airs)-1].AirC+0.5
	return c.plot.MinX + (airC-first)/(last-first)*c.plot.W()
}

func (c *cold) y(w float64) float64 { return c.plot.MaxY - w/c.top*c.plot.H() }

func (c *cold) warm(v float64) string { return quantity.Format(v, quantity.Temperature, c.in.Units) }

// watts is the most that has to be on the plot: the tub with its cover off may lose more than
// anything gives, and is cut off at twice that.
func (c *cold) watts() (gives, all float64) {
	for _, a := range c.in.Airs {
		gives = math.Max(gives, a.GivesW+a.ElementW)
		all = math.Max(all, math.Max(a.LosesW+a.OpenW, a.GivesW+a.ElementW))
	}
	return gives, all
}

func (c *cold) draw() []scene.Item {
	gives, all := c.watts()
	most := math.Max(1000, math.Min(all, 2*gives))
	top, step := round(most / 1e3)
	c.top = top * 1e3
	var out []scene.Item
	text := func(x, y float64, words string, anchor scene.Anchor) {
		out = append(out, scene.Text{At: scene.Point{X: x, Y: y}, Text: words, SizeMM: em, Anchor: anchor, Middle: true})
	}
	for v := 0.0; v <= top+1e-9; v += step {
		y := c.y(v * 1e3)
		out = append(out, scene.Line(scene.Point{X: c.plot.MinX, Y: y}, scene.Point{X: c.plot.MaxX, Y: y}, gridStyle))
		text(c.plot.MinX-1.5, y, strconv.FormatFloat(v, 'f', -1, 64), scene.End)
	}
	text(c.plot.MinX-1.5, c.plot.MinY-4.5, "kW", scene.End)
	for _, airC := range c.ticks() {
		x := c.x(airC)
		out = append(out, scene.Line(scene.Point{X: x, Y: c.plot.MinY}, scene.Point{X: x, Y: c.plot.MaxY}, gridStyle))
		text(x, c.plot.MaxY+4, c.warm(airC), scene.Centre)
	}
	out = append(out, c.lines()...)
	out = append(out, scene.Polyline([]scene.Point{{X: c.plot.MinX, Y: c.plot.MinY}, {X: c.plot.MinX, Y: c.plot.MaxY}, {X: c.plot.MaxX, Y: c.plot.MaxY}}, scene.Stroke(sheet.Thin)))
	out = append(out, c.mark()...)
	if c.in.Climate {
		out = append(out, c.bars()...)
	}
	return out
}

// ticks are the airs of the scale, °C: every five degrees, or of Fahrenheit's every ten.
func (c *cold) ticks() []float64 {
	unit, step := "°C", 5.0
	if c.in.Units == quantity.InchSystem {
		unit, step = "°F", 10
	}
	firstC, lastC := c.in.Airs[0].AirC, c.in.Airs[len(c.in.Airs)-1].AirC
	first, last := quantity.In(firstC, quantity.Temperature, unit), quantity.In(lastC, quantity.Temperature, unit)
	var out []float64
	for v := step * math.Ceil(first/step-1e-9); v <= last+1e-9; v += step {
		out = append(out, firstC+(v-first)/(last-first)*(lastC-firstC))
	}
	return out
}

// lines draws what is lost and what is given; the unit's ends in an upright where it stands.
func (c *cold) lines() []scene.Item {
	var out []scene.Item
	add := func(st scene.Style, name string, of func(job.AtAir) float64) {
		var pts []scene.Point
		for i, a := range c.in.Airs {
			v := of(a)
			if v <= 0 && len(pts) == 0 {
				continue
			}
			if i > 0 && a.GivesW > 0 && c.in.Airs[i-1].GivesW <= 0 && (name == "gives" || name == "together") { // it starts at its least air, not by and by
				airC, w := c.starts(i, of)
				pts = append(pts, scene.Point{X: c.x(airC), Y: c.y(of(c.in.Airs[i-1]))}, scene.Point{X: c.x(airC), Y: c.y(w)})
			}
			pts = append(pts, scene.Point{X: c.x(a.AirC), Y: c.y(v)})
		}
		if len(pts) < 2 {
			return
		}
		for _, piece := range scene.Clip(scene.Polyline(pts, st), c.plot) {
			out = append(out, piece.Named(name))
		}
	}
	add(losesStyle, "loses", func(a job.AtAir) float64 { return math.Max(0, a.LosesW) })
	add(openStyle, "open", func(a job.AtAir) float64 { return math.Max(0, a.LosesW) + a.OpenW })
	if c.element {
		add(togetherLine, "together", func(a job.AtAir) float64 { return a.GivesW + a.ElementW })
	}
	add(givesStyle, "gives", func(a job.AtAir) float64 { return a.GivesW })
	return out
}

// starts is the air in which the unit begins to work, where the i-th is the first looked at in which it
// does, and what is given there: in a straight line from the next ones.
func (c *cold) starts(i int, of func(job.AtAir) float64) (airC, w float64) {
	a := c.in.Airs[i]
	airC, w = a.AirC, of(a)
	if c.in.StopsC <= c.in.Airs[i-1].AirC || c.in.StopsC >= airC || i+1 == len(c.in.Airs) {
		return airC, w
	}
	next := c.in.Airs[i+1]
	return c.in.StopsC, w - (airC-c.in.StopsC)*(of(next)-w)/(next.AirC-airC)
}

// mark draws an upright through the coldest air that is asked for, past the numbers of the scale; its words on the side that has
// room.
func (c *cold) mark() []scene.Item {
	if c.in.DesignC < c.in.Airs[0].AirC || c.in.DesignC > c.in.Airs[len(c.in.Airs)-1].AirC {
		return nil
	}
	x := c.x(c.in.DesignC)
	upright := func(top, bottom float64, name string) scene.Item {
		return scene.Line(scene.Point{X: x, Y: top}, scene.Point{X: x, Y: bottom}, markStyle).Named(name)
	}
	out := []scene.Item{
		upright(c.plot.MinY-2, c.plot.MaxY, "design"),
		scene.Text{At: scene.Point{X: x, Y: c.plot.MinY - 4.5}, Text: "asked for: " + c.warm(c.in.DesignC), SizeMM: em, Anchor: c.side(x), Middle: true},
	}
	if c.in.Climate { // between the two stand the numbers of the scale
		out = append(out, upright(c.hours.MinY, c.hours.MaxY, "design, hours"))
	}
	return out
}

// side keeps words at x within the sheet and off the unit of the axis.
func (c *cold) side(x float64) scene.Anchor {
	if x < c.plot.MinX+20 {
		return scene.Start
	}
	return scene.Centre
}

// bars draws the hours of the year with such air.
func (c *cold) bars() []scene.Item {
	most := 0
	for _, a := range c.in.Airs {
		most = max(most, a.Hours)
	}
	top, step := round(float64(max(most, 1)))
	y := func(h float64) float64 { return c.hours.MaxY - h/top*c.hours.H() }
	var out []scene.Item
	for v := 0.0; v <= top+1e-9; v += step {
		out = append(out, scene.Line(scene.Point{X: c.hours.MinX, Y: y(v)}, scene.Point{X: c.hours.MaxX, Y: y(v)}, gridStyle),
			scene.Text{At: scene.Point{X: c.hours.MinX - 1.5, Y: y(v)}, Text: strconv.FormatFloat(v, 'f', -1, 64), SizeMM: em, Anchor: scene.End, Middle: true})
	}
	out = append(out, scene.Text{At: scene.Point{X: c.hours.MinX - 1.5, Y: c.hours.MinY - 4}, Text: "hours", SizeMM: em, Anchor: scene.End, Middle: true})
	for _, a := range c.in.Airs {
		if a.Hours == 0 {
			continue
		}
		left, right := c.x(a.AirC-0.45), c.x(a.AirC+0.45)
		out = append(out, scene.Rect(left, y(float64(a.Hours)), right-left, c.hours.MaxY-y(float64(a.Hours)), scene.Style{StrokeMM: sheet.Hair, Fill: true, FillGrey: greyUnit}).Named("hours"))
	}
	return append(out, scene.Line(scene.Point{X: c.hours.MinX, Y: c.hours.MaxY}, scene.Point{X: c.hours.MaxX, Y: c.hours.MaxY}, scene.Stroke(sheet.Thin)))
}

// says puts the sheet into sentences.
func (c *cold) says() []string {
	in := c.in
	var out []string
	stops := ""
	if in.Guessed {
		stops = ", where it is taken to stop, for nobody says it"
	}
	switch {
	case in.HoldsSet && in.HoldsC <= in.DesignC && in.Asked != nil:
		out = append(out, fmt.Sprintf("the unit holds %s down to %s%s; in air of %s it runs %.0f %% of the time, cover on", c.warm(in.WaterC), c.warm(in.HoldsC), stops, c.warm(in.DesignC), 100*in.Asked.Share()))
	case in.HoldsSet:
		out = append(out, fmt.Sprintf("the unit holds %s only down to %s%s; asked for: %s", c.warm(in.WaterC), c.warm(in.HoldsC), stops, c.warm(in.DesignC)))
	default:
		out = append(out, fmt.Sprintf("the unit does not hold %s in any air", c.warm(in.WaterC)))
	}
	if len(in.Airs) > 0 {
		out = append(out, "left to heat: what the tub loses, less the pump's own heat")
	}
	if may := in.Airs[0].MayRun; may > 0 && may < 0.995 {
		out = append(out, fmt.Sprintf("the unit may run %.0f %% of the day: its line is what it gives while it does", 100*may))
	}
	if in.Climate && in.HoldsSet {
		hours := "no hour of the climate's year is"
		if in.Colder > 0 {
			hours = fmt.Sprintf("%d hours of the climate's year are", in.Colder)
		}
		out = append(out, hours+" colder than "+c.warm(in.HoldsC)+"; a typical year holds no extremes")
	}
	return append(out, "where the upper line lies above the unit's, the water cools while the cover is off and is warmed again after")
}

// legend names the lines.
func (c *cold) legend() []sheet.Entry {
	var out []sheet.Entry
	add := func(st scene.Style, words string) {
		out = append(out, sheet.Entry{Symbol: []scene.Item{scene.Line(scene.Point{X: -7}, scene.Point{X: 7}, st)}, W: 14, H: 1, Text: words})
	}
	add(givesStyle, "the unit gives")
	if c.element {
		add(togetherLine, "with the element")
	}
	add(losesStyle, "left to heat, cover on")
	add(openStyle, "the same, cover off")
	if c.in.Climate {
		out = append(out, sheet.Entry{Symbol: swatch(greyUnit), W: 8, H: 2.4, Text: "hours a year of such air, a bar for each " + quantity.Format(1, quantity.TemperatureDifference, c.in.Units)})
	}
	return out
}

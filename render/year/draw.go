package year

import (
	"math"
	"strconv"

	"dryfit/graph"
	"dryfit/graph/heat"
	"dryfit/graph/heat/job"
	"dryfit/render/scene"
	"dryfit/render/sheet"
)

// Input is what the sheet is drawn from.
type Input struct {
	Year *job.YearReport
	Says []string // the year in plain sentences
	Job  graph.Job
	Page sheet.Page
}

// The greys of what a bar is made of.
const (
	greyToday   = 0.85
	greyUnit    = 0.55
	greyPump    = 0.3
	greyElement = 0.0
)

var months = [12]string{"Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"}

// Draw returns the sheet; none where there is no year.
func Draw(in Input) []*scene.Scene {
	if in.Year == nil {
		return nil
	}
	p := in.Page
	s := sheet.New(p.Format, p.Orientation, sheet.HeadOf(in.Job, "The year, month by month"))
	s.Notes(in.Says...)
	s.Legend(legend(in.Year)...)
	a := s.Area()
	plot := scene.Box{MinX: a.MinX + 18, MinY: a.MinY + 8, MaxX: a.MaxX - 2, MaxY: a.MaxY - 8}
	top, step := scale(in.Year)
	at := func(kWh float64) float64 { return plot.MaxY - kWh/top*plot.H() }
	for v := 0.0; v <= top+1e-9; v += step {
		s.Add(scene.Line(scene.Point{X: plot.MinX, Y: at(v)}, scene.Point{X: plot.MaxX, Y: at(v)}, scene.Style{StrokeMM: sheet.Hair, Grey: 0.6}))
		s.Add(scene.Text{At: scene.Point{X: plot.MinX - 1.5, Y: at(v)}, Text: strconv.FormatFloat(v, 'f', -1, 64), SizeMM: em, Anchor: scene.End, Middle: true})
	}
	s.Add(scene.Text{At: scene.Point{X: plot.MinX - 1.5, Y: plot.MinY - 4.5}, Text: "kWh", SizeMM: em, Anchor: scene.End, Middle: true})
	width := plot.W() / 12
	for m, name := range months {
		x := plot.MinX + float64(m)*width
		s.Add(scene.Text{At: scene.Point{X: x + width/2, Y: plot.MaxY + 4.2}, Text: name, SizeMM: em, Anchor: scene.Centre, Middle: true})
		left, right := x+width*0.12, x+width*0.52
		if alone(in.Year) {
			left, right = x+width*0.32, x+width*0.32
		}
		s.Add(bar(todayParts(in.Year, m), left, width*0.36, at)...)
		s.Add(bar(plannedParts(in.Year, m), right, width*0.36, at)...)
	}
	s.Add(scene.Line(scene.Point{X: plot.MinX, Y: plot.MaxY}, scene.Point{X: plot.MaxX, Y: plot.MaxY}, scene.Stroke(sheet.Thin)))
	return []*scene.Scene{s.Scene}
}

// alone reports whether there is one year to show, today's or the planned: its bars have no side.
func alone(y *job.YearReport) bool { return y.Today == nil || y.Planned == nil }

// em is the size of the letters, mm.
const em = sheet.LeastEm + 0.3

// part is a stretch of a bar.
type part struct{ kWh, grey float64 }

func todayParts(y *job.YearReport, m int) []part {
	if y.Today == nil {
		return nil
	}
	v := y.Today.Months[m]
	return []part{{v.PumpKWh, greyPump}, {v.UnitKWh + v.ElementKWh, greyToday}}
}

func plannedParts(y *job.YearReport, m int) []part {
	if y.Planned == nil {
		return nil
	}
	v := y.Planned.Months[m]
	return []part{{v.PumpKWh, greyPump}, {v.UnitKWh, greyUnit}, {v.ElementKWh, greyElement}}
}

// bar stacks its parts from the axis up.
func bar(parts []part, x, width float64, at func(float64) float64) []scene.Item {
	var out []scene.Item
	sum := 0.0
	for _, p := range parts {
		if p.kWh <= 0 {
			continue
		}
		y0, y1 := at(sum), at(sum+p.kWh)
		out = append(out, scene.Rect(x, y1, width, y0-y1, scene.Style{StrokeMM: sheet.Hair, Fill: true, FillGrey: p.grey}))
		sum += p.kWh
	}
	return out
}

// scale returns the top of the axis and the step of its lines, both round.
func scale(y *job.YearReport) (top, step float64) {
	most := 1.0
	for m := range months {
		for _, parts := range [2][]part{todayParts(y, m), plannedParts(y, m)} {
			sum := 0.0
			for _, p := range parts {
				sum += p.kWh
			}
			most = math.Max(most, sum)
		}
	}
	return round(most)
}

// round returns a round top for an axis that has to reach most, and the step of its lines.
func round(most float64) (top, step float64) {
	step = math.Pow(10, math.Floor(math.Log10(most)))
	for _, k := range []float64{0.1, 0.2, 0.5, 1, 2, 5} {
		if most/(step*k) <= 8 {
			step *= k
			break
		}
	}
	return step * math.Ceil(most/step), step
}

// swatch is a grey as the legend shows it.
func swatch(grey float64) []scene.Item {
	return []scene.Item{scene.Rect(-4, -1.2, 8, 2.4, scene.Style{StrokeMM: sheet.Hair, Fill: true, FillGrey: grey})}
}

// heatsToday is what today's year heats with.
func heatsToday(y *job.YearReport) string {
	if y.Today == nil || len(y.Today.Units) == 0 {
		return "element"
	}
	for _, m := range y.Today.Months {
		if m.ElementKWh > 0 {
			return "old unit and element"
		}
	}
	return "old unit"
}

// legend names the greys that are used.
func legend(y *job.YearReport) []sheet.Entry {
	side := func(where, words string) string {
		if alone(y) {
			return words
		}
		return where + " " + words
	}
	var out []sheet.Entry
	add := func(grey float64, words string, a *heat.Account, of func(heat.Month) float64) {
		sum := 0.0
		if a != nil {
			for _, m := range a.Months {
				sum += of(m)
			}
		}
		if sum > 0 {
			out = append(out, sheet.Entry{Symbol: swatch(grey), W: 8, H: 2.4, Text: words})
		}
	}
	add(greyToday, side("left,", "today: "+heatsToday(y)), y.Today, func(m heat.Month) float64 { return m.UnitKWh + m.ElementKWh })
	add(greyUnit, side("right,", "planned: unit"), y.Planned, func(m heat.Month) float64 { return m.UnitKWh })
	add(greyElement, side("right,", "planned: element helps"), y.Planned, func(m heat.Month) float64 { return m.ElementKWh })
	pump := y.Planned
	if pump == nil {
		pump = y.Today
	}
	add(greyPump, side("both:", "pump"), pump, func(m heat.Month) float64 { return m.PumpKWh })
	return out
}

package year

import (
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/heat"
	"dryfit/graph/heat/job"
	"dryfit/render/scene"
)

// report is a year of round figures: today 200 + 20 kWh a month, planned 60 + 30.
func report() *job.YearReport {
	y := &job.YearReport{Today: &heat.Account{}, Planned: &heat.Account{}}
	for m := range y.Today.Months {
		y.Today.Months[m] = heat.Month{ElementKWh: 200, PumpKWh: 20}
		y.Planned.Months[m] = heat.Month{UnitKWh: 60, PumpKWh: 30}
	}
	return y
}

// Bars are as high as the axis says: 220 kWh today, 90 planned, on an axis to 250.
func TestBarsMeasureWhatTheySay(t *testing.T) {
	pages := Draw(Input{Year: report(), Says: []string{"a sentence"}, Job: graph.Job{Name: "Invented"}})
	if len(pages) != 1 {
		t.Fatalf("%d pages", len(pages))
	}
	ticks := map[string]float64{}
	var sums []float64
	for _, it := range pages[0].Items {
		switch it := it.(type) {
		case scene.Text:
			ticks[it.Text] = it.At.Y
		case scene.Shape:
			if it.Style.Fill && len(it.Paths) == 1 && len(it.Paths[0].Segments) >= 3 && it.Style.FillGrey < 0.9 {
				b := scene.Empty().Add(it.Paths[0].Start)
				for _, s := range it.Paths[0].Segments {
					b = b.Add(s.To)
				}
				if b.W() < 14 && b.H() > 3 {
					sums = append(sums, b.H())
				}
			}
		}
	}
	perKWh := (ticks["0"] - ticks["200"]) / 200
	if !(perKWh > 0) {
		t.Fatalf("no axis: %v", ticks)
	}
	total := 0.0
	for _, h := range sums {
		total += h / perKWh
	}
	if want := 12.0 * (220 + 90); !agree.Within(total, want, 0.01*want) {
		t.Errorf("bars add up to %.1f kWh, want %.1f", total, want)
	}
}

func TestNoYearNoSheet(t *testing.T) {
	if pages := Draw(Input{}); pages != nil {
		t.Errorf("%d pages without a year", len(pages))
	}
}

func TestLegendNamesWhatIsDrawn(t *testing.T) {
	y := report()
	words := func() string {
		var out []string
		for _, e := range legend(y) {
			out = append(out, e.Text)
		}
		return strings.Join(out, "; ")
	}
	if got := words(); strings.Contains(got, "element helps") || !strings.Contains(got, "planned: unit") {
		t.Errorf("legend %q", got)
	}
	y.Planned.Months[0].ElementKWh = 5
	if got := words(); !strings.Contains(got, "element helps") {
		t.Errorf("legend %q without the element that helps", got)
	}
}

// Where there is one year alone, for what stands today isn't worked out, its bars have no side.
func TestOneYearHasNoSides(t *testing.T) {
	for name, y := range map[string]*job.YearReport{"planned": {Planned: report().Planned}, "today": {Today: report().Today}} {
		for _, e := range legend(y) {
			if strings.Contains(e.Text, "left") || strings.Contains(e.Text, "right") || strings.Contains(e.Text, "both") {
				t.Errorf("%s alone: %q", name, e.Text)
			}
		}
		if n := len(legend(y)); n != 2 {
			t.Errorf("%s alone: %d entries, want the pump and what heats", name, n)
		}
	}
}

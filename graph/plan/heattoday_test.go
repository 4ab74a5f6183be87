package plan

import (
	"os"
	"testing"

	"dryfit/graph/description"
	"dryfit/graph/heat"
	"dryfit/graph/heat/job"
)

// The new pipes to and from the unit stand outside and lose heat in the planned year alone; old pipe that is said
// to run outside loses it in both. From the description to the year, of a demo.
func TestPipesOutsideOfEitherYear(t *testing.T) {
	data, err := os.ReadFile("../../testdata/two-speed.toml")
	if err != nil {
		t.Fatal(err)
	}
	for _, outside := range []bool{false, true} {
		c, ds := description.Read("two-speed.toml", data)
		if c == nil {
			t.Fatal(ds)
		}
		for _, r := range c.Runs {
			r.Outside = outside && r.ID == "heater-line"
		}
		p, err := Make(c, Findings)
		if err != nil {
			t.Fatal(err)
		}
		weather, _ := WeatherOf(c.Climate)
		once := job.Sampled{Points: []int{0}, All: []int{0}} // no range is read
		y := p.HeatAccount(job.Ask{}).Answer(job.More{Weather: weather, Sample: once}).Year
		today, planned := y.Today.Terms[heat.TermPipes], y.Planned.Terms[heat.TermPipes]
		if (today > 0) != outside || !(planned > today) {
			t.Errorf("old pipe outside %v: today's pipes lose %.1f kWh, the planned ones %.1f", outside, today, planned)
		}
	}
}

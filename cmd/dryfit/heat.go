package main

import (
	"fmt"
	"path/filepath"
	"strconv"
	"strings"

	"github.com/spf13/pflag"

	"dryfit/catalog/quantity"
	"dryfit/cmd/dryfit/world"
	"dryfit/graph"
	heatjob "dryfit/graph/heat/job"
	"dryfit/graph/plan"
	"dryfit/render/table/form"
	"dryfit/render/table/heating"
)

func heatVerb() *verb {
	return &verb{
		name: "heat", args: "FILE",
		does:    "heat loss, heat-up time, running cost, supply current",
		more:    "Answers for the description's own site; --air, --humidity, --wind, --from and --to ask for one\ncondition, --day heats up through that day of the climate.",
		example: "dryfit heat job.toml\ndryfit heat --air \"-10 °C\" --from \"10 °C\" job.toml\ndryfit heat --day 01-15 job.toml\ndryfit heat --format json job.toml",
		run:     runHeat,
	}
}

// asked are the flags of one condition, as written.
type asked struct{ air, humidity, wind, from, to, day string }

func (a *asked) add(f *pflag.FlagSet) {
	f.StringVar(&a.air, "air", "", "air temperature, such as \"-6 °C\"")
	f.StringVar(&a.humidity, "humidity", "", "relative humidity of the air, such as \"80 %\"")
	f.StringVar(&a.wind, "wind", "", "wind at the water, such as \"0.5 m/s\"")
	f.StringVar(&a.from, "from", "", "water temperature at which heating up begins")
	f.StringVar(&a.to, "to", "", "water temperature that is held")
	f.StringVar(&a.day, "day", "", "month and day of the climate through which it heats up, such as 01-15")
}

// ask reads the flags.
func (a *asked) ask() (heatjob.Ask, error) {
	var out heatjob.Ask
	for _, x := range []struct {
		flag, text string
		dim        quantity.Dimension
		low, high  float64
		into       *graph.Amount
	}{
		{"--air", a.air, quantity.Temperature, -50, 50, &out.AirC},
		{"--humidity", a.humidity, quantity.Share, 0, 1, &out.Humidity},
		{"--wind", a.wind, quantity.Velocity, 0, 30, &out.WindMS},
		{"--from", a.from, quantity.Temperature, 0, 42, &out.FromC},
		{"--to", a.to, quantity.Temperature, 1, 42, &out.ToC},
	} {
		if x.text == "" {
			continue
		}
		q, err := quantity.Parse(x.text, x.dim)
		if err != nil {
			return out, fmt.Errorf("%s %q: %w", x.flag, x.text, err)
		}
		if q.Value < x.low || q.Value > x.high {
			return out, fmt.Errorf("%s is %q; it can be %s to %s", x.flag, x.text, quantity.Format(x.low, x.dim, quantity.MetricSystem), quantity.Format(x.high, x.dim, quantity.MetricSystem))
		}
		*x.into = graph.Given(q.Value)
	}
	if a.day == "" {
		return out, nil
	}
	month, day, ok := strings.Cut(a.day, "-")
	m, err1 := strconv.Atoi(month)
	d, err2 := strconv.Atoi(day)
	if !ok || err1 != nil || err2 != nil || m < 1 || m > 12 || d < 1 || d > 31 {
		return out, fmt.Errorf("--day is %q; it wants month and day, such as 01-15", a.day)
	}
	out.Month, out.Day = m, d
	return out, nil
}

func runHeat(v *verb, args []string, w *world.World) int {
	var j job
	var a asked
	f := v.flags()
	formats := []string{"text", "csv", "json"}
	j.add(f, formats...)
	a.add(f)
	if code, done := j.start(v, f, formats, args, w); done {
		return code
	}
	ask, err := a.ask()
	if err != nil {
		return world.Complain(w, err)
	}
	if code, ok := j.read(f, v, w); !ok {
		return code
	}
	if ask.Month > 0 && j.circuit.Climate == nil {
		return world.Complain(w, fmt.Errorf("--day wants [climate] in %s", j.file))
	}
	if code := j.readWeather(w); code != world.Done {
		return code
	}
	if weather, _ := plan.WeatherOf(j.circuit.Climate); weather != nil && ask.Month > 0 {
		if _, ok := weather.Day(ask.Month, ask.Day); !ok {
			return world.Complain(w, fmt.Errorf("--day is %q, which the climate's year doesn't have; it wants a day of its months, such as 02-28 (only a leap year has 02-29)", a.day))
		}
	}
	p, err := j.make(plan.Flows | plan.Lists)
	if err != nil {
		return world.Complain(w, err)
	}
	report := plan.HeatOf(p, ask)
	if code := j.emit(p, func(p *plan.Plan, s form.Style) ([]byte, error) {
		switch j.format {
		case "json":
			return heating.JSON(report, s)
		case "csv":
			return heating.CSV(report), nil
		}
		return heating.Text(report, p.Circuit.Job, s), nil
	}, w); code != world.Done {
		return code
	}
	return j.say(graph.SortDiagnostics(append(report.Problems, p.Findings...)), w)
}

// readWeather puts the weather file that [climate] names, beside the description, into the
// circuit.
func (j *job) readWeather(w *world.World) int {
	c := j.circuit.Climate
	if c == nil || c.File == "" {
		return world.Done
	}
	name := c.File
	if !filepath.IsAbs(name) {
		name = filepath.Join(filepath.Dir(j.file), name)
	}
	data, err := w.Files.Read(name, mostWeather)
	if err != nil {
		return world.Complain(w, fmt.Errorf("%s: [climate] file: %w", c.Pos, err))
	}
	c.Data = data
	return world.Done
}

// mostWeather is the largest weather file read [bytes]; a year in EPW has about 1.6 million.
const mostWeather = 16 << 20

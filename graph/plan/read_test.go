package plan_test

import (
	"os"
	"testing"

	"dryfit/graph"
	"dryfit/graph/description"
	heatjob "dryfit/graph/heat/job"
	"dryfit/graph/hydraulic/spread"
	"dryfit/graph/plan"
)

// read reads a description and fails the test where it has an error.
func read(tb testing.TB, file string, data []byte) *graph.Circuit {
	tb.Helper()
	c, ds := description.Read(file, data)
	if c == nil || graph.HasErrors(ds) {
		tb.Fatalf("%s: %v", file, ds)
	}
	return c
}

func readFile(tb testing.TB, file string) *graph.Circuit {
	tb.Helper()
	data, err := os.ReadFile(file)
	if err != nil {
		tb.Fatal(err)
	}
	return read(tb, file, data)
}

func work(tb testing.TB, c *graph.Circuit, want plan.Want) *plan.Plan {
	tb.Helper()
	p, err := plan.Make(c, want)
	if err != nil {
		tb.Fatal(err)
	}
	return p
}

// coarsely are the ranges of a plan over the sixteenth part of the sample: for what is promised and what moves
// most, where no figure of either is asked for.
func coarsely(p *plan.Plan) *spread.Ranges {
	return spread.Coarse(p.Before.LaidOut(), p.After.Layout, p.Asked.Retrofit.Unit, 64)
}

// likelyHeat is the heat of a plan without the sample that a year's ranges stand on: for what is told of the
// year as described.
func likelyHeat(p *plan.Plan) *heatjob.Report {
	weather, _ := plan.WeatherOf(p.Circuit.Climate)
	return p.HeatAccount(heatjob.Ask{}).Answer(heatjob.More{Weather: weather, Sample: heatjob.Sampled{Points: []int{0}, All: []int{0}}})
}

// made are the plans of files, and again those of what a plan is written out as: several tests look
// at them, and each is made once, with everything.
var (
	made  = map[string]*plan.Plan{}
	again = map[*plan.Plan]*plan.Plan{}
)

// planned is the plan of a file. Nobody changes it.
func planned(t *testing.T, file string) *plan.Plan {
	t.Helper()
	if made[file] == nil {
		made[file] = work(t, readFile(t, file), everything)
	}
	return made[file]
}

// rewritten is the plan of what a plan is written out as, read back.
func rewritten(t *testing.T, p *plan.Plan) *plan.Plan {
	t.Helper()
	if again[p] == nil {
		again[p] = work(t, read(t, "written.toml", description.Write(p.Circuit)), everything)
	}
	return again[p]
}

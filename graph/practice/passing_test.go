package practice

import (
	"fmt"
	"testing"

	"dryfit/catalog/quantity"
)

// What passes a check of a unit that is shut off is told mode by mode while there are few, apart from each
// other where their names have commas; of many the least and the most, in words and not in a list.
func TestWhatPassesInManyModes(t *testing.T) {
	passing := func(modes ...string) *Job {
		j := &Job{}
		for i, mode := range modes {
			j.Passing = append(j.Passing, Passing{Mode: mode, Flow: float64(1+i) / 3600})
		}
		return j
	}
	var many []string
	for i := range 12 {
		many = append(many, fmt.Sprintf("at low speed, jets %d", i))
	}
	for _, c := range []struct {
		job  *Job
		want string
	}{
		{passing(), "less passes than with the unit open"},
		{passing("at low speed", "at high speed"), "at low speed 1.0 m3/h passes, at high speed 2.0 m3/h passes"},
		{passing("at low speed", "at low speed, the filter dirty"), "at low speed, 1.0 m3/h passes; at low speed, the filter dirty, 2.0 m3/h passes"},
		{passing(many...), "at low speed, jets 0, 1.0 m3/h passes; at low speed, jets 11, 12.0 m3/h passes; in 10 further modes what lies between"},
	} {
		if got := passingWords(c.job).In(quantity.MetricSystem); got != c.want {
			t.Errorf("%d modes: %q, want %q", len(c.job.Passing), got, c.want)
		}
	}
}

package practice

import (
	"strings"
	"testing"

	"dryfit/catalog/quantity"
)

// everythingSaid is all that any subject says of a job, and its faults and states.
func everythingSaid(j *Job) string {
	var all strings.Builder
	for _, s := range Subjects() {
		all.WriteString(strings.Join(Texts(Pick(j, s.Sentences), quantity.MetricSystem), "\n") + "\n")
	}
	for _, s := range States(j) {
		all.WriteString(s.Note.String() + "\n")
	}
	return all.String()
}

// Of water that is kept cold nothing is said as if the unit heated it; what cold water asks for is said,
// and of warm water is not: pipe that sweats, an exchanger that freezes, a bather whom the cold takes.
// Common practice, no source.
func TestColdWater(t *testing.T) {
	job := func(cold bool) *Job {
		return &Job{Unit: &Unit{ID: "HP1", SetPoint: Temp{8, true}, LeastAir: Temp{-7, true}}, Water: 8, Cold: cold, SiteAir: Temp{-5, true},
			To: []string{"V1"}, From: []string{"V2"}, Check: "CV1", Outdoors: true, Pump: Pump{ID: "P1", PowerW: 200, RunsForHeat: "hours"}}
	}
	cold, warm := everythingSaid(job(true)), everythingSaid(job(false))
	for _, said := range []string{"Cold pipe sweats", "its exchanger freezes and bursts", "nobody bathes alone", "cooling mode", "as in cooling", "the fall to aim for", "has to take out again"} {
		if !strings.Contains(cold, said) || strings.Contains(warm, said) {
			t.Errorf("%q: of cold water %v, of warm %v", said, strings.Contains(cold, said), strings.Contains(warm, said))
		}
	}
	for _, said := range []string{"The unit alone heats", "takes that heat from the tub", "heating mode", "as in heating", "The rise to aim for", "nothing heating it"} {
		if strings.Contains(cold, said) || !strings.Contains(warm, said) {
			t.Errorf("%q: of cold water %v, of warm %v", said, strings.Contains(cold, said), strings.Contains(warm, said))
		}
	}
	if job(true).HeatsAlone() {
		t.Error("a unit that cools heats alone")
	}
}

// Where another source heats the same water the unit is not said to heat alone, and who settles which of the
// two heats, at what, and what keeps the source from scalding is said by the exchanger's name.
func TestAnotherSource(t *testing.T) {
	j := &Job{Unit: &Unit{ID: "HP1", LeastAir: Temp{-7, true}}, Elements: []Element{{ID: "E1", Disconnected: true}}, Others: []string{"HX1"},
		SiteAir: Temp{-5, true}, To: []string{"V1"}, From: []string{"V2"}, Water: 38}
	all := everythingSaid(j)
	for _, want := range []string{"Another source heats the same water by HX1", "2 to 3 K below the unit's set point", "40 °C at the most, shuts it", "can scald",
		"not below its least air, -7 °C. In colder air the other source has to, by HX1", "only after another source heats by HX1"} {
		if !strings.Contains(all, want) {
			t.Errorf("%q is not said in\n%s", want, all)
		}
	}
	for _, bad := range []string{"alone heats", "reconnected the element"} {
		if strings.Contains(all, bad) {
			t.Errorf("%q is said", bad)
		}
	}
	if j.HeatsAlone() {
		t.Error("it heats alone")
	}
}

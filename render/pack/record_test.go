package pack

import (
	"cmp"
	"slices"
	"strings"
	"testing"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/plan"
	"dryfit/graph/route"
	"dryfit/render/tag"
)

// The record tells the two nuts of a valve apart, and says of every joint how it is made.
func TestHowAJointIsMade(t *testing.T) {
	size, err := catalog.ParseSize("1 1/2 in", false)
	if err != nil {
		t.Fatal(err)
	}
	for want, j := range map[string]route.Joint{
		"cement 1-1/2 in":                 {Kind: "cement", A: "piece 1", B: "v1.in", Size: size},
		"union nut, inlet side 1-1/2 in":  {Kind: "union", A: "v1", B: "tail of v1.in", Size: size},
		"union nut, outlet side 1-1/2 in": {Kind: "union", A: "v1", B: "tail of v1.out", Size: size},
		"union nut 1-1/2 in":              {Kind: "union", A: "union-1.in", B: "union-1.out", Size: size},
		"hose clips":                      {Kind: "barb"},
		"thread, tape 1-1/2 in":           {Kind: "thread", Size: size},
	} {
		if got := howJoined(j); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// The rise that the record expects is told with the air it is so in, in every mode: 12.1 kW at 15 °C and 8.3 kW
// at 2 °C warm 5.4 m3/h by 2 K and 1.3 K, for 1 kW warms 1 m3/h by 0.86 K (heat balance).
func TestRecordTellsTheAirOfARise(t *testing.T) {
	p := demoPlan(t, "two-speed")
	rises := 0
	for _, r := range record(p, factsOf(p, quantity.MetricSystem)) {
		if !strings.Contains(r.What, ": rise") {
			continue
		}
		rises++
		if !strings.Contains(r.Expected, " K at 2 °C air, ") || !strings.HasSuffix(r.Expected, " K at 15 °C air, at full output") {
			t.Errorf("%s: %q", r.What, r.Expected)
		}
		if rises == 1 && r.Expected != "1.3 K at 2 °C air, 2 K at 15 °C air, at full output" {
			t.Errorf("%s: %q", r.What, r.Expected)
		}
	}
	if rises != 2 {
		t.Errorf("%d rises", rises)
	}
}

// Of a unit whose own pump is off the record expects that it stands, and nothing of the trickle that another pump
// sends through it: 12 kW would warm 0.2 m3/h by 50 K.
func TestRecordOfAUnitThatStands(t *testing.T) {
	p := jobPlan(t, "shared-filter")
	stands := 0
	for _, r := range record(p, factsOf(p, quantity.MetricSystem)) {
		switch {
		case !strings.HasPrefix(r.What, "With the jet pump"):
		case r.Expected == "stands, and does not run":
			stands++
		case !strings.Contains(r.What, "jets feel"):
			t.Errorf("%q: %q", r.What, r.Expected)
		}
	}
	if stands != 2 {
		t.Errorf("the unit stands in %d modes of the jet pump, want 2", stands)
	}
}

// Of work that has no place yet the record doesn't expect that it changes nothing at the jets, and of a job without
// work there is no before and after.
func TestRecordOfJetsWithoutAPlace(t *testing.T) {
	demo := string(readDemo(t, "two-speed"))
	legs := `legs = ["right 120 mm", "up 260 mm", "left 1450 mm", "up 150 mm"]`
	from, to := strings.Index(demo, "# --- what is to be fitted"), strings.Index(demo, "# --- what can be bought")
	without := strings.NewReplacer("unit = \"2150.00\"\n", "", `feeds = ["unit"]`, `feeds = ["pump"]`).Replace(demo[:from] + demo[to:])
	for source, want := range map[string]reading{
		demo: {"At low speed: jets feel, before / after", " % of flow"},
		strings.Replace(demo, legs, `length = "2 m"`, 1): {"At low speed: jets feel, before / after", ""},
		without: {"At low speed: jets feel", ""},
	} {
		p := wanted(t, "two-speed.toml", []byte(source), plan.Findings|plan.Flows)
		found := false
		for _, r := range record(p, factsOf(p, quantity.MetricSystem)) {
			if strings.Contains(r.What, "jets feel") && strings.HasPrefix(r.What, "At low speed") {
				found = r.What == want.What && strings.HasSuffix(r.Expected, want.Expected) && (want.Expected == "") == (r.Expected == "")
				if !found {
					t.Errorf("%+v, want %+v", r, want)
				}
			}
		}
		if !found {
			t.Errorf("nothing said of %q", want.What)
		}
	}
}

// What weighs most of the findings stands first.
func TestHeaviestFindingsFirst(t *testing.T) {
	p := demoPlan(t, "two-speed")
	rank := map[string]int{graph.Error.String(): 0, graph.Warning.String(): 1, graph.Note.String(): 2}
	var got []string
	for _, it := range findings(p, tag.Of(p.Circuit, p.Net()), quantity.MetricSystem).Items {
		if it.Block.Grid == nil {
			continue
		}
		for _, row := range it.Block.Grid.Rows {
			got = append(got, row[0])
		}
	}
	if !slices.IsSortedFunc(got, func(a, b string) int { return cmp.Compare(rank[a], rank[b]) }) || len(slices.Compact(slices.Clone(got))) < 2 {
		t.Errorf("findings in the order %v", got)
	}
}

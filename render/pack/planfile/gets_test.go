package planfile

import (
	"encoding/json"
	"testing"

	"dryfit/graph/plan"
)

// Of several units every one stands with its flow and what passes it, the job's own among them; of one
// alone nothing is said twice, and of a bypass that nothing throttles no flow is made up. Each stands as
// flow prints it, under the older names of its flows too.
func TestFlowsInShortOfEveryUnit(t *testing.T) {
	const h = 1. / 3600
	one := plan.ModeSummary{Mode: "low", HasUnit: true, UnitID: "unit-2", Unit: 3 * h, Least: h, Bypass: 7.5 * h, Past: "bypass-2"}
	two := one
	two.Beside = []plan.UnitSummary{{ID: "unit", Flow: 4 * h, Past: "bypass", Bypass: 1.25 * h, State: "open"}, {ID: "small", Flow: 0}}
	bare := one
	bare.Bypass, bare.Past = 0, ""
	shared := one
	shared.Beside = []plan.UnitSummary{{ID: "unit", Flow: 4 * h, Past: "bypass-2", Bypass: 7.5 * h}}
	none := plan.ModeSummary{Mode: "low", Beside: two.Beside[:1]}
	for want, m := range map[string]plan.ModeSummary{
		`{"mode":"low","unit_m3_h":3,"past_the_unit_m3_h":7.5}`: one,
		`{"mode":"low","unit_m3_h":3,"past_the_unit_m3_h":7.5,"units":[` +
			`{"id":"unit-2","flow_m3_h":3,"least_m3_h":1,"rated_m3_h":0,"most_m3_h":0,"temperature_rise_K":0,"bypass_flow_m3_h":7.5,"unit_m3_h":3,"past_the_unit_m3_h":7.5},` +
			`{"id":"unit","flow_m3_h":4,"least_m3_h":0,"rated_m3_h":0,"most_m3_h":0,"temperature_rise_K":0,"bypass_flow_m3_h":1.25,"check_state":"open","unit_m3_h":4,"past_the_unit_m3_h":1.25},` +
			`{"id":"small","flow_m3_h":0,"least_m3_h":0,"rated_m3_h":0,"most_m3_h":0,"temperature_rise_K":0,"unit_m3_h":0}]}`: two,
		`{"mode":"low","unit_m3_h":3}`: bare,
		`{"mode":"low","unit_m3_h":3,"past_the_unit_m3_h":7.5,"units":[` +
			`{"id":"unit-2","flow_m3_h":3,"least_m3_h":1,"rated_m3_h":0,"most_m3_h":0,"temperature_rise_K":0,"bypass_flow_m3_h":7.5,"unit_m3_h":3,"past_the_unit_m3_h":7.5},` +
			`{"id":"unit","flow_m3_h":4,"least_m3_h":0,"rated_m3_h":0,"most_m3_h":0,"temperature_rise_K":0,"shares_bypass_with":"unit-2","unit_m3_h":4}]}`: shared,
		`{"mode":"low","units":[{"id":"unit","flow_m3_h":4,"least_m3_h":0,"rated_m3_h":0,"most_m3_h":0,"temperature_rise_K":0,"bypass_flow_m3_h":1.25,"check_state":"open","unit_m3_h":4,"past_the_unit_m3_h":1.25}]}`: none,
	} {
		got, err := json.Marshal(getsOf(&m))
		if err != nil || string(got) != want {
			t.Errorf("%s, %v\nwant %s", got, err, want)
		}
	}
}

package takeoff

import (
	"slices"
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"dryfit/graph/takeoff/stock"
)

func pieces(lengths ...float64) []stock.Demand {
	var out []stock.Demand
	for i, l := range lengths {
		out = append(out, stock.Demand{Number: i + 1, LengthMM: l})
	}
	return out
}

func price(s string) decimal.NullDecimal {
	if s == "" {
		return decimal.NullDecimal{}
	}
	return decimal.NewNullDecimal(decimal.RequireFromString(s))
}

// Worked out in the head: a kerf after each piece, the rest from there to the end.
func TestStretches(t *testing.T) {
	list, ds := PlainCutList(pieces(1000, 700), []stock.Supply{{LengthMM: 3000, Price: price("5")}}, 3)
	if len(ds) > 0 || len(list.Plans) != 1 || len(list.Plans[0].Bars) != 1 {
		t.Fatalf("%+v, %v", list, ds)
	}
	want := []Stretch{{0, 1000, 1}, {1003, 1703, 2}, {1706, 3000, 0}}
	if got := list.Stretches(list.Plans[0].Bars[0]); !slices.Equal(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
	full, _ := PlainCutList(pieces(1000, 997), []stock.Supply{{LengthMM: 2000, Price: price("5")}}, 3)
	if got := full.Stretches(full.Plans[0].Bars[0]); len(got) != 2 || got[1].ToMM != 2000 {
		t.Errorf("a bar cut up whole: %v", got)
	}
}

// What cannot be planned is a finding, and the rest is planned.
func TestPlainCutListFindings(t *testing.T) {
	list, ds := PlainCutList(pieces(5000, 100), []stock.Supply{{LengthMM: 3000, Price: price("9.6")}}, 1)
	if len(ds) != 1 || !strings.Contains(ds[0].Message.String(), "piece 1 of 5000 mm") || ds[0].Hint == "" {
		t.Errorf("findings %v", ds)
	}
	if p := list.Plans[0]; p.Cost != "9.60" || p.LowerBound != "9.60" || !p.ProvedOptimal || len(p.Bars) != 1 {
		t.Errorf("plan %+v", p)
	}
}

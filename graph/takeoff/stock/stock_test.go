package stock

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"dryfit/catalog/quantity"
	"dryfit/graph/agree"
)

func price(s string) decimal.NullDecimal {
	if s == "" {
		return decimal.NullDecimal{}
	}
	return decimal.NewNullDecimal(decimal.RequireFromString(s))
}

func pieces(lengths ...float64) []Demand {
	var out []Demand
	for i, l := range lengths {
		out = append(out, Demand{Number: i + 1, LengthMM: l})
	}
	return out
}

// shape writes a plan: "3000:[1 2]+499".
func shape(r Result) string {
	var out []string
	for _, b := range r.Bars {
		out = append(out, fmt.Sprintf("%g:%v+%g", b.StockMM, b.Pieces, b.OffcutMM))
	}
	return strings.Join(out, " ")
}

// Every case is small enough to be worked out in the head.
func TestPlanStock(t *testing.T) {
	for _, c := range []struct {
		name     string
		pieces   []Demand
		stock    []Supply
		kerf     float64
		want     string
		cost     string // "": by length
		unplaced []int
		problem  string
	}{
		{"one kerf fewer than pieces", pieces(1000, 1000, 994), []Supply{{LengthMM: 3000, Price: price("5")}}, 3,
			"3000:[1 2 3]+0", "5", nil, ""},
		{"a hundredth too long", pieces(1000, 1000, 994.01), []Supply{{LengthMM: 3000, Price: price("5")}}, 3,
			"3000:[1 2]+994 3000:[3]+2002.99", "10", nil, ""},
		{"offcut in the van first", pieces(900, 700), []Supply{{LengthMM: 3000, Price: price("9.60")}, {LengthMM: 950, Offcut: true}, {LengthMM: 720, Offcut: true}}, 1.3,
			"950:[1]+48.7 720:[2]+18.7", "0", nil, ""},
		{"the offcut in the van is cut first", pieces(2900, 900), []Supply{{LengthMM: 3000, Price: price("4")}, {LengthMM: 950, Offcut: true}}, 0,
			"950:[2]+50 3000:[1]+100", "4", nil, ""},
		{"one long offcut rather than two short", pieces(1000, 1000, 800, 200), []Supply{{LengthMM: 2100, Price: price("4")}}, 0,
			"2100:[1 2]+100 2100:[3 4]+1100", "8", nil, ""},
		{"of equal prices the longer bar", pieces(900), []Supply{{LengthMM: 1000, Price: price("4")}, {LengthMM: 3000, Price: price("4")}}, 1,
			"3000:[1]+2099", "4", nil, ""},
		{"no price: least length bought", pieces(1400, 1400), []Supply{{LengthMM: 3000, Price: price("1")}, {LengthMM: 1500}}, 0,
			"3000:[1 2]+200", "", nil, ""}, // as long as two of 1500 and fewer bars
		{"longer than every stock", pieces(3500, 500), []Supply{{LengthMM: 3000, Price: price("5")}}, 1,
			"3000:[2]+2499", "5", []int{1}, "piece 1 of 3500 mm is longer than the longest stock, 3000 mm"},
		{"counts used up", pieces(900, 900, 900), []Supply{{LengthMM: 1000, Price: price("5"), Count: 2}}, 1,
			"1000:[1]+99 1000:[2]+99", "10", []int{3}, "the stock does not suffice: 1 more of 1000 mm would do"},
		{"no stock", pieces(900), nil, 1, "", "0", []int{1}, "there is no stock to cut from"},
		{"nothing to cut", nil, []Supply{{LengthMM: 1000, Price: price("5")}}, 1, "", "0", nil, ""},
		{"no length", pieces(-1, 0, 500), []Supply{{LengthMM: 1000, Price: price("5")}, {LengthMM: -3, Price: price("1")}}, 1,
			"1000:[3]+499", "5", []int{1, 2}, "piece 1 is -1 mm long"},
		{"prices add up exactly", pieces(900, 900, 900), []Supply{{LengthMM: 1000, Price: price("0.1")}}, 0,
			"1000:[1]+100 1000:[2]+100 1000:[3]+100", "0.3", nil, ""},
	} {
		r := Plan(c.pieces, c.stock, c.kerf)
		if got := shape(r); got != c.want {
			t.Errorf("%s: %s, want %s", c.name, got, c.want)
		}
		if r.Cost.Valid != (c.cost != "") || r.Cost.Valid && !r.Cost.Decimal.Equal(decimal.RequireFromString(c.cost)) {
			t.Errorf("%s: cost %v, want %q", c.name, r.Cost, c.cost)
		}
		if !slices.Equal(r.Unplaced, c.unplaced) {
			t.Errorf("%s: unplaced %v, want %v", c.name, r.Unplaced, c.unplaced)
		}
		if said := quantity.Join(r.Problems, "; ").String(); !strings.Contains(said, c.problem) || (c.problem == "") != (said == "") {
			t.Errorf("%s: problems %q, want %q", c.name, said, c.problem)
		}
		if !r.ProvedOptimal || r.Proof == "" {
			t.Errorf("%s: not proved: %q", c.name, r.Proof)
		}
	}
}

// A plan found when the work runs out is sound, is not called least, and its bound is true:
// the instance's optimum, 18 bars, is published (Scholl and Klein, set 2).
func TestLimitIsSaid(t *testing.T) {
	tried := false
	for _, in := range instances(t, "cutting_stock", 12) {
		if in.name != "scholl2_N1W1B1R0" {
			continue
		}
		tried = true
		r := planWithin(in.pieces, in.stock, in.kerf, 2000)
		if bad := sound(in.pieces, in.stock, in.kerf, r); bad != "" {
			t.Fatal(bad)
		}
		if r.ProvedOptimal || !strings.Contains(r.Proof.String(), "not proved least") || r.GapPct <= 0 {
			t.Errorf("proved %v, gap %g %%: %s", r.ProvedOptimal, r.GapPct, r.Proof)
		}
		// a share of the cost, by the two figures that are printed
		if cost, lower := r.Cost.Decimal.InexactFloat64(), r.LowerBound.Decimal.InexactFloat64(); r.Cost.Valid && !agree.Within(r.GapPct, 100*(cost-lower)/cost, 1e-9*r.GapPct) {
			t.Errorf("gap %g %% of %g, no less than %g", r.GapPct, cost, lower)
		}
		if bound := r.LowerBound.Decimal.IntPart(); bound > 18 || r.Cost.Decimal.IntPart() < 18 {
			t.Errorf("bound %d, cost %s; the optimum is 18", bound, r.Cost.Decimal)
		}
	}
	if !tried {
		t.Error("the instance is not among those read")
	}
}

// Ninety-six lengths at seven prices, and one long enough for the longest piece, cost what the longest at each price do, proved: a shorter bar that
// costs no less is never needed.
func TestManyLengthsOfStock(t *testing.T) {
	want := pieces(2498.3, 2083.5, 230.5, 209.2, 109.2, 70.5, 67.7, 67.7, 67.7, 67.7, 60.6)
	all := []Supply{{LengthMM: 3000, Price: price("11.40")}}
	longest := map[string]Supply{"11.4": all[0]}
	for i := range 96 {
		s := Supply{LengthMM: 1728 + 7*float64(i), Price: price(fmt.Sprint(1 + i%7))}
		all, longest[s.Price.Decimal.String()] = append(all, s), s
	}
	var few []Supply
	for _, p := range slices.Sorted(maps.Keys(longest)) {
		few = append(few, longest[p])
	}
	got, least := planWithin(want, all, 1.3, effortLimit/10), Plan(want, few, 1.3)
	if !got.ProvedOptimal || !least.ProvedOptimal || len(got.Unplaced)+len(least.Unplaced) > 0 || !got.Cost.Decimal.Equal(least.Cost.Decimal) {
		t.Errorf("of all %s for %s, %s; of the longest %s for %s, %s", shape(got), got.Cost.Decimal, got.Proof, shape(least), least.Cost.Decimal, least.Proof)
	}
}

func TestPlanIsTheSameEveryTime(t *testing.T) {
	demands, stock := jobSize(5)
	first := shape(Plan(demands, stock, 1.3))
	for range 5 {
		if again := shape(Plan(demands, stock, 1.3)); again != first {
			t.Fatalf("%s\nthen %s", first, again)
		}
	}
}

// Any pieces and stock give a sound plan whose bound is not above its cost.
func FuzzPlanStock(f *testing.F) {
	f.Add([]byte{10, 200, 30, 99, 7}, uint16(3000), uint16(1740), uint8(13), uint8(1))
	f.Add([]byte{255, 255, 255}, uint16(100), uint16(0), uint8(0), uint8(0))
	f.Fuzz(func(t *testing.T, lengths []byte, long, short uint16, kerf, count uint8) {
		if len(lengths) > 14 {
			lengths = lengths[:14]
		}
		var demands []Demand
		for i, l := range lengths {
			demands = append(demands, Demand{Number: i + 1, LengthMM: float64(l)*7.31 + 1})
		}
		stock := []Supply{{LengthMM: float64(long%4000) + 1, Price: price("9.60")},
			{LengthMM: float64(short%4000) + 1, Price: price("3.15"), Count: int(count % 4)}}
		r := planWithin(demands, stock, float64(kerf)/10, 5_000_000)
		if bad := sound(demands, stock, float64(kerf)/10, r); bad != "" {
			t.Fatal(bad)
		}
		if r.LowerBound.Decimal.GreaterThan(r.Cost.Decimal) {
			t.Fatalf("bound %s above cost %s", r.LowerBound.Decimal, r.Cost.Decimal)
		}
	})
}

package heat

import (
	"fmt"
	"math"
	"slices"
	"testing"
)

// Exact, and BS 7671's drops by hand.
func TestSupply(t *testing.T) {
	for _, c := range []struct{ got, want, tol float64 }{
		{Current(3000, 230, 1), 13.04, 0.005},
		{Current(2000, 230, 1), 8.70, 0.005},
		{Current(9000, 230, 1), 39.1, 0.05},
		{Current(1500, 230, 0.95), 6.86, 0.005},
		{Cable{SizeMM2: 2.5, LengthM: 20, Kind: "flexible"}.Drop(13, 13, 1), 4.94, 0.005},
		{Cable{SizeMM2: 2.5, LengthM: 25, Kind: "flexible"}.Drop(16, 16, 1), 7.60, 0.005},
		{Cable{SizeMM2: 6, LengthM: 15, Kind: "armoured"}.Drop(32, 32, 1), 3.79, 0.005},
		{Cable{DropVperAm: 0.012, LengthM: 18}.Drop(20, 20, 1), 4.32, 0.005},
		{Cable{SizeMM2: 6, LengthM: 30, Kind: "armoured"}.Drop(25, 25, 1), 5.93, 0.005},
		{Dip(45, 0.4717), 21.2, 0.05},
		// of three phases drawn from alike, between two of them: 15, 9.5 and 6.8 mV/(A m), BS 7671
		// tables 4D4B and 4E4B (from memory)
		{math.Sqrt(3) * Cable{SizeMM2: 2.5, LengthM: 1000}.Drop(1, 0, 1), 15, 0.6},
		{math.Sqrt(3) * Cable{SizeMM2: 4, LengthM: 1000}.Drop(1, 0, 1), 9.5, 0.1},
		{math.Sqrt(3) * Cable{SizeMM2: 6, LengthM: 1000, Kind: "armoured"}.Drop(1, 0, 1), 6.8, 0.1},
	} {
		if !near(c.got, c.want, c.tol) {
			t.Errorf("got %.4f, want %.4f", c.got, c.want)
		}
	}
	// the formula lies within 4 % of the 70 °C table where both are
	for size, mv := range dropTables["fixed"] {
		if got, _ := (Cable{SizeMM2: size, Kind: "made up"}).PerAmpereMetre(1); !near(got*1e3, mv, 0.04*mv) {
			t.Errorf("%g mm²: %.2f mV/(A m), table %g", size, got*1e3, mv)
		}
	}
}

// Element 2 kW and pump 1.5 kW at 0.75 add up to 17.39 A as numbers, by hand; the pump at
// low or at high, never both.
func TestSets(t *testing.T) {
	list := []Consumer{{ID: "element", RunningA: Current(2000, 230, 1)},
		{ID: "pump low", RunningA: 1.4, StartA: 7, Alternative: "pump"},
		{ID: "pump high", RunningA: Current(1500, 230, 0.75), StartA: 40, Alternative: "pump"}}
	sets := Sets(list, 16, 12.8)
	if len(sets) != 2 {
		t.Fatalf("%d sets, want 2: %+v", len(sets), sets)
	}
	high := sets[0]
	if !near(high.RunningA, 17.39, 0.005) || !near(high.WithStart, high.RunningA+40-8.6957, 0.001) || !near(high.OverA, 1.39, 0.005) || !near(high.OverLong, 4.59, 0.005) {
		t.Errorf("%+v", high)
	}
	if low := sets[1]; low.OverA != 0 || !near(low.RunningA, 10.0957, 0.001) {
		t.Errorf("%+v", low)
	}
}

// Seven pumps of two speeds are 128 choices, of which not all are listed: the heaviest is, all seven at
// high, 7·9 A, and so is the greatest start, which none of the heaviest has: the heater that starts at 60 A,
// 1 A when it runs, beside them and not the one of 3 A that starts at no more. By hand.
func TestSetsOfManyChoices(t *testing.T) {
	var list []Consumer
	for i := range 7 {
		pump := fmt.Sprintf("pump %d", i)
		list = append(list, Consumer{ID: pump + " low", RunningA: 2, StartA: 2, Alternative: pump}, Consumer{ID: pump + " high", RunningA: 9, StartA: 9, Alternative: pump})
	}
	list = append(list, Consumer{ID: "steady", RunningA: 30, StartA: 30, Alternative: "heater"}, Consumer{ID: "starts", RunningA: 1, StartA: 60, Alternative: "heater"})
	sets := Sets(list, 80, 0)
	most := 0.0
	for i, s := range sets {
		if i > 0 && s.RunningA > sets[i-1].RunningA {
			t.Errorf("%d is heavier than the one before it: %g and %g A", i, s.RunningA, sets[i-1].RunningA)
		}
		most = max(most, s.WithStart)
	}
	if len(sets) != mostSets || !near(sets[0].RunningA, 7*9+30, 1e-9) || !near(sets[0].OverA, 13, 1e-9) {
		t.Errorf("%d choices, the heaviest %+v; want %d, 93 A and 13 A over", len(sets), sets[0], mostSets)
	}
	if want := 7*9 + 60.0; !near(most, want, 1e-9) {
		t.Errorf("the greatest start is %g A, want %g", most, want)
	}
}

// A changeover feeds either the unit or the elements, and the elements run together: each of them was
// an alternative of the others too. Sums by hand.
func TestAlternativesThatRunTogether(t *testing.T) {
	sets := Sets([]Consumer{
		{ID: "unit", RunningA: 11, StartA: 20, Alternative: "heater", Together: "units"},
		{ID: "e1", RunningA: 9, StartA: 9, Alternative: "heater", Together: "elements"},
		{ID: "pump", RunningA: 1, StartA: 5},
		{ID: "e2", RunningA: 13, StartA: 13, Alternative: "heater", Together: "elements"}}, 16, 0)
	if len(sets) != 2 || !slices.Equal(sets[0].IDs, []string{"e1", "e2", "pump"}) || !slices.Equal(sets[1].IDs, []string{"unit", "pump"}) {
		t.Fatalf("what runs together: %+v", sets)
	}
	for i, want := range []Set{{RunningA: 23, WithStart: 27, OverA: 7}, {RunningA: 12, WithStart: 21}} {
		if got := sets[i]; !near(got.RunningA, want.RunningA, 1e-9) || !near(got.WithStart, want.WithStart, 1e-9) || !near(got.OverA, want.OverA, 1e-9) {
			t.Errorf("%v: %+v", got.IDs, got)
		}
	}
}

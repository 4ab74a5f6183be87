package job

import (
	"math"
	"slices"
	"strings"
	"sync"
	"testing"

	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/heat"
	"dryfit/graph/settle"
)

// testInput is a tub with an element and a unit, every value given.
func testInput() question {
	yes := true
	unit := &graph.Part{ID: "unit", Kind: graph.HeatPump, Unit: &graph.UnitData{Rated: 1.1e-3, Least: 0.8e-3, LeastAirC: -15, LeastAirSet: true, MostWaterC: 40, MostWaterSet: true,
		StandbyW: graph.Given(10), StartLossKWh: graph.Given(0.05), RatingsAt: graph.RatingNotes{Defrost: &yes},
		Ratings: []graph.Rating{{AirC: -7, WaterC: 38, OutputW: 5000, InputW: 2100}, {AirC: 15, WaterC: 38, OutputW: 9000, COP: 3.6}}}}
	pump := &graph.Part{ID: "pump", Kind: graph.Pump, Existing: true, Pump: &graph.PumpData{Speeds: []graph.Speed{
		{Name: "low", PowerW: 240, HoursADay: graph.Given(6)}, {Name: "high", PowerW: 1700}}}}
	element := &graph.Part{ID: "element", Kind: graph.ElementHeater, Existing: true, Element: &graph.ElementData{PowerW: 2000, Disconnected: true}}
	c := &graph.Circuit{Catalog: catalog.Embedded(), Parts: []*graph.Part{unit, pump, element},
		Water:    graph.Water{VolumeM3: 1.2},
		Site:     graph.Site{AirC: -8, AirSet: true, FillC: graph.Given(10), Sheltered: "fenced"},
		HeatLoss: &graph.HeatLoss{UA: graph.Given(12)},
		Use:      &graph.Use{OpenS: graph.Given(2700), TimesAWeek: graph.Given(4), AreaM2: graph.Given(4), Activity: graph.Given(1), Refills: graph.Given(3), Bathers: graph.Given(2)},
		Tariff:   &graph.Tariff{Price: "0.30", Standing: "0", Work: "500"},
	}
	months := heat.Months{}
	for i := range months.AirC {
		months.AirC[i] = 10 - 8*math.Cos(2*math.Pi*(float64(i)+0.5)/12)
		months.SwingK[i], months.DayToDay[i], months.Humidity[i], months.Wind[i] = 8, 2.5, 0.8, 2
	}
	stage := settle.Of(c)
	return question{Input{Stage: stage, Unit: stage.Part("unit"), SetC: 38, Fluid: heat.Fluid{Density: 993, Capacity: 4179},
		Heating: Heating{Pump: stage.Part("pump"), Speed: "low", FlowM3s: 1.1e-3}}, More{Weather: months.Year(), Bill: Bill{Total: 2500, Complete: true}}}
}

// question is a job and what its answers take beside.
type question struct {
	Input
	More
}

func answer(q question) *Report { return NewAccount(q.Input).Answer(q.More) }

// likely is the answer without the sample that a year's ranges stand on, where none of them is read.
func likely(q question) *Report {
	q.Sample = Sampled{Points: []int{0}, All: []int{0}}
	return answer(q)
}

// plain is the answer to the job as it stands, given once for all tests.
var plain = sync.OnceValue(func() *Report { return answer(testInput()) })

// still is the answer without its year, which takes most of the time.
func still(q question) *Report {
	q.Weather = nil
	return answer(q)
}

// What is given replaces what is assumed: nothing of this job is left to assume but the
// weather of another year.
func TestGivenIsNotAssumed(t *testing.T) {
	r := plain()
	for _, a := range r.Assumed {
		if a.What != "another year's air" && a.MovesKWh != 0 {
			t.Errorf("assumed though given: %s", a.What)
		}
	}
	y := r.Year
	if y == nil || y.Today == nil || y.Planned == nil {
		t.Fatal("no year")
	}
	for name, x := range map[string]Range{"today": y.TodayKWh, "planned": y.PlannedKWh, "saving": y.SavingKWh, "share": y.SavingShare} {
		if !(x.Low <= x.Likely && x.Likely <= x.High && x.High > x.Low && x.Low > 0) {
			t.Errorf("%s: %+v", name, x)
		}
	}
	// the share saved comes from one sample of both sides, so that it is far surer than either
	if wide := y.PlannedKWh.High/y.PlannedKWh.Low - 1; !((y.SavingShare.High - y.SavingShare.Low) < wide) {
		t.Errorf("share %+v as wide as the year %+v", y.SavingShare, y.PlannedKWh)
	}
	if want := 3000 / y.SavingCost.Likely; !y.PaybackKnown || y.PaybackAtLeast || !agree.Within(y.Payback.Likely, want, 1e-9) {
		t.Errorf("payback %+v, want %.3f", y.Payback, want)
	}
	if got := y.SavingCost.Likely; !agree.Within(got, 0.3*y.SavingKWh.Likely, 1e-6*got) {
		t.Errorf("saving %.4f at 0.30, %.3f kWh", got, y.SavingKWh.Likely)
	}
}

// The table of sizes and the heating up told beside it are one time: the pump runs through both.
func TestOneHeatUpTime(t *testing.T) {
	r := plain()
	if told, size := r.HeatUp.Warmed.Hours, r.UnitHolds().Hours; !agree.Within(told, size, 1e-6) {
		t.Errorf("heats up in %.4f h, by the table of sizes in %.4f h", told, size)
	}
}

// Left out is assumed, and said so.
func TestLeftOutIsAssumed(t *testing.T) {
	in := testInput()
	c := in.Stage.Circuit
	c.HeatLoss, c.Use, c.Site, c.Water = nil, nil, graph.Site{}, graph.Water{}
	in.Unit.Unit = &graph.UnitData{}
	in.Unit = settle.Of(c).Part("unit")
	in.Stage.Water = settle.Of(c).Water
	r := answer(in)
	said := map[string]bool{}
	for _, a := range r.Assumed {
		said[a.What.String()] = true
		if a.Source == "" {
			t.Errorf("%s has no source", a.What)
		}
	}
	for _, want := range []string{"volume of the water", "standing loss for each degree", "time with the cover off, a week", "area of the water",
		"share of the wind that reaches the water", "temperature of the tap", "coldest air at which the tub is held", `COP of "unit" in air of 7 °C`, `stand-by of "unit"`} {
		if !said[want] {
			t.Errorf("%s is not said to be assumed", want)
		}
	}
	if !r.Unit.Assumed || r.UnitHolds() == nil {
		t.Error("a unit without a sheet is not held against the tub")
	}
}

// A bill with a line that has no price pays back in at least so long; no tariff, no money.
func TestMoneyIsNotInvented(t *testing.T) {
	in := testInput()
	in.Bill.Complete = false
	if y := likely(in).Year; !y.PaybackKnown || !y.PaybackAtLeast {
		t.Errorf("payback %+v at least %v", y.Payback, y.PaybackAtLeast)
	}
	in.Bill.UnitOpen = true // by labour and a few fittings alone it would be paid for in weeks
	if y := likely(in).Year; y.PaybackKnown || !y.PaybackWantsUnit || y.Payback.Likely != 0 {
		t.Errorf("payback %+v of a work whose unit has no price", y.Payback)
	}
	in.Stage.Circuit.Tariff = nil
	if y := likely(in).Year; y.Priced || y.PaybackKnown || y.PaybackWantsUnit || y.SavingCost.Likely != 0 {
		t.Errorf("money without a price: %+v", y)
	}
	in.Weather = nil
	if likely(in).Year != nil {
		t.Error("a year without a climate")
	}
}

// A unit that is there already saves money over the element, and there is no work for that to pay for.
func TestUnitThatStandsPaysForNoWork(t *testing.T) {
	in := testInput()
	unit := *in.Stage.Circuit.Part("unit")
	unit.Existing = true
	part := *in.Unit
	part.Part = &unit
	in.Unit = &part
	if y := likely(in).Year; !y.Stands || y.PaybackKnown || y.PaybackWantsUnit || y.SavingCost.Likely <= 0 {
		t.Errorf("stands %t, paid back in %+v, known %t, saves %+v", y.Stands, y.Payback, y.PaybackKnown, y.SavingCost)
	}
	if y := plain().Year; y.Stands || !y.PaybackKnown {
		t.Errorf("a new unit: stands %t, known %t", y.Stands, y.PaybackKnown)
	}
}

// A measured fall gives exactly the loss that explains it.
func TestFallCalibrates(t *testing.T) {
	in := testInput()
	in.Stage.Circuit.HeatLoss = &graph.HeatLoss{Fall: &graph.LossFall{FromC: graph.Given(38), ToC: graph.Given(36), InS: graph.Given(86400), AirC: graph.Given(6)}}
	// 1200 l: 3.720 W/K by the logarithm, by hand
	if got := still(in).Loss.UA; !agree.Within(got, 3.720, 0.002) {
		t.Errorf("UA %.4f W/K, want 3.720", got)
	}
}

// A fall of less than the readings may be off leaves the loss wide open, and that is said; one that ends
// below the air leaves that of a usual tub, with what is not known of it. Follows from the readings: they
// were taken as exact before.
func TestFallThatSaysLittle(t *testing.T) {
	for _, c := range []struct {
		to, air float64
		note    string
		low     float64 // of what is taken
	}{{37.9, 6, "it says next to nothing of the loss", 0.2}, {37, 37.5, "the loss of a usual tub is taken", 0.6}} {
		in := testInput()
		in.Stage.Circuit.HeatLoss = &graph.HeatLoss{Fall: &graph.LossFall{FromC: graph.Given(38), ToC: graph.Given(c.to), InS: graph.Given(3600), AirC: graph.Given(c.air)}}
		b := &builder{in: &in.Input}
		b.skin(&heat.Tub{VolumeM3: 1.2, SetC: 38, Fluid: heat.Fluid{Density: 993, Capacity: 4178}})
		if len(b.notes) != 1 || !strings.Contains(b.notes[0], c.note) {
			t.Errorf("%+v: %q", c, b.notes)
		}
		if len(b.assumed) != 1 || !agree.Within(b.assumed[0].Low, c.low, 1e-9) {
			t.Errorf("%+v: %+v", c, b.assumed)
		}
	}
}

// The ends and the middle of a value's spread are those of the sample's coordinate.
func TestAssumedAt(t *testing.T) {
	a := Assumed{Low: 0.5, High: 2}
	if a.at(0) != 0.5 || a.at(0.5) != 1 || a.at(1) != 2 {
		t.Errorf("ends %g %g %g", a.at(0), a.at(0.5), a.at(1))
	}
}

// A year's ranges stand on the sample of the flows: where the unit gets half of its rated flow
// in every point the planned year takes more, point by point, and today's the same; where a
// point has no flow it has that of the case as described.
func TestYearStandsOnTheFlowsSample(t *testing.T) {
	in := testInput()
	rated := in.Unit.Rated.V
	if !(rated > 0) {
		t.Fatal("the unit of the test has no rated flow")
	}
	in.Heating.FlowM3s = rated
	full := answer(in)
	low, none := make([]float64, 64), make([]float64, 64)
	for i := range low {
		low[i], none[i] = rated/2, math.NaN()
	}
	in.Sample = Sampled{FlowM3s: low}
	starved := answer(in)
	if starved.Year.TodayKWh != full.Year.TodayKWh {
		t.Errorf("today hangs on a flow nobody has yet: %+v, %+v", starved.Year.TodayKWh, full.Year.TodayKWh)
	}
	if a, b := starved.Year.PlannedKWh, full.Year.PlannedKWh; !(a.High > b.High) || a.Likely != b.Likely {
		t.Errorf("starved %+v, full %+v", a, b)
	}
	in.Sample = Sampled{FlowM3s: none}
	if a := answer(in).Year.PlannedKWh; a != full.Year.PlannedKWh {
		t.Errorf("no flow at any point: %+v, want %+v", a, full.Year.PlannedKWh)
	}
}

// The work adds head at one speed, so that less flows: a radial wheel then draws no more, whether it
// gives the water a fifth more for it, as one that ran far out on its curve does, or less. Its power rises
// with its flow (power curves in any sheet; Karassik, Pump Handbook, from memory). Only the range goes
// below, where it gives the water less.
func TestLessFlowDrawsNoMore(t *testing.T) {
	in := testInput()
	plain := plain().Year
	pump := func(a *heat.Account) (kWh float64) {
		for _, m := range a.Months {
			kWh += m.PumpKWh
		}
		return kWh
	}
	in.Heating.WaterTodayW = 50
	for _, planned := range []float64{60, 45, 500} {
		in.Heating.WaterPlannedW = planned
		year := answer(in).Year
		if was, is := pump(plain.Planned), pump(year.Planned); !(was > 0) || is != was || year.PlannedKWh.Likely != plain.PlannedKWh.Likely {
			t.Errorf("%g W in place of 50: the pump takes %.1f kWh, %.1f before", planned, is, was)
		}
		if year.TodayKWh.Likely != plain.TodayKWh.Likely {
			t.Errorf("today's year changed: %+v, %+v", year.TodayKWh, plain.TodayKWh)
		}
		if low := year.PlannedKWh.Low; (planned < 50) != (low < plain.PlannedKWh.Low) {
			t.Errorf("%g W in place of 50: from %.1f kWh, %.1f before", planned, low, plain.PlannedKWh.Low)
		}
	}
}

// An element of 2 kW that stays makes 2 kWh of the heat in every hour of heating up.
func TestElementsShareOfHeatingUp(t *testing.T) {
	in := testInput()
	for _, p := range in.Stage.Parts {
		if e := p.Element; e != nil {
			e.Disconnected = false
		}
	}
	up := still(in).HeatUp
	if want := 2 * up.Warmed.Hours; !(up.Warmed.Hours > 0) || !agree.Within(up.Warmed.Element, want, 1e-9) || !agree.Within(up.ElementShare(), want/up.Warmed.HeatKWh, 1e-12) {
		t.Errorf("%+v", up)
	}
	if without := plain().HeatUp; without.Warmed.Element != 0 || !(without.Warmed.Hours > up.Warmed.Hours) {
		t.Errorf("without the element: %+v", without)
	}
}

// No line of the unit's table says what another says: a rating at the tub's own water stands
// there once, one at other water beside what the unit gives here.
func TestUnitTableSaysNothingTwice(t *testing.T) {
	in := testInput()
	in.Heating.FlowM3s = 0 // full flow: at its rated points the unit is as its sheet has it
	count := func() (at map[[2]float64]int) {
		at = map[[2]float64]int{}
		for _, u := range still(in).Unit.At {
			at[[2]float64{u.AirC, u.WaterC}]++
		}
		return at
	}
	for where, n := range count() {
		if n != 1 {
			t.Errorf("%d lines at %v", n, where)
		}
	}
	in.Unit.LeastAir.V = 10 // a point of the sheet in colder air says that the unit stands there
	for where, n := range count() {
		if n != 1 {
			t.Errorf("below its least air: %d lines at %v", n, where)
		}
	}
	stand := 0
	for _, u := range still(in).Unit.At {
		if u.Stands {
			stand++
		}
		if u.Stands != (u.Rated && u.AirC < 10) {
			t.Errorf("%+v", u)
		}
	}
	if stand == 0 {
		t.Error("no point of the sheet below the least air")
	}
	in.Unit.LeastAir.V = -15
	in.Unit.Ratings.V[1].WaterC = 30
	if at := count(); at[[2]float64{15, 30}] != 1 || at[[2]float64{15, 38}] != 1 {
		t.Errorf("%v", at)
	}
}

// The airs of a year hold each of its hours once, and say of the design air what the sizes say.
// 12 W/K from 38 to -8 °C and refills of 1.2 m³ (39.0 kWh each from 10 to 38 °C, three a year:
// 13.3 W) are 565 W, by hand; the pump's own heat of 0.6 x 240 W for 6 of 24 hours, 36 W, goes off.
func TestAirsHoldTheYear(t *testing.T) {
	r := plain()
	hours := 0
	for i, a := range r.Airs {
		hours += a.Hours
		if i > 0 && (a.AirC != r.Airs[i-1].AirC+1 || a.Colder < r.Airs[i-1].Colder || a.LosesW >= r.Airs[i-1].LosesW) {
			t.Errorf("after %+v comes %+v", r.Airs[i-1], a)
		}
		if a.AirC == -8 {
			if want := 565.3 - 36; !agree.Within(a.LosesW, want, 1) || a.GivesW != r.UnitHolds().HeldW {
				t.Errorf("%+v: want a loss of %.1f W and %.1f W of output", a, want, r.UnitHolds().HeldW)
			}
		}
		if stands := a.AirC < -15; stands != (a.GivesW == 0) || stands != math.IsInf(a.Share(), 1) {
			t.Errorf("the unit stands below -15 °C: %+v", a)
		}
	}
	if hours != 8760 {
		t.Errorf("%d hours", hours)
	}
	if r.Asked == nil || r.Asked.AirC != r.Loss.AirC || r.Asked.GivesW != r.UnitHolds().HeldW {
		t.Errorf("in the air asked for, %g °C: %+v", r.Loss.AirC, r.Asked)
	}
}

func BenchmarkAnswer(b *testing.B) {
	in := testInput()
	for b.Loop() {
		answer(in)
	}
}

// What moves the saving most is three values, given or not, the heaviest first; nothing else moves
// it more. The three a customer asks after are compared with the planned year: a cover that loses a
// third less takes less electricity, the night price a third lower off eight of 24 hours less money
// alone, about a ninth of the bill, and money sorts them.
func TestWhatMovesAndWhatPays(t *testing.T) {
	r := plain()
	if len(r.Moves) != 3 || r.Moves[0].What == "" {
		t.Fatalf("%+v", r.Moves)
	}
	for i, m := range r.Moves {
		if i > 0 && !agree.Within(m.Saving, 0, math.Abs(r.Moves[i-1].Saving)) {
			t.Errorf("%s after %s", m.What, r.Moves[i-1].What)
		}
	}
	of := map[Change]Saving{}
	for i, p := range r.Year.Pays {
		if i > 0 && p.Cost > r.Year.Pays[i-1].Cost {
			t.Errorf("%s after %s", p.What, r.Year.Pays[i-1].What)
		}
		if _, had := of[p.Of]; !had {
			of[p.Of] = p
		}
	}
	if c := of[BetterCover]; !(c.KWh > 0) || !agree.Within(c.Cost, 0.3*c.KWh, 1e-6) {
		t.Errorf("cover %+v", c)
	}
	planned := r.Year.PlannedKWh.Likely * 0.30
	if n := of[OtherTariff]; n.KWh != 0 || !agree.Within(n.Cost/planned, 1./9, 0.03) {
		t.Errorf("night price %+v of %.0f", n, planned)
	}
	if u, ok := of[LargerUnit]; !ok || !agree.Within(u.KWh, 0, 0.1*r.Year.PlannedKWh.Likely) {
		t.Errorf("larger unit %+v: of the same figures, it takes about the same", u)
	}
}

// Hours that somebody sets for another speed are paid for in both years: 1.7 kW for half an hour a
// day are 310.25 kWh a year, by hand, and in place of the 240 W of a pump that never stops, whose day has no more than
// 24 hours, 266.45; a speed without hours adds nothing.
func TestOtherSpeedsArePaidFor(t *testing.T) {
	pump := func(a *heat.Account) (kWh float64) {
		for _, m := range a.Months {
			kWh += m.PumpKWh
		}
		return kWh
	}
	for runs, want := range map[string]float64{graph.RunsByHours: 310.25, graph.RunsAlways: 266.45} {
		in := testInput()
		in.Heating.Pump.Pump.RunsForHeat = runs // not on call: nothing but the other speed changes
		plain := likely(in).Year
		in.Heating.Pump.Speeds.V[1].HoursADay = graph.Given(0.5)
		more := likely(in).Year
		for name, a := range map[string][2]*heat.Account{"today": {plain.Today, more.Today}, "planned": {plain.Planned, more.Planned}} {
			if d := pump(a[1]) - pump(a[0]); !agree.Within(d, want, 0.01*want) {
				t.Errorf("%s, %s: %.2f kWh more, want %.2f", runs, name, d, want)
			}
		}
	}
}

// The other way is told beside the planned one: an element that goes is tried as a back-up, one that
// stays is left out; and the work is paid with margin and tax.
func TestTheOtherWay(t *testing.T) {
	in := testInput()
	in.Bill.Times = 1.1 * 1.2
	gone := likely(in).Year
	if gone.OtherWay != WithElement || gone.Other == nil || gone.Other.Short > gone.Planned.Short {
		t.Errorf("%q %+v", gone.OtherWay, gone.Other)
	}
	if want := 3000 * 1.32 / gone.SavingCost.Likely; !agree.Within(gone.Payback.Likely, want, 1e-9) {
		t.Errorf("payback %.3f years, want %.3f", gone.Payback.Likely, want)
	}
	e := in.Stage.Circuit.OfKind(graph.ElementHeater)[0].Element
	e.Disconnected, e.Interlock = false, graph.InterlockContact
	kept := likely(in).Year
	if kept.OtherWay != UnitAlone || !agree.Within(kept.Other.KWh, gone.Planned.KWh, 1e-9) || !agree.Within(kept.Planned.KWh, gone.Other.KWh, 1e-9) {
		t.Errorf("%q: %.2f and %.2f kWh, where the element goes %.2f and %.2f", kept.OtherWay, kept.Planned.KWh, kept.Other.KWh, gone.Planned.KWh, gone.Other.KWh)
	}
}

// A unit of a row with one rating, or with none and no power, is taken for what the row says.
func TestUnitOfASparseRow(t *testing.T) {
	for _, c := range []struct {
		what    string
		row     catalog.Row
		outputW float64 // in air of 7 °C
	}{
		{"one rating", catalog.Row{PowerW: 9000, Rated: 8.75e-4, Ratings: []catalog.RatingRow{{AirC: 7, WaterC: 38, OutputW: 5800, InputW: 1900}}}, 5800},
		{"the rating nearest", catalog.Row{Ratings: []catalog.RatingRow{{AirC: 8, WaterC: 38, OutputW: 6000, InputW: 1900}, {AirC: 20, WaterC: 38, OutputW: 7000, InputW: 1900}}}, 6000},
		{"power alone", catalog.Row{PowerW: 4500}, 5760. / 2},           // half of the catalogue's 9 kW
		{"rated flow alone", catalog.Row{Rated: 6.3 / 3600}, 5760. * 2}, // twice its 3.15 m3/h
	} {
		in := testInput()
		unit := *in.Unit
		unit.Ratings = settle.Pick[[]graph.Rating]{} // its row is the catalogue's: a size
		c.row.Name, c.row.Kind, c.row.Source = "mine", "heat-pump", "its sheet"
		unit.Row.V = c.row
		in.Unit = &unit
		found := false
		for _, a := range still(in).Assumed {
			if strings.HasPrefix(string(a.What), "output of ") {
				found = true
				if !agree.Within(a.Value, c.outputW, 1) || a.Source == "" {
					t.Errorf("%s: %.0f W, want %.0f; source %q", c.what, a.Value, c.outputW, a.Source)
				}
			}
		}
		if !found {
			t.Errorf("%s: its output is not said to be assumed", c.what)
		}
	}
}

// A unit that stops in mild air is as large as one of the same ratings that does not: the next
// sizes down and up are the same, and the larger one is larger.
func TestWhereAUnitStopsIsNotItsSize(t *testing.T) {
	want := NewAccount(testInput().Input).Neighbours()
	q := testInput()
	q.Unit.LeastAir.V = 12
	a := NewAccount(q.Input)
	if got := a.Neighbours(); len(want) != 2 || !slices.Equal(got, want) {
		t.Errorf("stopping at 12 °C its neighbours are %q, at -15 °C %q", got, want)
	}
	for _, saving := range a.Answer(q.More).Year.Pays {
		if saving.Of == LargerUnit && (math.IsNaN(saving.KWh) || math.IsInf(saving.KWh, 0)) {
			t.Errorf("%s: %v kWh", saving.What, saving.KWh)
		}
	}
}

// A tub in a room loses to the room's air: what nobody says of it is assumed and moves the year,
// what is said is used. Outdoors there is nothing to say.
func TestTubInARoom(t *testing.T) {
	loss := func(site graph.Site) (*Report, float64) {
		q := testInput()
		site.AirC, site.AirSet, site.FillC = -8, true, graph.Given(10)
		q.Stage.Circuit.Site = site
		r := still(q)
		return r, r.Loss.StandingW
	}
	told := func(r *Report) bool {
		return slices.ContainsFunc(r.Assumed, func(a Assumed) bool { return strings.Contains(a.What.String(), "room") })
	}
	if r, w := loss(graph.Site{Sheltered: "fenced"}); w != 12*46 || told(r) {
		t.Errorf("outdoors: %g W, 12 W/K over 46 K are 552; a room is told of: %v", w, told(r))
	}
	if r, w := loss(graph.Site{Sheltered: "indoor"}); w != 12*(38-usualRoomC) || !told(r) {
		t.Errorf("in a room of which nobody says how warm it is: %g W, told of %v", w, told(r))
	}
	if r, w := loss(graph.Site{RoomC: graph.Given(28)}); w != 12*10 || told(r) {
		t.Errorf("in a room of 28 °C: %g W, 12 W/K over 10 K are 120; told of as assumed: %v", w, told(r))
	}
}

// Of water that is kept cold nothing is told of heating: no unit is large enough for it, and none
// too small.
func TestKeptColdIsNotHeated(t *testing.T) {
	for _, c := range []struct {
		set  float64
		site graph.Site
		cold bool
	}{
		{38, graph.Site{AirC: -8, AirSet: true}, false},
		{16, graph.Site{AirC: -8, AirSet: true}, false},
		{14, graph.Site{AirC: -8, AirSet: true}, true},
		{18, graph.Site{FillC: graph.Given(20)}, true},
		{25, graph.Site{AirC: 30, AirSet: true}, true},
	} {
		q := testInput()
		q.SetC, q.Stage.Circuit.Site = c.set, c.site
		r := likely(q)
		if r.Cold != c.cold || (len(r.Sizes) == 0) != c.cold || (r.Year == nil) != c.cold {
			t.Errorf("water of %g °C, %+v: kept cold %v, %d sizes, year %v", c.set, c.site, r.Cold, len(r.Sizes), r.Year != nil)
		}
	}
}

// A timer's day counts what pipes outside lose to the air outside, though the tub stands in a room, and only
// while the pump runs, whose own heat is in. By hand: 12 W/K lose 192 W to 22 °C, three refills of 1.2 m³ from
// 10 °C take 13.3 W, the pump's 240 W give 144 W in its six hours of filtering, 36 W as a mean: 169.3 W are left.
// 3 W/K of pipe lose 144 W to the air at -10 °C, 36 W as a mean: 205.3 W. The unit's 4423 W make that in less than
// the filter hours. The pipes took day and night, and the pump gave nothing.
func TestTimerOfATubInARoom(t *testing.T) {
	day := func(pipeM float64) float64 {
		q := testInput()
		c := *q.Stage.Circuit
		c.Site.RoomC = graph.Given(22)
		c.Use = &graph.Use{OpenS: graph.Given(0), TimesAWeek: graph.Given(0), AreaM2: graph.Given(4), Between: &[2]graph.Amount{graph.Given(36), graph.Given(39)}}
		q.Stage = settle.Of(&c)
		q.Unit, q.Heating.Pump = q.Stage.Part("unit"), q.Stage.Part("pump")
		months := heat.Months{}
		for i := range months.AirC {
			months.AirC[i], months.Humidity[i] = -10, 0.8
		}
		q.Weather = months.Year()
		pipe := heat.OutsidePipe{LengthM: pipeM, OutsideM: 0.06, BoreM: 0.05}
		if pipeM > 0 {
			pipe.LengthM = 3 / pipe.UAPerMetre()
			q.Pipes = []heat.OutsidePipe{pipe}
		}
		b := &builder{in: &q.Input, more: q.More}
		r := &Report{}
		b.timer(b.settle(), r)
		if r.Timer == nil {
			t.Fatal("no timer")
		}
		return r.Timer.AlwaysDay
	}
	if got, want := day(1)/day(0), 205.3/169.3; !agree.Within(got, want, 0.001*want) {
		t.Errorf("pipes outside make a day %.3f times as dear, want %.3f", got, want)
	}
}

// A blower runs for three tenths of a bath (judgement): of 10 l/s the water is blown through by 3 as a mean of it.
func TestBlowersShareOfABath(t *testing.T) {
	q := testInput()
	c := *q.Stage.Circuit
	c.Parts = append(slices.Clone(c.Parts), &graph.Part{ID: "blower", Kind: graph.Blower, Existing: true, Blower: &graph.BlowerData{PowerW: graph.Given(700), AirFlow: graph.Given(0.010)}})
	q.Stage = settle.Of(&c)
	q.Unit, q.Heating.Pump = q.Stage.Part("unit"), q.Stage.Part("pump")
	if got := NewAccount(q.Input).scene.tub.UseAirM3; !agree.Within(got, 0.003, 1e-12) {
		t.Errorf("%g m³/s of air, want 0.003", got)
	}
}

package practice

import (
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph/lots"
)

// randomJob is a job with any of the facts there are.
func randomJob(r *rand.Rand) *Job {
	is := func() bool { return r.IntN(2) == 0 }
	maybe := func() *bool {
		yes := is()
		return map[int]*bool{0: nil, 1: &yes}[r.IntN(2)]
	}
	temp := func(low, high int) Temp { return Temp{C: float64(low + r.IntN(high-low)), Known: is()} }
	list := func(names ...string) []string { return names[:r.IntN(len(names)+1)] }
	pick := func(words ...string) string { return words[r.IntN(len(words))] }
	j := &Job{
		Water: float64(30 + r.IntN(11)), SiteAir: temp(-20, 15), Region: pick("", "uk", "eu", "us"), Earthing: pick("", "tn-s", "tn-c-s", "tt"),
		To: list("V1"), From: list("V2"), Bypass: list("V3"), Shut: is(), Diverter: is(), Marked: is(), Bench: is(), Over: is(), OnSite: is(), Arrows: is(), Check: pick("", "CV1"), CheckAt: Level(r.IntN(3)), Aside: is(),
		Drains: list("D1", "D2"), Bleeds: list("AB1"), Suctions: list("SV1", "SV2"), Filter: pick("", "cartridge", "sand"), Dry: list("P1", "P2"),
		Jets: is(), AnyJets: is(), TwoSpeeds: is(), Pockets: is(), PlugIn: is(), HoseAtPump: is(), Cuts: is(), Bands: is(), MarkedOut: is(), Valves: is(), CutsHose: is(), Removes: is(), Gone: list("U9 union"), Skimmer: is(), Pieces: is(),
		Cement: is(), Barbs: is(), Threads: is(), UnionNuts: is(), Inch: is(), Metric: is(), Flexible: is(), OldPipe: pick("", "pvc-u", "abs"),
		Outdoors: is(), Wall: is(), Hold: "24 h", GreatestPa: float64(r.IntN(3)) * 1e5, UnitPa: float64(r.IntN(4)) * 1e5,
		Pump:      Pump{ID: "P1", PowerW: float64(r.IntN(300)), AlwaysOn: is(), RunsForHeat: pick("", "hours", "contact", "always"), Above: is()},
		NoCabinet: is(),
	}
	if r.IntN(4) > 0 {
		j.Unit = &Unit{ID: "HP1", SetPoint: temp(30, 41), LeastAir: temp(-15, 10), StopsAtHighLimit: maybe(), DrainPlug: maybe(),
			Refrigerant: pick("", "R32", "R290"), Flammable: is(), StandsOn: pick("", "slab", "deck"), Inside: is(), Level: Level(r.IntN(3))}
	}
	if r.IntN(5) == 0 {
		j.Leaves = []Unit{{ID: "HP9", Flammable: is()}}
	}
	for range r.IntN(3) {
		j.Holes = append(j.Holes, Hole{Wall: pick("front", "floor"), Piece: 7, PipeMM: 63, Middle: "front 850 mm", From: "port out of E1", Later: is()})
	}
	if r.IntN(5) == 0 {
		j.Out = []Out{{Name: "SX9 salt cell", Wired: true, Treats: true}, {Name: "E9 element heater", Element: true}}
	}
	if r.IntN(4) == 0 {
		j.Fellows = []Unit{{ID: "HP2", SetPoint: temp(30, 41), LeastAir: temp(-15, 10), StopsAtHighLimit: maybe()}}
		if len(j.To) > 0 {
			j.Switches = []Switch{{Unit: "HP1", Valves: j.To}, {Unit: "HP2", Valves: j.To, Shared: true}}
		}
	}
	if j.Check != "" && len(j.Bypass) > 0 && is() {
		j.Aside, j.Beside = true, j.Bypass
	}
	for range r.IntN(3) {
		j.Elements = append(j.Elements, Element{ID: "E1", PowerW: 2000, Disconnected: is(), Interlock: pick("", "contact", "changeover", "set-point", "controller-mode")})
	}
	for range r.IntN(3) {
		j.Passing = append(j.Passing, Passing{Mode: "low", Flow: r.Float64() * 2e-3, Least: r.Float64() * 2e-3})
	}
	return j
}

// Whatever a job has, no two of its sentences tell what the other forbids, none tells what is
// always forbidden, and none names a valve the job hasn't.
func TestNoContradiction(t *testing.T) {
	r := rand.New(rand.NewPCG(13, 13))
	for range lots.Count(3000, 1000) {
		j := randomJob(r)
		told := map[Act]string{}
		has := slices.Concat(j.To, j.From, j.Bypass, j.Drains, j.Bleeds, j.Suctions, []string{j.Check, "insulation", "thermometer"})
		for _, s := range Everything(j) {
			for _, a := range s.Tells {
				told[a] = s.Name
			}
			for _, n := range s.Names {
				if n == "" || !slices.Contains(has, n) {
					t.Fatalf("%s names %q, which the job has not: %s", s.Name, n, s.Text)
				}
			}
			for _, tag := range []string{"V1", "V2", "V3", "CV1", "D1", "D2", "AB1", "SV1"} {
				if strings.Contains(" "+s.Text.String(), " "+tag) && !slices.Contains(has, tag) {
					t.Fatalf("%s speaks of %s, which the job has not: %s", s.Name, tag, s.Text)
				}
			}
		}
		for _, pair := range Contradictions() {
			if a, b := told[pair[0]], told[pair[1]]; a != "" && b != "" {
				t.Fatalf("%q (%s) and %q (%s) on one page of %+v", pair[0], a, pair[1], b, j)
			}
		}
		for _, a := range Forbidden() {
			if told[a] != "" {
				t.Fatalf("%s tells to %s", told[a], a)
			}
		}
		jetsOnlyWhereThereAre(t, j)
	}
}

// jetsOnlyWhereThereAre holds speeds, jets and cut lines back from jobs without them.
func jetsOnlyWhereThereAre(t *testing.T, j *Job) {
	t.Helper()
	said := Everything(j)
	for _, st := range States(j) {
		said = append(said, Said{Name: st.Name, Text: st.Note})
	}
	for _, s := range said {
		for word, there := range map[string]bool{
			"jets turned down": j.Jets, "while the jets run": j.AnyJets, "Backwash": j.Filter == "sand", "not with PVC cement": j.OldPipe == "abs" || j.OldPipe == "cpvc", "then high": j.TwoSpeeds, "on low": j.TwoSpeeds, "Shorten the hours": !j.Pump.AlwaysOn && j.Pump.RunsForHeat != "always", "saw bands": j.Bands, "section on marking out": j.MarkedOut, "labels on the valves": j.Valves, "a union nut": j.UnionNuts, "at the skimmer": j.Skimmer, "on the hose": j.CutsHose, "Take out": len(j.Gone) > 0, "element": true,
			"poppet": j.Check != "", "quarter turn while": j.Inch, "two pockets": j.Pockets,
		} {
			if !there && strings.Contains(s.Text.String(), word) {
				t.Fatalf("%s speaks of %q, which the job has not: %s", s.Name, word, s.Text)
			}
		}
	}
}

// What is said while only the unit heats names its least air; a tub used without it in frost
// wants the element back first.
func TestFrostWithTheElementOff(t *testing.T) {
	j := &Job{Unit: &Unit{ID: "HP1", LeastAir: Temp{-7, true}}, Elements: []Element{{ID: "E1", Disconnected: true}},
		SiteAir: Temp{-10, true}, To: []string{"V1"}, From: []string{"V2"}, Drains: []string{"D1"}}
	for _, st := range States(j) {
		if strings.HasPrefix(st.Name, "Winter, unit laid up") && !strings.Contains(st.Note.String(), "only after the electrician has reconnected the element; else empty the tub") {
			t.Errorf("%s: %s", st.Name, st.Note)
		}
		if st.Name == "Winter, tub in use" && !strings.Contains(st.Note.String(), "-7 °C") {
			t.Errorf("%s: %s", st.Name, st.Note)
		}
	}
	text := strings.Join(Texts(Pick(j, Frost()), quantity.MetricSystem), " ")
	for _, want := range []string{"not below its least air, -7 °C: the site gets colder, -10 °C", "no heat without its element", "shut V1 and V2", "open D1"} {
		if !strings.Contains(text, want) {
			t.Errorf("nothing of %q in: %s", want, text)
		}
	}
}

// A tub in a warm room does not freeze while nothing heats it: it is not told to be emptied, its
// unit and pipes outside are.
func TestFrostOfATubInARoom(t *testing.T) {
	j := &Job{Unit: &Unit{ID: "HP1", LeastAir: Temp{-7, true}}, Elements: []Element{{ID: "E1", Disconnected: true}}, WarmRoom: true,
		SiteAir: Temp{-10, true}, To: []string{"V1"}, From: []string{"V2"}, Drains: []string{"D1"}}
	said := Texts(append(Pick(j, Frost()), Pick(j, LayUp())...), quantity.MetricSystem)
	for _, st := range States(j) {
		said = append(said, st.Note.In(quantity.MetricSystem))
	}
	text := strings.Join(said, " ")
	for _, want := range []string{"else its water cools to the room", "shut V1 and V2", "open D1"} {
		if !strings.Contains(text, want) {
			t.Errorf("nothing of %q in: %s", want, text)
		}
	}
	for _, not := range []string{"it is emptied", "empty the tub"} {
		if strings.Contains(strings.ReplaceAll(text, "empty tub, branch and unit", ""), not) {
			t.Errorf("%q of a tub in a warm room: %s", not, text)
		}
	}
}

// The controller stands above the unit only where its element is off, and 40 °C leaves it no
// room: the unit then stands at 39 °C at most (EN 17125: 40 °C for bathers, from memory).
func TestSetPoints(t *testing.T) {
	off := &Job{Unit: &Unit{}, Water: 40, Elements: []Element{{ID: "E1", Disconnected: true}}}
	text := strings.Join(Texts(Pick(off, SetPoints()), quantity.MetricSystem), " ")
	if !strings.Contains(text, "unit 39 °C; the controller") || !strings.Contains(text, "40 °C or more") {
		t.Errorf("element off at 40 °C: %s", text)
	}
	kept := &Job{Unit: &Unit{}, Water: 38, Elements: []Element{{ID: "E1", Interlock: "contact"}}}
	text = strings.Join(Texts(Pick(kept, SetPoints()), quantity.MetricSystem), " ")
	if !strings.Contains(text, "unit 38 °C; the element's (the controller's own) 2 to 3 K below it, 35 °C to 36 °C") {
		t.Errorf("element kept: %s", text)
	}
	// 260 W for 24 h are 6.24 kWh.
	cost := &Job{Unit: &Unit{}, Pump: Pump{PowerW: 260}}
	if text = strings.Join(Texts(Pick(cost, SetPoints()), quantity.MetricSystem), " "); !strings.Contains(text, "6.2 kWh a day") {
		t.Errorf("the cost of the pump: %s", text)
	}
}

// Water comes before power nowhere: the electrician first, then past the unit, the filter,
// the outlet before the inlet, low, high, hot.
func TestOrderOfCommissioning(t *testing.T) {
	j := &Job{Unit: &Unit{Level: AboveWater}, Elements: []Element{{ID: "E1", Interlock: "contact"}}, To: []string{"V1"}, From: []string{"V2"},
		Bypass: []string{"V3"}, Pump: Pump{ID: "P1"}, TwoSpeeds: true, Jets: true, GreatestPa: 1.6e5, UnitPa: 1.5e5}
	text := strings.Join(Texts(Pick(j, Commissioning()), quantity.MetricSystem), "\n")
	at := -1
	for _, want := range []string{"First the electrician", "element stays off", "Shut V1 and V2 and open V3", "Pulse pump P1", "Flush past the unit", "clean the filter",
		"outlet isolator V2, then the inlet isolator V1", "No union up there is eased", "V1 and V2 shut for this test", "at low speed, then at high speed", "releases the element"} {
		i := strings.Index(text, want)
		if i <= at {
			t.Errorf("%q stands at %d, after %d: %s", want, i, at, text)
		}
		at = i
	}
}

// A unit above the water does not fill with the pump off, and a hose is filled at the tub; what
// is taken out is named.
func TestWaterDoesNotRunUphill(t *testing.T) {
	say := func(j *Job) string {
		return strings.Join(Texts(slices.Concat(Pick(j, Ready()), Pick(j, TakeOut()), Pick(j, Commissioning())), quantity.MetricSystem), " ")
	}
	above := &Job{Unit: &Unit{Level: AboveWater}, To: []string{"V1"}, From: []string{"V2"}, CutsHose: true, Gone: []string{"U9 union"}, Pump: Pump{ID: "P1"}, PlugIn: true}
	for _, want := range []string{"fills with clean water when the pump runs", "cut lines on the hose", "Take out U9 union", "ease the hose at the box's outlet"} {
		if text := say(above); !strings.Contains(text, want) || strings.Contains(text, "No old pipe is cut") {
			t.Errorf("no %q in: %s", want, text)
		}
	}
	below := &Job{Unit: &Unit{Level: BelowWater}, To: []string{"V1"}, From: []string{"V2"}, Pump: Pump{ID: "P1"}}
	if text := say(below); strings.Contains(text, "when the pump runs") || !strings.Contains(text, "ease the union at its outlet") || !strings.Contains(text, "No old pipe is cut") {
		t.Errorf("below: %s", text)
	}
}

// Each of two units goes by its own name with its own figures: set points, least airs, limits,
// flow switches and supplies.
func TestTwoUnitsByName(t *testing.T) {
	yes := true
	j := &Job{Unit: &Unit{ID: "HP2", SetPoint: Temp{36, true}, LeastAir: Temp{-7, true}}, Fellows: []Unit{{ID: "HP1", SetPoint: Temp{38, true}, StopsAtHighLimit: &yes}},
		Water: 38, SiteAir: Temp{-5, true}, To: []string{"V1", "V5"}, From: []string{"V2"}, Bypass: []string{"V3"}, Shut: true,
		Switches: []Switch{{Unit: "HP1", Valves: []string{"V1"}, Shared: true}, {Unit: "HP2", Valves: []string{"V5"}}}}
	text := strings.Join(Texts(Everything(j), quantity.MetricSystem), "\n")
	for _, want := range []string{"HP1 38 °C, HP2 36 °C", "HP1 as its sheet says, HP2 -7 °C", "Prove the water cut-out of HP2 itself", "HP1 stops at a high limit",
		"open V3 first; HP1: shut V1 slowly, HP1 must stop (what shares that pipe stops too)", "HP2: shut V5 slowly", "bonding of HP1 and HP2", "then HP1 and HP2 on, one after the other", "Each unit, HP1 and HP2, wants a circuit of its own"} {
		if !strings.Contains(text, want) {
			t.Errorf("nothing of %q in: %s", want, text)
		}
	}
	for _, never := range []string{"Set point: unit", "then the unit on", "the unit stays switched off"} {
		if strings.Contains(text, never) {
			t.Errorf("two units spoken of as one: %q", never)
		}
	}
}

// Of two units one holds what burns and the plate of the other nobody read: both are told, for the
// one takes nothing off the other. R290 is of safety group A3, which burns (ISO 817, from memory).
func TestPlateUnreadBesideOneThatBurns(t *testing.T) {
	j := &Job{Unit: &Unit{ID: "HP1", Refrigerant: "R290", Flammable: true}, Fellows: []Unit{{ID: "HP2"}}}
	said := map[string]string{}
	for _, list := range [][]Sentence{Cautions(), Electricity()} {
		for _, s := range Pick(j, list) {
			said[s.Name] = s.Text.String()
		}
	}
	for _, name := range []string{"Refrigerant", "propane-zone"} {
		if text := said[name]; !strings.Contains(text, "HP1 holds") || !strings.Contains(text, "R290") || !strings.Contains(text, "HP2") || !strings.Contains(text, "plate") {
			t.Errorf("%s: of HP1, which burns, and HP2, of which nobody knows: %q", name, text)
		}
	}
}

// Every sentence has a name, a source, and ends.
func TestSentences(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 500 {
		for _, s := range Everything(randomJob(r)) {
			if s.Name == "" || s.Source == "" || !strings.HasSuffix(s.Text.String(), ".") || strings.Contains(s.Text.String(), "  ") {
				t.Fatalf("%q from %q: %q", s.Name, s.Source, s.Text)
			}
		}
	}
}

// What two sentences once said against each other: the flow switch is tried with a way past
// the unit open, for an isolator and the bypass are never both shut with the pump on; and no
// fault is looked for in what the job has not.
func TestNothingIsTriedThatIsForbidden(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	tried := 0
	for range 3000 {
		j := randomJob(r)
		for _, s := range Pick(j, Commissioning()) {
			text := s.Text.In(quantity.MetricSystem)
			if s.Name != "flow-switch" || !j.Shut || len(j.Bypass) == 0 {
				continue
			}
			tried++
			if open, shut := strings.Index(text, "open V3"), strings.Index(text, "shut V1"); open < 0 || shut < open {
				t.Fatalf("the bypass stands shut, and the flow switch is tried so: %s", text)
			}
		}
		for _, f := range Faults(j) {
			look := f.Look.In(quantity.MetricSystem)
			if !j.Diverter && strings.Contains(look, "diverter") || j.Check == "" && strings.Contains(look, "arrow") || !j.Jets && strings.Contains(look, "jets") {
				t.Fatalf("%s: %s, in a job without it", f.Sign, look)
			}
		}
	}
	if tried == 0 {
		t.Error("no job with a shut bypass")
	}
}

// A changeover goes to the element no later than where the unit stops.
func TestChangeoverAir(t *testing.T) {
	j := &Job{Unit: &Unit{ID: "HP1", LeastAir: Temp{-7, true}}, Elements: []Element{{ID: "E1", Interlock: "changeover"}}, Water: 38}
	if text := strings.Join(Texts(Pick(j, SetPoints()), quantity.MetricSystem), " "); !strings.Contains(text, "goes to the element in air below -7 °C at the latest") {
		t.Errorf("changeover: %s", text)
	}
	j.Elements[0].Interlock = "contact"
	if text := strings.Join(Texts(Pick(j, SetPoints()), quantity.MetricSystem), " "); strings.Contains(text, "goes to the element") {
		t.Errorf("a contact is no changeover: %s", text)
	}
}

// Heat is switched off at the keypad of a sealed box only where its element is to be off.
func TestSealedBox(t *testing.T) {
	for way, want := range map[string]string{"contact": "wired into it", "set-point": "it stays shut", "": "switch heating off"} {
		j := &Job{Unit: &Unit{ID: "HP1"}, PlugIn: true, Elements: []Element{{ID: "E1", Interlock: way, Disconnected: way == ""}}}
		text := strings.Join(Texts(Pick(j, Controller()), quantity.MetricSystem), " ")
		if !strings.Contains(text, want) || way != "" && strings.Contains(text, "switch heating off") {
			t.Errorf("%q: %s", way, text)
		}
	}
}

// With two units no general sentence speaks of "the unit", as if there were one: the words were
// read against a job with two, every sentence that such a job prints.
func TestTwoUnitsAreNotOne(t *testing.T) {
	j := &Job{Unit: &Unit{ID: "HP2"}, Fellows: []Unit{{ID: "HP1"}}, To: []string{"V1"}, From: []string{"V2"}, Bypass: []string{"V3"}}
	j.Pump.PowerW = 900
	var said []quantity.Text
	for _, list := range [][]Sentence{Controller(), Frost(), LayUp(), SetPoints()} {
		for _, s := range Pick(j, list) {
			said = append(said, s.Text)
		}
	}
	for _, f := range Faults(j) {
		said = append(said, quantity.Text(f.Sign), f.Look)
	}
	for _, text := range said {
		words := text.String()
		for _, one := range []string{"the unit defrosts", "the unit stands", "for the unit costs", "of the unit wired", "unions at the unit", "across the unit", "under the unit", "air at the unit"} {
			if strings.Contains(strings.ToLower(words), one) {
				t.Errorf("two units, and %q", words)
			}
		}
	}
	if len(said) < 12 {
		t.Errorf("%d sentences read: the job is too poor to prove anything", len(said))
	}
}

// Of several units the air is let out of those that are set down: of one it is told as of one, of two as
// of two. Follows from the words.
func TestAirIsLetOutOfTheNewOnes(t *testing.T) {
	for _, c := range []struct {
		level    Level
		one, two string
	}{
		{BelowWater, "HP2 stands below the water: with the pump off and its supply isolated ease the union at its outlet until",
			"HP1 and HP2 stand below the water: with the pump off and its supply isolated ease the union at the outlet of each until"},
		{AboveWater, "HP2 stands above the water: run the pump and let the flow carry the air out; its own bleed may",
			"HP1 and HP2 stand above the water: run the pump and let the flow carry the air out; a unit's own bleed may"},
		{LevelUnknown, "the air out of HP2; its own bleed may", "the air out of HP1 and HP2; a unit's own bleed may"},
	} {
		for _, both := range []bool{false, true} {
			j := &Job{Unit: &Unit{ID: "HP2", New: true, Level: c.level}, Fellows: []Unit{{ID: "HP1", New: both, Level: c.level}}}
			said, want := "", c.one
			for _, s := range Pick(j, bleeding()) {
				said += s.Text.String() + "\n"
			}
			if both {
				want = c.two
			}
			if !strings.Contains(said, want) {
				t.Errorf("both new %t: nothing of %q in %q", both, want, said)
			}
		}
	}
}

// A unit that is off leaves its element as the interlock left it: what lets the element heat is
// said of each way that holds it back, and a set point alone holds nothing back.
// Common practice, no source.
func TestElementTakesOver(t *testing.T) {
	for interlock, want := range map[string]string{"contact": "given it back to the controller", "changeover": "put over to it",
		"controller-mode": "another heat source is taken back", "set-point": "heats by itself, to its own lower set point"} {
		j := &Job{Unit: &Unit{ID: "HP1"}, Elements: []Element{{ID: "E1", Interlock: interlock}}, To: []string{"V1"}, From: []string{"V2"}, SiteAir: Temp{-5, true}}
		said := strings.Join(Texts(Pick(j, LayUp()), quantity.MetricSystem), "\n")
		if !strings.Contains(said, want) {
			t.Errorf("%s: nothing of %q in %s", interlock, want, said)
		}
		noted := 0
		for _, s := range States(j) {
			if strings.Contains(s.Note.String(), "the element heats") {
				noted++
			}
		}
		if held := interlock != "set-point"; held && noted != 2 || !held && noted != 0 {
			t.Errorf("%s: %d states say what the element waits for", interlock, noted)
		}
	}
	for _, e := range []Element{{Disconnected: true}, {}} {
		if got := (&Job{Unit: &Unit{}, Elements: []Element{e}}).elementTakesOver(); got != "" {
			t.Errorf("%+v: %q", e, got)
		}
	}
}

// Water does not run out of a shut branch below unless air comes in above.
func TestAirIntoAnEmptiedBranch(t *testing.T) {
	yes := true
	for want, j := range map[string]*Job{
		"open D1 and the unit's own drain plug, and to let air in ease the higher union at the unit.": {Drains: []string{"D1"}},
		"open D1 and the unit's own drain plug, and to let air in AB1.":                               {Drains: []string{"D1"}, Bleeds: []string{"AB1"}},
		"open AB1 to let air in and undo the unions":                                                  {Bleeds: []string{"AB1"}},
	} {
		j.Unit, j.To, j.From = &Unit{DrainPlug: &yes}, []string{"V1"}, []string{"V2"}
		if got := emptyBranch(j).String(); !strings.Contains(got, want) {
			t.Errorf("no %q in %q", want, got)
		}
	}
	j := &Job{Unit: &Unit{Level: AboveWater}, Bleeds: []string{"AB1"}}
	said := strings.Join(Texts(Pick(j, Commissioning()), quantity.MetricSystem), "\n")
	if !strings.Contains(said, "Where it draws air in instead, shut it") {
		t.Error("a bleed above the water may draw air in: not said")
	}
}

// North America protects persons by ground-fault circuit-interrupters of class A, 4 to 6 mA (UL
// 943, NEC 680, from memory): 30 mA of type A is the figure of IEC 60364-7-702 and BS 7671, and
// protective multiple earthing is a British word.
func TestFaultProtectionIsTheRegions(t *testing.T) {
	for region, c := range map[string]struct{ says, not []string }{
		"us": {[]string{"class A", "4 to 6 mA", "ground-fault protection and high limit"}, []string{"30 mA", "type A", "residual", "multiple earthing", "earth mat"}},
		"uk": {[]string{"30 mA", "type A", "multiple earthing", "residual current device and high limit"}, []string{"ground-fault"}},
		"eu": {[]string{"30 mA", "type A", "multiple earthing"}, []string{"ground-fault"}},
		"":   {[]string{"30 mA", "In North America: ground-fault"}, nil},
	} {
		j := &Job{Unit: &Unit{ID: "HP1"}, Region: region, Earthing: "tn-c-s"}
		device, wanted := j.FaultProtection()
		all := device + ": " + wanted + "\n"
		for _, list := range [][]Sentence{Electricity(), Cautions()} {
			for _, s := range Pick(j, list) {
				all += s.Text.String() + "\n"
			}
		}
		for _, want := range c.says {
			if !strings.Contains(all, want) {
				t.Errorf("region %q: %q is not said in\n%s", region, want, all)
			}
		}
		for _, bad := range c.not {
			if strings.Contains(strings.ToLower(all), bad) {
				t.Errorf("region %q: says %q:\n%s", region, bad, all)
			}
		}
	}
}

// What stops a unit is said of the units that nobody said it of, one or several, and a tub
// without an element has no high limit that cuts one.
func TestWhatStopsTheUnit(t *testing.T) {
	yes := true
	one, other, stopped := Unit{ID: "HP1"}, Unit{ID: "HP2"}, Unit{ID: "HP2", StopsAtHighLimit: &yes}
	element := []Element{{ID: "E1"}}
	for _, c := range []struct {
		job  Job
		want string
	}{
		{Job{Unit: &one, Elements: element}, "The tub's high limit cuts its own element, not a unit on a supply of its own. Prove the unit's own water cut-out before anybody bathes, or the electrician takes its enable contact through the tub's high limit."},
		{Job{Unit: &one}, "Nothing of the tub's own stops a unit on a supply of its own. Prove the unit's own water cut-out before anybody bathes, or the electrician takes its enable contact through a high limit in the water."},
		{Job{Unit: &one, Fellows: []Unit{stopped}}, "Nothing of the tub's own stops a unit on a supply of its own. Prove the water cut-out of HP1 itself before anybody bathes, or the electrician takes its enable contact through a high limit in the water."},
		{Job{Unit: &one, Fellows: []Unit{other}, Elements: element}, "The tub's high limit cuts its own element, not a unit on a supply of its own. Prove the own water cut-outs of HP1 and HP2, one by one, before anybody bathes, or the electrician takes their enable contacts through the tub's high limit."},
	} {
		got := Pick(&c.job, HighLimit())
		if len(got) == 0 || got[0].Text.String() != c.want {
			t.Errorf("%v, want %q", got, c.want)
		}
	}
}

// That nothing heats the water without the unit is said only where nothing else does.
func TestHeatsAlone(t *testing.T) {
	unit, kept, off := &Unit{ID: "HP1"}, Element{ID: "E1", Interlock: "set-point"}, Element{ID: "E2", Disconnected: true}
	for _, c := range []struct {
		name string
		job  Job
		want bool
	}{
		{"no unit", Job{}, false},
		{"a unit and no element", Job{Unit: unit}, true},
		{"the element is disconnected", Job{Unit: unit, Elements: []Element{off}}, true},
		{"an element stays", Job{Unit: unit, Elements: []Element{off, kept}}, false},
		{"a second unit", Job{Unit: unit, Fellows: []Unit{{ID: "HP2"}}}, false},
	} {
		if got := c.job.HeatsAlone(); got != c.want {
			t.Errorf("%s: %v", c.name, got)
		}
	}
}

package catalog

import (
	"dryfit/catalog/data"
	"dryfit/catalog/quantity"
	"strings"
	"testing"
	"testing/fstest"
)

func TestEmbeddedRowsAreWhole(t *testing.T) {
	rows, problems := load(data.Files)
	for _, p := range append(problems, Check(rows)...) {
		t.Errorf("%s: %s", p.Origin, p)
	}
	if len(rows) < 450 {
		t.Errorf("only %d rows", len(rows))
	}
	for _, r := range rows {
		if r.Own || !strings.Contains(r.Origin, ".") {
			t.Errorf("%s: own %v, origin %q", r.Name, r.Own, r.Origin)
		}
		if r.Measure && r.Note == "" && r.Kind != "drain-valve" {
			t.Errorf("%s is to be measured, and no note says why", r.Name)
		}
	}
}

// Every defect is found, in a row that is whole without it.
func TestCheckFindsDefects(t *testing.T) {
	pipe, _ := Embedded().Pipe(PVCSch40, Size{Nominal: 2})
	elbow, _ := Embedded().Fitting("elbow-90", PVCSch80, Size{Nominal: 2})
	tee, _ := Embedded().Fitting("tee", PVCSch80, Size{Nominal: 2})
	bush, _ := Embedded().Reducing("reducing-bush", PVCSch80, Size{Nominal: 2}, Size{Nominal: 1.5})
	ball, _ := Embedded().Fitting("ball-valve", PVCSch80, Size{Nominal: 2})
	spring, _ := Embedded().Row("spring-check 2 psi")
	pump, _ := Embedded().Generic("pump")
	unit, _ := Embedded().Generic("heat-pump")
	for _, c := range []struct {
		name string
		of   Row
		do   func(*Row)
		key  string
		text string
	}{
		{"no source", pipe, func(r *Row) { r.Source = " " }, "source", "no source"},
		{"no tag", pipe, func(r *Row) { r.Grade = "" }, "tag", "no tag"},
		{"strange tag", pipe, func(r *Row) { r.Grade = "hearsay" }, "tag", "unknown tag"},
		{"no name", pipe, func(r *Row) { r.Name = "" }, "name", "no name"},
		{"unknown kind", pipe, func(r *Row) { r.Kind = "pope" }, "kind", "unknown kind"},
		{"unknown spec", pipe, func(r *Row) { r.Spec = "lead" }, "spec", "unknown pipe spec"},
		{"unknown second spec", pipe, func(r *Row) { r.Spec2 = "lead" }, "spec2", "unknown pipe spec"},
		{"series of the other family", pipe, func(r *Row) { r.Size = Size{true, 50} }, "size", "does not go by"},
		{"no bore", pipe, func(r *Row) { r.BoreMM = 0 }, "bore", "needs this"},
		{"no size", pipe, func(r *Row) { r.Size = Size{} }, "size", "needs this"},
		{"bore wider than the walls leave", pipe, func(r *Row) { r.BoreMM = 54 }, "bore", "more than"},
		{"bore far too narrow", pipe, func(r *Row) { r.BoreMM = 40 }, "bore", "far below"},
		{"bore at the least wall off", pipe, func(r *Row) { r.BoreMinWallMM = 51 }, "bore-least-wall", "is not the outside"},
		{"bore outside the pipe", pipe, func(r *Row) { r.WallMM = 0; r.BoreMM = 70 }, "bore", "not inside"},
		{"negative", elbow, func(r *Row) { r.TakeOffMM = -3 }, "take-off", "negative"},
		{"no take-off", elbow, func(r *Row) { r.TakeOffMM = 0 }, "take-off", "needs this"},
		{"no loss", elbow, func(r *Row) { r.LoverD = 0 }, "loss", "needs a loss"},
		{"loss twice", elbow, func(r *Row) { r.K = 0.6 }, "k", "says the same"},
		{"strange end", elbow, func(r *Row) { r.Ends = "socket/glue" }, "ends", "unknown end"},
		{"tolerance beyond the length", elbow, func(r *Row) { r.TolMinusMM = 90 }, "tol-minus", "more than the take-off"},
		{"no branch loss", tee, func(r *Row) { r.LoverDBranch = 0 }, "l-over-d-branch", "branch"},
		{"small size larger", bush, func(r *Row) { r.Size2 = Size{Nominal: 3} }, "size2", "not smaller"},
		{"valve opens backwards", ball, func(r *Row) { r.Opening = [][2]float64{{0, 0}, {0.5, 0.6}, {0.8, 0.4}, {1, 1}} }, "opening", "does not pass less"},
		{"valve never shuts", ball, func(r *Row) { r.Opening = [][2]float64{{0, 0.2}, {1, 1}} }, "opening", "0 % at 0 %"},
		{"spring without pressure", spring, func(r *Row) { r.CrackingPa = 0; r.CrackingHighPa = 0 }, "cracking", "needs its cracking"},
		{"range beside the value", spring, func(r *Row) { r.CrackingHighPa = 100 }, "cracking", "does not hold"},
		{"K beside its range", spring, func(r *Row) { r.K = 20 }, "k", "does not hold"},
		{"pump without curve", pump, func(r *Row) { r.Speeds = nil }, "curve", "needs a curve"},
		{"curve of one point", pump, func(r *Row) { r.Speeds = nil; r.Curve = [][2]float64{{0, 1}} }, "curve", "two points"},
		{"curve that rises", pump, func(r *Row) { r.Speeds = nil; r.Curve = [][2]float64{{0, 1}, {0.001, 2}} }, "curve", "rises"},
		{"curve without shut-off", pump, func(r *Row) { r.Curve = [][2]float64{{0.001, 2}, {0.002, 1}} }, "curve", "no flow"},
		{"speed twice", pump, func(r *Row) { r.Speeds = []SpeedRow{pump.Speeds[0], pump.Speeds[0]} }, "speeds", "two speeds"},
		{"least above rated", unit, func(r *Row) { r.Least = 1 }, "least", "more than the rated"},
		{"rated above most", unit, func(r *Row) { r.Most = r.Rated / 2 }, "rated", "more than the most"},
		{"more power in the water than on the label", pump, func(r *Row) { r.Speeds, r.PowerW, r.Curve = nil, 200, [][2]float64{{0, 12}, {0.004, 8}, {0.006, 1}} }, "curve", "more than any pump"},
		{"next to no power in the water", pump, func(r *Row) { r.Speeds, r.PowerW, r.Curve = nil, 900, [][2]float64{{0, 3}, {0.0005, 2}, {0.001, 0.5}} }, "curve", "far less"},
		{"gives less than it draws", unit, func(r *Row) { r.Ratings = []RatingRow{{15, 38, 2000, 9000}} }, "ratings", "gives 2 kW for 9 kW: a heat pump gives more"},
		{"gives more than an ideal machine", unit, func(r *Row) { r.Ratings = []RatingRow{{7, 38, 14000, 2000}} }, "ratings", "gives 14 kW for 2 kW with water of 38 °C in air of 7 °C: an ideal machine would give 13.83 kW"}, // by hand: 2 kW · 318.15/46
		{"air and water swapped", unit, func(r *Row) { r.Ratings = []RatingRow{{38, 15, 9000, 2000}} }, "ratings", "water of 15 °C in air of 38 °C"},
		{"gives what none does", unit, func(r *Row) { r.Ratings = []RatingRow{{15, 38, 90000, 2000}} }, "ratings", "no heat pump gives so much"},
		{"warms its flow as a kettle", unit, func(r *Row) { r.Rated, r.Least = 0.0001, 0.00005 }, "rated", "units are made for 2 to 5 K"},
		{"costs more than it stands", unit, func(r *Row) { r.RatingPa, r.LossDropPa, r.LossHighPa = 3e5, 4e5, 0 }, "loss", "stands 300.0 kPa"},
		{"flow without drop", unit, func(r *Row) { r.LossDropPa = 0 }, "loss-flow", "go together"},
	} {
		row := c.of
		c.do(&row)
		if found := Check([]Row{row}); !hasProblem(found, c.key, c.text) {
			t.Errorf("%s: found %v", c.name, found)
		}
		if found := Check([]Row{c.of}); len(found) > 0 {
			t.Errorf("%s: the whole row is found at fault: %v", c.name, found)
		}
	}
}

func hasProblem(found []Problem, key, text string) bool {
	for _, p := range found {
		if p.Key == key && strings.Contains(p.Message.String(), text) && strings.Contains(p.String(), key) {
			return true
		}
	}
	return false
}

func TestCheckFindsDefectsBetweenRows(t *testing.T) {
	small, _ := Embedded().Fitting("elbow-90", PVCSch80, Size{Nominal: 1.5})
	large, _ := Embedded().Fitting("elbow-90", PVCSch80, Size{Nominal: 2})
	if found := Check([]Row{small, small}); !hasProblem(found, "name", "two rows") {
		t.Errorf("two rows of a name: %v", found)
	}
	jet := Row{Name: "jet", Kind: "blower", Source: "sheet", Own: true}
	if found := Check([]Row{jet}); !hasProblem(found, "name", "of kind jet-group") {
		t.Errorf("a blower called jet: %v", found)
	}
	if r, _ := Embedded().With([]Row{jet}).Row("jet"); r.Kind != "blower" || r.BoreMM != 0 {
		t.Errorf("the blower called jet has become %+v", r)
	}
	small.TakeOffMM, small.Note = 40, ""
	if found := Check([]Row{large, small}); !hasProblem(found, "take-off", "next size's") && !hasProblem(found, "take-off", "next size, 2 in") {
		t.Errorf("a take-off longer than the next size's: %v", found)
	}
	small.Note = "long pattern"
	if found := Check([]Row{large, small}); len(found) > 0 {
		t.Errorf("a note excuses it: %v", found)
	}
}

// What can't be read in the files is reported with file, line and column.
func TestLoadReportsWhatItCannotRead(t *testing.T) {
	files := fstest.MapFS{}
	for _, name := range rowFiles {
		raw, err := data.Files.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		files[name] = &fstest.MapFile{Data: raw}
	}
	for _, c := range []struct {
		file, text, want string
	}{
		{"pipes.csv", "kind,spec,size,outside\npipe,pvc-sch40,2 in,60.3\n", `pipes.csv:2: outside: "60.3" has no unit`},
		{"pipes.csv", "kind,spec,size,outside\n# a remark\npipe,pvc-sch40,2 in,60.3 kg\n", "pipes.csv:3: outside: \"60.3 kg\" is a mass"},
		{"pipes.csv", "kind,spec,size\npipe,pvc-sch41,2 in\n", `unknown pipe spec "pvc-sch41"; did you mean "pvc-sch40"`},
		{"pipes.csv", "kind,spec,seize\npipe,pvc-sch40,2 in\n", `unknown column "seize"; did you mean "size"`},
		{"pipes.csv", "kind,spec,size\npipe,pvc-sch40\n", "wrong number of fields"},
		{"elbows.csv", "kind,l-over-d\nelbow-90,thirty\n", `"thirty" is not a number`},
		{"elbows.csv", "kind,measure\nelbow-90,maybe\n", `"maybe" is neither yes nor empty`},
		{"elbows.csv", "kind,take-off\nelbow-90,-3 mm\n", `"-3 mm" is negative`},
		{"elbows.csv", "kind,speeds\npump,x\n", "a table can't stand in a cell"},
		{"elbows.csv", "", "EOF"},
		{"equipment.toml", "[[pump]]\nname = \"p\"\ncurve = [[\"0 m3/h\", \"3\"]]\n", `equipment.toml: p: curve: "3" has no unit`},
		{"equipment.toml", "[[pump\n", "expected"},
	} {
		broken := fstest.MapFS{}
		for name, f := range files {
			broken[name] = f
		}
		broken[c.file] = &fstest.MapFile{Data: []byte(c.text)}
		_, problems := load(broken)
		var all []string
		for _, p := range problems {
			all = append(all, p.Origin+": "+strings.TrimPrefix(p.String(), p.Row+": "), p.Origin+": "+p.String())
		}
		if !strings.Contains(strings.Join(all, "\n"), c.want) {
			t.Errorf("%s %q: %q, want %q", c.file, c.text, all, c.want)
		}
	}
	delete(files, "small.csv")
	if _, problems := load(files); len(problems) != 1 {
		t.Errorf("a missing file: %v", problems)
	}
}

// A problem is said in the units that are asked for: 58 mm is 2.283 in, 20 kPa 2.90 psi (by
// the exact inch and 6894.757 Pa to the psi).
func TestProblemsInTheUnitsAskedFor(t *testing.T) {
	rows := []Row{{Kind: "pipe", Name: "wide", Spec: PVCSch40, Size: Size{Nominal: 2}, OutsideMM: 60.3, WallMM: 3.9, BoreMM: 58, Source: "own", Own: true},
		{Kind: "check-valve", Name: "odd", Source: "own", Own: true, CrackingPa: 20000, CrackingLowPa: 30000, CrackingHighPa: 40000}}
	for key, want := range map[string]string{"bore": "2.283 in", "cracking": "2.9 psi"} {
		found := false
		for _, p := range Check(rows) {
			found = found || p.Key == key && strings.Contains(p.Message.In(quantity.InchSystem), want)
		}
		if !found {
			t.Errorf("%s: no problem says %s: %v", key, want, Check(rows))
		}
	}
}

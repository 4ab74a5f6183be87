package catalog

import (
	"slices"
	"strings"
	"testing"

	"github.com/BurntSushi/toml"

	"dryfit/catalog/quantity"
	"dryfit/graph/agree"
)

func decodeText(t *testing.T, text string) ([]Row, []Problem) {
	t.Helper()
	var file map[string]any
	if _, err := toml.Decode(text, &file); err != nil {
		t.Fatal(err)
	}
	return DecodeFile(file, "my.toml")
}

func TestDecodeRows(t *testing.T) {
	rows, problems := decodeText(t, `
[[catalog.elbow-90]]
spec = "pvc-sch40"
size = "2 in"
take-off = "33 mm"
source = "measured on the part"

[[catalog.pump]]
name = "old pump"
speeds = [
  { name = "slow", ratio = 0.5 },
  { name = "fast", power = "1 kW", curve = [["0 m3/h", "10 m"], ["36 gpm", "98.0665 kPa"]] },
]
source = "label"

[[catalog.filter]]
name = "my filter"
loss = { flow = "10 m3/h", drop = "1 m" }
rating = "50 psi"
dirty-factor = 2
source = "sheet"

[[catalog.ball-valve]]
name = "my valve"
size = "2 in"
length = "90 mm"
socket = "38 mm"
ends = "union"
loss = { cv = "36 gpm" }
opening = [["0 %", "0 %"], ["50 %", "20 %"], ["100 %", "100 %"]]
rating = "10 bar"
source = "sheet"

[[catalog.pipe]]
spec = "pvc-pn16"
size = "50 mm"
stock = ["3 m", "4 m"]
source = "merchant"
`)
	for _, p := range problems {
		t.Errorf("problem: %s", p)
	}
	byName := map[string]Row{}
	for _, r := range rows {
		if !r.Own || r.Origin != "my.toml" {
			t.Errorf("%s: own %v, origin %q", r.Name, r.Own, r.Origin)
		}
		byName[r.Name] = r
	}
	if found := Check(rows); len(found) > 0 {
		t.Errorf("the rows are found at fault: %v", found)
	}
	c := Embedded().With(rows)
	elbow, _ := c.Fitting("elbow-90", PVCSch40, Size{Nominal: 2})
	if elbow.TakeOffMM != 33 || elbow.Measure || elbow.LoverD != 30 || elbow.SocketMM == 0 || !elbow.Own || elbow.Source != "measured on the part" {
		t.Errorf("the elbow laid over: %+v", elbow)
	}
	pump := byName["old pump"]
	if len(pump.Speeds) != 2 || pump.Speeds[0].Curve[0] != [2]float64{0, 2.5} || pump.Speeds[1].PowerW != 1000 {
		t.Errorf("pump: %+v", pump.Speeds)
	}
	nearly(t, "head from a pressure", pump.Speeds[1].Curve[1][1], 10, 1e-9)
	nearly(t, "loss from a head", byName["my filter"].LossDropPa, 9806.65, 1e-9)
	nearly(t, "Kv from a Cv", byName["my valve"].Kv, 36*0.864978, 1e-4)
	if v := byName["my valve"]; len(v.Opening) != 3 || v.Opening[1] != [2]float64{0.5, 0.2} {
		t.Errorf("opening: %v", v.Opening)
	}
	pipe, _ := c.Pipe(PVCPN16, Size{true, 50})
	if len(pipe.StockMM) != 2 || pipe.StockMM[1] != 4000 || pipe.BoreMM != 42.1 {
		t.Errorf("pipe laid over: %+v", pipe)
	}
	if before, _ := Embedded().Pipe(PVCPN16, Size{true, 50}); before.Own || len(before.StockMM) != 5 {
		t.Error("the embedded catalogue has changed")
	}
	if valve, _ := c.Fitting("ball-valve", PVCSch40, Size{Nominal: 2}); valve.Name != "my valve" {
		t.Errorf("the user's valve does not come first: %q", valve.Name)
	}
	if generic, _ := c.Generic("pump"); generic.Own {
		t.Error("a user's pump is taken for parts that name none")
	}
}

func TestDecodeRowsProblems(t *testing.T) {
	for _, c := range []struct {
		text, key, message, hint string
	}{
		{"[[catalog.elbow-90]]\ntake-of = \"3 mm\"", "take-of", `unknown key "take-of"`, `"take-off"`},
		{"[[catalog.elbow-22.5]]\nsize = \"2 in\"", "", `unknown kind "elbow-22"`, `[[catalog."elbow-22.5"]]`},
		{"[[catalog.elbow-9O]]\nsize = \"2 in\"", "", `unknown kind "elbow-9O"`, `"elbow-90"`},
		{"[[catalog.spring-check]]\nname = \"a\"", "", `unknown kind "spring-check"`, `[[catalog.check-valve]], and below it style = "spring-check"`},
		{"[[catalog.pipe]]\noutside = 60.3", "outside", `"60.3" has no unit`, "mm"},
		{"[[catalog.pipe]]\noutside = 60", "outside", `"60" has no unit`, "mm"},
		{"[[catalog.pipe]]\noutside = true", "outside", "write the length as a text", ""},
		{"[[catalog.pipe]]\noutside = \"12 kg\"", "outside", "is a mass", "mm"},
		{"[[catalog.pipe]]\noutside = \"-1 mm\"", "outside", "negative", ""},
		{"[[catalog.pipe]]\nsize = \"2\"", "size", "no unit", ""},
		{"[[catalog.pipe]]\nsize = 2", "size", "no unit", ""},
		{"[[catalog.pipe]]\nspec = \"pvc-sch4\"", "spec", "unknown pipe spec", `"pvc-sch40"`},
		{"[[catalog.pipe]]\nsource = 3", "source", "text in quotes", ""},
		{"[[catalog.pipe]]\nkind = \"tee\"", "kind", "name of the table", "leave"},
		{"[[catalog.tee]]\nl-over-d = \"20\"", "l-over-d", "bare number", ""},
		{"[[catalog.tee]]\nl-over-d = -20", "l-over-d", "negative", ""},
		{"[[catalog.tee]]\nl-over-d = inf", "l-over-d", "beyond all measure", ""},
		{"[[catalog.tee]]\nmeasure = \"yes\"", "measure", "true or false", ""},
		{"[[catalog.manifold]]\nways = 2.5", "ways", "whole number", ""},
		{"[[catalog.filter]]\nloss = \"none\"", "loss", "write a table", ""},
		{"[[catalog.filter]]\nloss = { flow = \"1 m3/h\" }", "loss", "both flow and drop", ""},
		{"[[catalog.filter]]\nloss = { flaw = \"1 m3/h\" }", "loss", "unknown key of a loss", ""},
		{"[[catalog.filter]]\nloss = { kv = \"1 gpm\" }", "loss", "kv: ", ""},
		{"[[catalog.pump]]\ncurve = \"steep\"", "curve", "list in square brackets", ""},
		{"[[catalog.pump]]\ncurve = [\"steep\"]", "curve", "write pairs", ""},
		{"[[catalog.pump]]\ncurve = [[\"2 m3/h\", \"1 m\"], [\"1 m3/h\", \"2 m\"]]", "curve", "must rise", ""},
		{"[[catalog.pump]]\nspeeds = []", "speeds", "at least one", ""},
		{"[[catalog.pump]]\nspeeds = [{ name = \"a\" }]", "speeds", "needs a curve, or a ratio", ""},
		{"[[catalog.pump]]\nspeeds = [{ name = \"a\", ratio = 0.5 }]", "speeds", "no speed has a curve", ""},
		{"[[catalog.pump]]\nspeeds = [{ name = \"a\", ratio = 9 }]", "speeds", "at most 2", ""},
		{"[[catalog.pump]]\nspeeds = [{ curve = [[\"0 m3/h\", \"1 m\"], [\"1 m3/h\", \"0 m\"]] }]", "speeds", "no name", ""},
		{"[[catalog.pump]]\nspeeds = [{ name = \"a\", speed = 1 }]", "speeds", "unknown key of a speed", ""},
		{"[[catalog.gate-valve]]\nopening = [[\"0 %\", \"120 %\"]]", "opening", "more than all", ""},
		{"[[catalog.pipe]]\nstock = [\"0 m\"]", "stock", "no length of pipe", ""},
		{"[[catalog.pipe]]\nsource = \"" + strings.Repeat("x", 500) + "\"", "source", "longer than", ""},
		{"[catalog]\npipe = 3", "", "is not a table", "[[catalog.pipe]]"},
		{"[catalog]\n[other]\nx = 1", "", `unknown table "other"`, ""},
		{"[[popes]]\nx = 1", "", `unknown kind "popes"`, `"pipe"`},
	} {
		_, problems := decodeText(t, c.text)
		found := false
		for _, p := range problems {
			found = found || p.Key == c.key && strings.Contains(p.Message.String(), c.message) && strings.Contains(p.Hint+p.Message.String(), c.hint) && p.Origin == "my.toml"
		}
		if !found {
			t.Errorf("%s: %+v", c.text, problems)
		}
	}
}

// A row's table is named by kind and index, so that the reader can point at the line.
func TestDecodeRowsSaysWhichTable(t *testing.T) {
	rows, problems := decodeText(t, "[[catalog.tee]]\nname = \"a\"\n[[catalog.tee]]\nname = \"b\"\nk = \"x\"\n[[catalog.cap]]\nk = \"x\"\n")
	if len(rows) != 3 || len(problems) != 2 {
		t.Fatalf("%d rows, %v", len(rows), problems)
	}
	if p := problems[1]; p.Kind != "tee" || p.Index != 1 || p.Row != "b" {
		t.Errorf("second problem: %+v", p)
	}
}

func TestMostRows(t *testing.T) {
	many := make([]map[string]any, mostRows+10)
	for i := range many {
		many[i] = map[string]any{"name": "x"}
	}
	rows, problems := DecodeRows(map[string]any{"cap": many}, "my.toml")
	if len(rows) != mostRows || len(problems) != 1 {
		t.Errorf("%d rows, %v", len(rows), problems)
	}
}

func FuzzDecodeFile(f *testing.F) {
	f.Add("[[catalog.pump]]\nname = \"p\"\nspeeds = [{ name = \"a\", ratio = 0.5 }, { name = \"b\", curve = [[\"0 m3/h\", \"1 m\"], [\"1 m3/h\", \"0 m\"]] }]")
	f.Add("[[tee]]\nsize = \"2 in\"\nloss = { k = 3 }\nopening = [[\"0 %\", \"0 %\"]]")
	f.Add("catalog = { pipe = [1, { stock = [\"3 m\"] }] }")
	f.Fuzz(func(t *testing.T, text string) {
		if len(text) > 4096 {
			return
		}
		var file map[string]any
		if _, err := toml.Decode(text, &file); err != nil {
			return
		}
		rows, problems := DecodeFile(file, "fuzz")
		for _, p := range problems {
			if p.Message == "" || p.String() == "" {
				t.Fatalf("empty problem %+v", p)
			}
		}
		for _, r := range rows {
			if r.Name == "" || r.Kind == "" || !r.Own {
				t.Fatalf("row %+v", r)
			}
		}
		Check(rows)
		Embedded().With(rows)
	})
}

func nearly(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !agree.Within(got, want, tolerance+1e-9) {
		t.Errorf("%s: %.4f, want %.4f", what, got, want)
	}
}

// A zero in a row is told where it would be taken for left out and filled from the row below, column by
// column; where it says what leaving it out does, it is read.
func TestZeroInARow(t *testing.T) {
	told := 0
	for _, c := range columns {
		if c.num == nil || c.form != amount && c.form != number || c.dim == quantity.Temperature || c.name == "ways" || strings.HasPrefix(c.name, "size") {
			continue
		}
		var zero any = "0 " + unitOf(c.dim)
		if c.form == number {
			zero = int64(0)
		}
		_, bad := DecodeRows(map[string]any{"union": []map[string]any{{"name": "mine", "source": "s", c.name: zero}}}, "x.toml")
		if read := slices.Contains(mayBeZero, c.name); read != (len(bad) == 0) {
			t.Errorf("%s = %v: %v", c.name, zero, bad)
		}
		if told += len(bad); len(bad) == 1 && (bad[0].Key != c.name || bad[0].Hint == "") {
			t.Errorf("%s = %v: %+v", c.name, zero, bad[0])
		}
	}
	if told < 25 {
		t.Errorf("%d columns are told", told)
	}
}

// unitOf is a unit of a dimension.
func unitOf(d quantity.Dimension) string {
	text := quantity.Exact(1, d)
	return text[strings.LastIndexByte(text, ' ')+1:]
}

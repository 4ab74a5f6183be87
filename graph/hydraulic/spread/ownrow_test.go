package spread

import (
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/description"
	"dryfit/graph/route/laying"
)

const ownRowText = `
[pipe]
spec = "pvc-pn10"
size = "50 mm"
[[part]]
id = "tub"
kind = "tub"
ports = ["suction", "return"]
[[part]]
id = "moves"
kind = "pump"
existing = true
known = "data-sheet"
curve = [["0 m3/h", "11 m"], ["9 m3/h", "8 m"], ["17 m3/h", "2 m"]]
[[part]]
id = "p"
kind = "KIND"
existing = true
WHAT
[[run]]
from = "tub.suction"
to = "moves.in"
length = "30 m"
existing = true
[[run]]
from = "moves.out"
to = "p.in"
length = "30 m"
existing = true
[[run]]
from = "p.out"
to = "tub.return"
length = "30 m"
existing = true
`

// spansOfP is how far what may be off of part p, by its words.
func spansOfP(t *testing.T, kind, what, row string) map[string][2]float64 {
	t.Helper()
	return spansIn(t, ownRowText, kind, what, row)
}

func spansIn(t *testing.T, base, kind, what, row string) map[string][2]float64 {
	t.Helper()
	text := strings.NewReplacer("KIND", kind, "WHAT", what).Replace(base)
	if kind == "pump" { // it is the only one
		text = strings.Replace(text, `id = "moves"`+"\nkind = \"pump\"", `id = "moves"`+"\nkind = \"union\"", 1)
		text = strings.Replace(text, "known = \"data-sheet\"\ncurve = [[\"0 m3/h\", \"11 m\"], [\"9 m3/h\", \"8 m\"], [\"17 m3/h\", \"2 m\"]]\n", "", 1)
	}
	c, ds := description.Read("own.toml", []byte(text+row))
	if c == nil || graph.HasErrors(ds) {
		t.Fatalf("%s %s: %v", kind, what, ds)
	}
	out := map[string][2]float64{}
	for _, u := range Unknowns(nil, laying.Of(c.At(graph.After)), "") {
		if u.Part == "p" || u.What == hosesClass {
			out[u.What] = [2]float64{u.Span.Low, u.Span.High}
		}
	}
	return out
}

// What is known of a part is known as well by a row of the user's as by the same numbers as its own keys:
// it is one sheet, written down here or there. Whether the part is said to be known or not.
func TestOwnRowIsAsSureAsKeys(t *testing.T) {
	for _, c := range []struct{ kind, keys, row string }{
		{"pump", `curve = [["0 m3/h", "11 m"], ["9 m3/h", "8 m"], ["17 m3/h", "2 m"]]`, `curve = [["0 m3/h", "11 m"], ["9 m3/h", "8 m"], ["17 m3/h", "2 m"]]`},
		{"pump", `speeds = [{ name = "low", ratio = 0.5 }, { name = "high", curve = [["0 m3/h", "11 m"], ["17 m3/h", "2 m"]] }]`,
			`speeds = [{ name = "low", ratio = 0.5 }, { name = "high", curve = [["0 m3/h", "11 m"], ["17 m3/h", "2 m"]] }]`},
		{"filter", `loss = { flow = "9 m3/h", drop = "6 kPa" }`, "loss-flow = \"9 m3/h\"\nloss-drop = \"6 kPa\""},
		{"uv-chamber", `loss = { flow = "9 m3/h", drop = "6 kPa" }`, "loss-flow = \"9 m3/h\"\nloss-drop = \"6 kPa\""},
		{"check-valve", "loss = { flow = \"9 m3/h\", drop = \"6 kPa\" }\ncracking = \"7 kPa\"", "loss-flow = \"9 m3/h\"\nloss-drop = \"6 kPa\"\ncracking = \"7 kPa\"\nstyle = \"spring-check\"\nspec = \"pvc-pn10\"\nsize = \"50 mm\""},
		{"jet-group", "count = 8\nbore = \"8 mm\"\nk = 1.1", "bore = \"8 mm\"\nk = 1.1"},
	} {
		for _, known := range []string{"", "known = \"assumed\"", "known = \"data-sheet\"", "known = \"measured\""} {
			count := ""
			if c.kind == "jet-group" {
				count = "count = 8\n"
			}
			rating := "rating = \"3 bar\"\n"
			if c.kind == "pump" {
				rating = ""
			}
			byKey := spansOfP(t, c.kind, c.keys+"\n"+known, "")
			byRow := spansOfP(t, c.kind, "type = \"mine\"\n"+count+known, "\n[[catalog."+c.kind+"]]\nname = \"mine\"\nsource = \"its sheet\"\n"+rating+c.row+"\n")
			for what, by := range byKey {
				if got, ok := byRow[what]; !ok || !agree.Within(got[0], by[0], 1e-12) || !agree.Within(got[1], by[1], 1e-12) {
					t.Errorf("%s %q: %s is off by %v by its key, %v by a row", c.kind, known, what, by, got)
				}
			}
			if len(byKey) == 0 || len(byRow) != len(byKey) {
				t.Errorf("%s %q: by its keys %v, by a row %v", c.kind, known, byKey, byRow)
			}
		}
	}
}

// Two openings on a pump for circulation are eyes in the wall, which hang on no hoses, and what is said of
// them is as much the user's own, whether their nozzle stands at the part or in a row of his.
func TestOwnRowOfEyes(t *testing.T) {
	eyes := strings.NewReplacer("11 m", "3 m", "8 m", "2 m", "\"2 m\"]]", "\"0.5 m\"]]").Replace(ownRowText)
	row := "\n[[catalog.jet-group]]\nname = \"mine\"\nsource = \"by calliper\"\nrating = \"3 bar\"\nbore = \"14.5 mm\"\nk = 1.1\n"
	byKey := spansIn(t, eyes, "jet-group", "count = 2\nbore = \"14.5 mm\"\nk = 1.1", "")
	byRow := spansIn(t, eyes, "jet-group", "type = \"mine\"\ncount = 2", row)
	if _, on := byRow[hosesClass]; on || len(byRow) != len(byKey) || len(byKey) == 0 {
		t.Errorf("by a row %v, by keys %v", byRow, byKey)
	}
	c, _ := description.Read("own.toml", []byte(strings.NewReplacer("KIND", "jet-group", "WHAT", "type = \"mine\"\ncount = 2").Replace(eyes)+row))
	for _, u := range Unknowns(nil, laying.Of(c.At(graph.After)), "") {
		if u.What == "the bore of p" && (!u.Given || u.Value.In(0) != "14.5 mm") {
			t.Errorf("the bore in a row of the user's is %q, given %v", u.Value.In(0), u.Given)
		}
	}
}

// A row of the user's that says of a type how long its body is says nothing of what it costs the water,
// nor of what a pump moves: that is the catalogue's still, and as little known as without it.
func TestOwnRowOfAnotherMatter(t *testing.T) {
	for _, c := range []struct{ kind, what, name string }{
		{"pump", "type = \"two-speed-pump\"\nspeeds = [{ name = \"low\" }, { name = \"high\", power = \"1.1 kW\" }]", "two-speed-pump"},
		{"pump", "type = \"circulation-pump-1.5in\"", "circulation-pump-1.5in"},
		{"filter", "type = \"cartridge-filter\"", "cartridge-filter"},
		{"ozone-injector", "type = \"ozone-injector\"", "ozone-injector"},
	} {
		without := spansOfP(t, c.kind, c.what, "")
		with := spansOfP(t, c.kind, c.what, "\n[[catalog."+c.kind+"]]\nname = \""+c.name+"\"\nbody-long = \"333 mm\"\nsource = \"by tape\"\n")
		for what, off := range without {
			if with[what] != off {
				t.Errorf("%s: %s is off by %v, with its length measured by %v", c.name, what, off, with[what])
			}
		}
		if len(without) == 0 || len(with) != len(without) {
			t.Errorf("%s: %v, with its length measured %v", c.name, without, with)
		}
	}
}

// Who has written the sheet's figures down, by keys or in a row of his own, is told the word that makes them
// count as the sheet's; who has not, or has said so, is not.
func TestWrittenFiguresAskForTheirWord(t *testing.T) {
	loss := "loss = { flow = \"9 m3/h\", drop = \"6 kPa\" }\n"
	row := "\n[[catalog.filter]]\nname = \"mine\"\nsource = \"its sheet\"\nrating = \"3 bar\"\nloss-flow = \"9 m3/h\"\nloss-drop = \"6 kPa\"\n"
	for _, c := range []struct {
		what, row string
		asks      bool
	}{{loss, "", true}, {`type = "mine"`, row, true}, {"", "", false}, {loss + `known = "data-sheet"`, "", false}, {`type = "mine"` + "\nknown = \"measured\"", row, false}} {
		text := strings.NewReplacer("KIND", "filter", "WHAT", c.what).Replace(ownRowText)
		d, ds := description.Read("own.toml", []byte(text+c.row))
		if d == nil || graph.HasErrors(ds) {
			t.Fatal(ds)
		}
		told := false
		for _, f := range Of(nil, laying.Of(d.At(graph.After)), "", nil, nil).Moves {
			if f.Part == "p" && strings.HasPrefix(f.What, "the drop") {
				told = true
				if asks := strings.Contains(string(f.Reading), "known as data-sheet"); asks != c.asks {
					t.Errorf("%q %q: %s", c.what, c.row, f.Reading)
				}
			}
		}
		if !told {
			t.Errorf("%q: nothing is told of its drop", c.what)
		}
	}
}

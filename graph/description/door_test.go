package description

import (
	"go/ast"
	"go/parser"
	"go/token"
	"math"
	"slices"
	"strings"
	"testing"

	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/settle"
)

// doors are descriptions by what of them is a head or a pressure, X standing for its amount.
var doors = map[string]string{
	"cracking":          "[[part]]\nid = \"x\"\nkind = \"check-valve\"\ncracking = \"X\"\n",
	"highest-pressure":  "[[part]]\nid = \"x\"\nkind = \"heat-pump\"\nhighest-pressure = \"X\"\n",
	"loss drop":         "[[part]]\nid = \"x\"\nkind = \"filter\"\nloss = { flow = \"10 m3/h\", drop = \"X\" }\n",
	"loss points":       "[[part]]\nid = \"x\"\nkind = \"filter\"\nloss = { points = [[\"5 m3/h\", \"0.1 kPa\"], [\"10 m3/h\", \"X\"]] }\n",
	"jets rated":        "[[part]]\nid = \"x\"\nkind = \"jet-group\"\ncount = 3\nrated = { flow = \"38 l/min\", drop = \"X\" }\n",
	"curve":             "[[part]]\nid = \"x\"\nkind = \"pump\"\ncurve = [[\"0 m3/h\", \"X\"], [\"10 m3/h\", \"0.2 m\"]]\n",
	"speeds curve":      "[[part]]\nid = \"x\"\nkind = \"pump\"\nspeeds = [{ name = \"low\", curve = [[\"0 m3/h\", \"X\"], [\"10 m3/h\", \"0.2 m\"]] }]\n",
	"npsh":              "[[part]]\nid = \"x\"\nkind = \"pump\"\nnpsh = [[\"5 m3/h\", \"0.2 m\"], [\"10 m3/h\", \"X\"]]\n",
	"spring":            "[[part]]\nid = \"x\"\nkind = \"heat-pump\"\n[retrofit]\nunit = \"x\"\nspring = \"X\"\n",
	"reading":           "[[part]]\nid = \"x\"\nkind = \"filter\"\nexisting = true\n[[reading]]\nat = \"x.in\"\npressure = \"X\"\n",
	"reading off":       "[[part]]\nid = \"x\"\nkind = \"filter\"\nexisting = true\n[[reading]]\nat = \"x.in\"\npressure = \"3 m\"\nplus-minus = \"X\"\n",
	"row cracking":      "[[catalog.check-valve]]\nname = \"mine\"\nstyle = \"spring-check\"\nkv = \"20 m3/h\"\ncracking = \"X\"\nsource = \"sheet\"\n[[part]]\nid = \"x\"\nkind = \"check-valve\"\ntype = \"mine\"\n",
	"row loss-drop":     "[[catalog.filter]]\nname = \"mine\"\nloss-flow = \"10 m3/h\"\nloss-drop = \"X\"\nrating = \"2 bar\"\nsource = \"sheet\"\n[[part]]\nid = \"x\"\nkind = \"filter\"\ntype = \"mine\"\n",
	"row loss":          "[[catalog.filter]]\nname = \"mine\"\nloss = { flow = \"10 m3/h\", drop = \"X\" }\nrating = \"2 bar\"\nsource = \"sheet\"\n[[part]]\nid = \"x\"\nkind = \"filter\"\ntype = \"mine\"\n",
	"row cracking-low":  rowOfCheck("cracking-low"),
	"row cracking-high": rowOfCheck("cracking-high"),
	"row loss-low":      rowOfFilter("loss-flow = \"10 m3/h\"\nloss-drop = \"2 m\"\nloss-low = \"X\"\nloss-high = \"9 m\"\n"),
	"row loss-high":     rowOfFilter("loss-flow = \"10 m3/h\"\nloss-drop = \"1 m\"\nloss-low = \"0.3 m\"\nloss-high = \"X\"\n"),
	"row loss low":      rowOfFilter("loss = { flow = \"10 m3/h\", drop = \"2 m\", low = \"X\", high = \"9 m\" }\n"),
	"row loss high":     rowOfFilter("loss = { flow = \"10 m3/h\", drop = \"1 m\", low = \"0.3 m\", high = \"X\" }\n"),
	"row rating":        "[[catalog.filter]]\nname = \"mine\"\nloss = { flow = \"10 m3/h\", drop = \"6 kPa\" }\nrating = \"X\"\nsource = \"sheet\"\n[[part]]\nid = \"x\"\nkind = \"filter\"\ntype = \"mine\"\n",
	"row curve":         "[[catalog.pump]]\nname = \"mine\"\ncurve = [[\"0 m3/h\", \"X\"], [\"10 m3/h\", \"0.2 m\"]]\nsource = \"sheet\"\n[[part]]\nid = \"x\"\nkind = \"pump\"\ntype = \"mine\"\n",
	"row speeds":        "[[catalog.pump]]\nname = \"mine\"\nspeeds = [{ name = \"low\", ratio = 0.5 }, { name = \"high\", curve = [[\"0 m3/h\", \"X\"], [\"10 m3/h\", \"0.2 m\"]] }]\nsource = \"sheet\"\n[[part]]\nid = \"x\"\nkind = \"pump\"\ntype = \"mine\"\n",
}

// A metre is a metre of the water pumped, wherever a head or a pressure may be given: each key
// is fed in metres, feet, kPa, bar and psi, 9.80665 m/s² times a density of 900 kg/m³ (no water has
// it: what counts metres of another shows), 0.3048 m a foot and 6.894757293168361 kPa a psi, and what
// is settled must agree.
func TestOneDoorForHeads(t *testing.T) {
	for key, text := range doors {
		var got [][]float64
		for _, amount := range []string{"1.5 m", "4.921259842519685 ft", "13.2389775 kPa", "0.132389775 bar", "1.9201513464611408 psi"} {
			all := "[water]\ndensity = \"900 kg/m3\"\n" + strings.ReplaceAll(text, "X", amount)
			if key != "spring" {
				all += "[[part]]\nid = \"tub\"\nkind = \"tub\"\nports = [\"a\", \"b\"]\n[[run]]\nfrom = \"tub.a\"\nto = \"x.in\"\nlength = \"0 mm\"\n[[run]]\nfrom = \"x.out\"\nto = \"tub.b\"\nlength = \"0 mm\"\n"
			}
			c, ds := Read("door.toml", []byte(all))
			if c == nil {
				t.Fatalf("%s in %s: %v", key, amount, ds)
			}
			got = append(got, heads(c))
			if apart, own := rowsApart(t, all); own != nil { // as a file beside the description
				if c, ds = ReadWith("door.toml", apart, own); c == nil {
					t.Fatalf("%s in %s, rows apart: %v", key, amount, ds)
				}
				got = append(got, heads(c))
			}
		}
		found := false
		for i, a := range got[0] {
			for _, other := range got {
				if len(other) != len(got[0]) || !agree.Within(a, other[i], 1e-9*math.Abs(a)) {
					t.Errorf("%s: %v in metres, %v in another unit", key, got[0], other)
				}
			}
			found = found || math.Abs(a-1.5) <= 1e-9
		}
		if !found {
			t.Errorf("%s: no 1.5 m in %v", key, got[0])
		}
	}
}

// rowOfFilter is a filter by a row of the file's own that says some loss.
func rowOfFilter(loss string) string {
	return "[[catalog.filter]]\nname = \"mine\"\n" + loss + "rating = \"2 bar\"\nsource = \"sheet\"\n[[part]]\nid = \"x\"\nkind = \"filter\"\ntype = \"mine\"\n"
}

// rowOfCheck is a check by a row of the file's own, one end of its cracking pressure's range X.
func rowOfCheck(end string) string {
	ends := map[string]string{"cracking": "1 m", "cracking-low": "0.2 m", "cracking-high": "9 m"}
	if end == "cracking-low" {
		ends["cracking"] = "2 m"
	}
	ends[end] = "X"
	return "[[catalog.check-valve]]\nname = \"mine\"\nstyle = \"spring-check\"\nkv = \"20 m3/h\"\ncracking = \"" + ends["cracking"] + "\"\ncracking-low = \"" + ends["cracking-low"] +
		"\"\ncracking-high = \"" + ends["cracking-high"] + "\"\nsource = \"sheet\"\n[[part]]\nid = \"x\"\nkind = \"check-valve\"\ntype = \"mine\"\n"
}

// heads are what a circuit says of heads and pressures, in m of its water.
func heads(c *graph.Circuit) []float64 {
	st := settle.Of(c)
	density, metre := st.Water.Density.V, st.Water.Metre()
	var out []float64
	add := func(h float64) { out = append(out, h) }
	curve := func(list []graph.CurvePoint) {
		for _, p := range list {
			add(p.Head.Head(density))
		}
	}
	p := st.Part("x")
	if p.Check != nil || p.Kind == graph.CheckValve {
		add(p.Cracking.V / metre)
	}
	add(p.Highest.V / metre)
	if l := p.Part.Loss; l != nil {
		for _, q := range l.Points {
			add(q.Drop.Head(density))
		}
	}
	for _, row := range []float64{p.LossRow.V.LossDropPa, p.LossRow.V.LossLowPa, p.LossRow.V.LossHighPa, p.LossRow.V.CrackingLowPa, p.LossRow.V.CrackingHighPa} {
		add(row / metre)
	}
	for _, s := range []settle.Spread{p.Loss.Spread, p.Cracking.Spread} { // what the range comes to
		add(s.Low)
		add(s.High)
	}
	if j := p.Jets; j != nil && j.Rated != nil {
		add(j.Rated.Drop.Head(density))
	}
	if p.Pump != nil {
		curve(p.Pump.NPSH)
	}
	for _, s := range p.Speeds.V {
		curve(s.Curve)
	}
	for _, r := range c.Readings {
		add(r.Pressure / metre)
		add(r.OffPa / metre)
	}
	if c.Retrofit != nil {
		add(c.Retrofit.SpringPa / metre)
	}
	return out
}

// Every column of the catalogue that takes a head as well as a pressure is tried above.
func TestEveryColumnOfHeadsIsTried(t *testing.T) {
	file, err := parser.ParseFile(token.NewFileSet(), "../../catalog/column.go", nil, 0)
	if err != nil {
		t.Fatal(err)
	}
	var found []string
	ast.Inspect(file, func(n ast.Node) bool {
		if call, ok := n.(*ast.CallExpr); ok && len(call.Args) > 0 {
			if f, ok := call.Fun.(*ast.Ident); ok && f.Name == "pressureOf" {
				if name, ok := call.Args[0].(*ast.BasicLit); ok {
					found = append(found, strings.Trim(name.Value, `"`))
				}
			}
		}
		return true
	})
	slices.Sort(found)
	tried := []string{"cracking", "cracking-high", "cracking-low", "loss-drop", "loss-high", "loss-low", "rating"}
	if !slices.Equal(found, tried) {
		t.Errorf("columns with heads: %v; tried: %v", found, tried)
	}
}

// The limits that take a head as well as a pressure are those tried above; who adds one adds
// its key there.
func TestEveryLimitOfHeadsIsTried(t *testing.T) {
	tried := []string{"Drop", "PumpHead", "SuctionHead", "Highest", "Cracking", "SpringAsked", "GaugePressure", "ReadingOff"}
	file, err := parser.ParseFile(token.NewFileSet(), "field/limit.go", nil, 0)
	if err != nil {
		t.Fatal(err)
	}
	var found []string
	ast.Inspect(file, func(n ast.Node) bool {
		spec, ok := n.(*ast.ValueSpec)
		if !ok {
			return true
		}
		for i, v := range spec.Values {
			head := false
			ast.Inspect(v, func(n ast.Node) bool {
				s, ok := n.(*ast.SelectorExpr)
				head = head || ok && s.Sel.Name == "Head"
				return true
			})
			if head {
				found = append(found, spec.Names[i].Name)
			}
		}
		return true
	})
	slices.Sort(found)
	slices.Sort(tried)
	if !slices.Equal(found, tried) {
		t.Errorf("limits with heads: %v; tried: %v", found, tried)
	}
}

// What a part stands is held against what it costs the water in the same metres: of equal amounts
// in any unit nothing is asked, of a drop a hundredth above it something is.
func TestDropAgainstWhatIsStoodInAnyUnit(t *testing.T) {
	for _, stands := range []string{"12 m", "105.91182 kPa"} { // 12·900·9.80665 Pa
		for drop, asked := range map[string]bool{"11.999 m": false, "105.91 kPa": false, "12.12 m": true, "106.98 kPa": true} {
			_, ds := Read("stands.toml", []byte("[water]\ndensity = \"900 kg/m3\"\n[[part]]\nid = \"x\"\nkind = \"filter\"\nhighest-pressure = \""+stands+"\"\nloss = { flow = \"10 m3/h\", drop = \""+drop+"\" }\n"))
			found := slices.ContainsFunc(ds, func(d graph.Diagnostic) bool { return strings.Contains(d.Message.In(0), "is to cost the water") })
			if found != asked {
				t.Errorf("drop %s, stands %s: asked %v, want %v", drop, stands, found, asked)
			}
		}
	}
}

// rowsApart is a description without its own rows, and those, read as a file beside it; none where
// it has none.
func rowsApart(t *testing.T, text string) ([]byte, []catalog.Row) {
	from := strings.Index(text, "[[catalog.")
	if from < 0 {
		return nil, nil
	}
	to := from + strings.Index(text[from:], "[[part]]")
	rows, ds := ReadCatalog("rows.toml", []byte(text[from:to]))
	if len(rows) == 0 || len(ds) > 0 {
		t.Fatalf("%s: %v", text[from:to], ds)
	}
	return []byte(text[:from] + text[to:]), rows
}

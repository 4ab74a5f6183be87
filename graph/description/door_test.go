package description

import (
	"go/ast"
	"go/parser"
	"go/token"
	"math"
	"slices"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/settle"
)

// A metre is a metre of the water pumped, wherever a head or a pressure may be given: each key
// is fed in metres and in kPa, 9.80665 m/s² times a density of 900 kg/m³ (no water has it: what
// counts metres of another shows), and what is settled must agree.
func TestOneDoorForHeads(t *testing.T) {
	kinds := map[string]string{ // by key: what it is written in, with X for the amount
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
	for key, text := range kinds {
		got := map[string][]float64{}
		for _, amount := range []string{"1.5 m", "13.2389775 kPa"} {
			all := "[water]\ndensity = \"900 kg/m3\"\n" + strings.ReplaceAll(text, "X", amount)
			if key != "spring" {
				all += "[[part]]\nid = \"tub\"\nkind = \"tub\"\nports = [\"a\", \"b\"]\n[[run]]\nfrom = \"tub.a\"\nto = \"x.in\"\nlength = \"0 mm\"\n[[run]]\nfrom = \"x.out\"\nto = \"tub.b\"\nlength = \"0 mm\"\n"
			}
			c, ds := Read("door.toml", []byte(all))
			if c == nil {
				t.Fatalf("%s: %v", key, ds)
			}
			got[amount] = heads(c)
		}
		a, b := got["1.5 m"], got["13.2389775 kPa"]
		if len(a) == 0 || len(a) != len(b) {
			t.Fatalf("%s: %v, %v", key, a, b)
		}
		found := false
		for i := range a {
			if !agree.Within(a[i], b[i], 1e-9*math.Abs(b[i])) {
				t.Errorf("%s: %v in metres, %v in kPa", key, a, b)
			}
			found = found || math.Abs(a[i]-1.5) <= 1e-9
		}
		if !found {
			t.Errorf("%s: no 1.5 m in %v", key, a)
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

package settle_test

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/catalog/tables"
	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/description"
	"dryfit/graph/settle"
)

// read returns the after stage of a description, settled.
func read(t *testing.T, text string) *settle.Stage {
	t.Helper()
	c, ds := description.Read("job.toml", []byte(text))
	if c == nil {
		t.Fatalf("not clean: %v", ds)
	}
	return settle.Of(c.At(graph.After))
}

// loop is a tub with a pump, a check and a unit in its line; the parts' own keys go in.
func loop(check, unit string) string {
	return `
[pipe]
spec = "pvc-sch40"
size = "2 in"
[[part]]
id = "tub"
kind = "tub"
ports = ["s", "r"]
[[part]]
id = "pump"
kind = "pump"
type = "two-speed-pump-small"
[[part]]
id = "check"
kind = "check-valve"
` + check + `
[[part]]
id = "unit"
kind = "heat-pump"
` + unit + `
[[run]]
from = "tub.s"
to = "pump.in"
length = "1 m"
[[run]]
from = "pump.out"
to = "check.in"
length = "1 m"
[[run]]
from = "check.out"
to = "unit.in"
length = "1 m"
[[run]]
from = "unit.out"
to = "tub.r"
length = "1 m"
`
}

// What a check is and when it opens, however it is said. 2 psi is 13789.5 Pa (NIST SP 811);
// a swing check opens at once, and a check of which nothing is said is a spring (common
// practice, no source).
func TestCheck(t *testing.T) {
	const psi = 6894.757
	for name, c := range map[string]struct {
		keys  string
		style string
		pa    float64
		how   settle.How
	}{
		"swing by type":         {`type = "swing-check 2 in"`, settle.Swing, 0, settle.Row},
		"swing by style":        {`style = "swing"`, settle.Swing, 0, settle.Row},
		"spring by type":        {`type = "spring-check 4 psi"`, settle.Spring, 4 * psi, settle.Row},
		"spring by key":         {`cracking = "4 psi"`, settle.Spring, 4 * psi, settle.Given},
		"key before type":       {"type = \"spring-check 4 psi\"\ncracking = \"1 psi\"", settle.Spring, psi, settle.Given},
		"zero is a value":       {"type = \"spring-check 4 psi\"\ncracking = \"0 psi\"", settle.Spring, 0, settle.Given},
		"nothing said":          {``, settle.Spring, 2 * psi, settle.Assumed},
		"style against the row": {"type = \"spring-check 4 psi\"\nstyle = \"swing\"", settle.Swing, 0, settle.Assumed},
	} {
		p := read(t, loop(c.keys, "")).Part("check")
		if p.Style.V != c.style || !agree.Within(p.Cracking.V, c.pa, 0.01) || p.Cracking.How != c.how || !p.Cracking.Known {
			t.Errorf("%s: %s at %g Pa, %s; want %s at %g Pa, %s", name, p.Style.V, p.Cracking.V, p.Cracking.How, c.style, c.pa, c.how)
		}
	}
}

// The limits of a unit come from its keys, one by one, else from the row it names; a generic
// row that nobody named promises nothing.
func TestLimits(t *testing.T) {
	const perHour = 1.0 / 3600
	for name, c := range map[string]struct {
		keys               string
		least, rated, most float64 // m³/h; 0: not known
		ports              string
	}{
		"type":            {`type = "heat-pump 12 kW"`, 3, 4.2, 8.4, "1-1/2 in"},
		"keys":            {"ports-size = \"2 in\"\nflow = { least = \"2 m3/h\", rated = \"3 m3/h\", most = \"5 m3/h\" }", 2, 3, 5, "2 in"},
		"one key":         {"type = \"heat-pump 12 kW\"\nflow = { least = \"2.5 m3/h\" }", 2.5, 4.2, 8.4, "1-1/2 in"},
		"nothing is said": {``, 0, 0, 0, ""},
	} {
		p := read(t, loop("", c.keys)).Part("unit")
		for _, v := range []struct {
			got  settle.Value
			want float64
		}{{p.Least, c.least}, {p.Rated, c.rated}, {p.Most, c.most}} {
			if v.got.Known != (v.want > 0) || !agree.Within(v.got.V, v.want*perHour, 1e-9) {
				t.Errorf("%s: %g m3/h, want %g", name, v.got.V*3600, v.want)
			}
		}
		if got := settle.UnitPorts(read(t, loop("", c.keys)).Circuit.Catalog, p.Part).V.String(); got != c.ports {
			t.Errorf("%s: ports %q, want %q", name, got, c.ports)
		}
	}
}

// What is off together says so by its class, with one span; the bores of four runs of one
// pipe are.
func TestUnknowns(t *testing.T) {
	spans, bores := map[string]settle.Unknown{}, 0
	for _, u := range read(t, loop("", "")).Unknowns() {
		if (u.Class == "") == (u.Words == "") && u.Span.High > u.Span.Low {
			t.Errorf("%s of %s: neither by itself nor of a class", u.Number, u.At)
		}
		if first, ok := spans[u.Class]; ok && u.Class != "" && first.Span != u.Span {
			t.Errorf("%s: %+v and %+v", u.Class, first.Span, u.Span)
		}
		spans[u.Class] = u
		if u.Class == "the bore of new pvc-sch40 pipe" {
			bores++
		}
	}
	if bores != 4 {
		t.Errorf("%d bores are one unknown, want four", bores)
	}
}

// What show says may be off is what is sampled: every settled value with a spread, its class
// and its bounds, is an unknown of the walk.
func TestUnknownsAreTheValues(t *testing.T) {
	number := map[string]settle.Number{"loss": settle.LossNumber, "cracking pressure": settle.CrackingNumber,
		"bore": settle.BoreNumber, "roughness": settle.RoughNumber, "length": settle.LengthNumber}
	files, _ := filepath.Glob("../../testdata/*.toml")
	n := 0
	for _, f := range files {
		data, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		c, _ := description.Read(filepath.Base(f), data)
		s := settle.Of(c)
		unknowns := map[settle.Key]settle.Unknown{}
		for _, u := range s.Unknowns() {
			unknowns[settle.Key{Of: u.At, What: string(u.Number)}] = u
		}
		for k, v := range s.Values() {
			if !(v.High > v.Low) || number[k.What] == "" {
				continue
			}
			n++
			u, ok := unknowns[settle.Key{Of: k.Of, What: string(number[k.What])}]
			if v.Class == settle.FittingsClass || v.Class == settle.TeesClass {
				u, ok = unknowns[settle.Key{Of: k.Of, What: string(settle.FittingsNumber)}]
			}
			if !ok || u.Span != v.Span || u.Class != v.Class {
				t.Errorf("%s: %s is %+v %q and its unknown %+v %q", f, k, v.Span, v.Class, u.Span, u.Class)
			}
		}
	}
	if n < 50 {
		t.Fatalf("%d values with a spread in all demos", n)
	}
}

// Settling changes nothing of the circuit, every demo's values have an origin, and what is
// given says where.
func TestDemos(t *testing.T) {
	files, _ := filepath.Glob("../../testdata/*.toml")
	if len(files) < 5 {
		t.Fatal("no demos")
	}
	for _, f := range files {
		data, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		c, _ := description.Read(filepath.Base(f), data)
		before := string(description.Write(c))
		n := 0
		for k, v := range settle.Of(c).Values() {
			n++
			switch {
			case !v.Known || v.How == "":
				t.Errorf("%s: %s has no origin: %+v", f, k, v)
			case v.How == settle.Given && !v.Pos.IsValid() && v.Why == "":
				t.Errorf("%s: %s is given, but nobody knows where", f, k)
			case v.How == settle.Derived && len(v.Of) == 0:
				t.Errorf("%s: %s is derived from nothing", f, k)
			case (v.How == settle.Row || v.How == settle.OwnRow) && v.Row == "":
				t.Errorf("%s: %s is of a row without a name", f, k)
			}
		}
		if n < 50 {
			t.Errorf("%s: %d values", f, n)
		}
		if string(description.Write(c)) != before {
			t.Errorf("%s: settling changed the circuit", f)
		}
	}
}

// TestCracking: what the description says of a check comes first, then the row it names, then
// the default spring; a swing check of which nothing is said opens at once. 1 psi is
// 6894.757 Pa (NIST SP 811).
func TestCracking(t *testing.T) {
	const psi = 6894.757
	for _, c := range []struct {
		name string
		part graph.Part
		want float64
	}{
		{"own, over its row's", graph.Part{Type: "spring-check 1/2 psi", Check: &graph.CheckData{CrackingSet: true, CrackingPa: 9000}}, 9000},
		{"own, of a swing check", graph.Part{Check: &graph.CheckData{Style: "swing", CrackingSet: true, CrackingPa: 300}}, 300},
		{"the row's", graph.Part{Type: "spring-check 1/2 psi"}, 0.5 * psi},
		{"the default spring's, 2 psi in the catalogue", graph.Part{Check: &graph.CheckData{Style: "spring"}}, 2 * psi},
		{"a swing check's", graph.Part{Check: &graph.CheckData{Style: "swing"}}, 0},
	} {
		c.part.ID, c.part.Kind = "check", graph.CheckValve
		circuit := &graph.Circuit{Catalog: catalog.Embedded(), Parts: []*graph.Part{&c.part}}
		if got := settle.Of(circuit).Part("check").Cracking.V; !agree.Within(got, c.want, 1) {
			t.Errorf("%s: %.1f Pa, want %.1f", c.name, got, c.want)
		}
	}
}

// TestUnitRow: a unit that names no row has the default one, whatever its pipe.
func TestUnitRow(t *testing.T) {
	cat := catalog.Embedded()
	want, ok := cat.Generic("heat-pump")
	if !ok {
		t.Fatal("the catalogue has no heat pump")
	}
	for _, inch := range []float64{1, 1.5, 2} {
		u := &graph.Part{ID: "unit", Kind: graph.HeatPump, Size: catalog.Size{Nominal: inch}}
		if got := settle.Of(&graph.Circuit{Catalog: cat, Parts: []*graph.Part{u}}).Part("unit").Row.V; got.Name != want.Name {
			t.Errorf("%g in: row %q, want %q", inch, got.Name, want.Name)
		}
	}
}

// A valve warm stands less than cold: by
// the derating of PPI (73 °F 1, 120 °F 0.40; read in makers' sheets), and at 38 °C some 0.6 of it.
func TestWarmStandsLess(t *testing.T) {
	part := read(t, loop("highest-pressure = \"10 bar\"", "")).Part("check")
	if got := part.Derated.V / part.Highest.V; !(got > 0.5 && got < 0.75) {
		t.Errorf("at 38 °C it stands %.2f of its rating", got)
	}
}

// Of a pump of which its sheet says only the greatest head and flow the head between them is as sure as
// a guess; one point more, and it is as sure as its sheet.
func TestCurveOfTwoEndsIsAGuess(t *testing.T) {
	head := func(known, curve string) (span tables.Span) {
		text := strings.Replace(loop("", ""), `type = "two-speed-pump-small"`, "known = \""+known+"\"\ncurve = ["+curve+"]", 1)
		for _, u := range read(t, text).Unknowns() {
			if u.Number == settle.HeadNumber {
				span = u.Span
			}
		}
		return span
	}
	const ends, three = `["0 m3/h", "3 m"], ["4 m3/h", "0 m"]`, `["0 m3/h", "3 m"], ["2 m3/h", "2 m"], ["4 m3/h", "0 m"]`
	const short = `["0 m3/h", "3 m"], ["3 m3/h", "1 m"]`
	guess := head("assumed", three)
	for _, c := range []struct {
		known, curve string
		guessed      bool
	}{{"data-sheet", ends, true}, {"data-sheet", three, false}, {"data-sheet", short, false}, {"measured", ends, true}, {"measured", three, false}} {
		if got := head(c.known, c.curve); (got == guess) != c.guessed || !(got.High > got.Low) {
			t.Errorf("%s %s: %+v, a guess is %+v", c.known, c.curve, got, guess)
		}
	}
}

// Hose known by its bore alone has the wall of hose, ribs and all, as one has that is known by its size, and is
// not as smooth as glass for want of a row. Follows from the rows of the catalogue.
func TestPipeOfNoSizeHasTheWallOfItsKind(t *testing.T) {
	pipe := func(keys string) *settle.Run {
		return read(t, strings.Replace(loop("", ""), "to = \"pump.in\"\nlength = \"1 m\"", "to = \"pump.in\"\nlength = \"1 m\"\nid = \"hose\"\nspec = \"hose\"\n"+keys, 1)).Run("hose")
	}
	sized, bored := pipe("size = \"38 mm\""), pipe("size = \"41 mm\"\nbore = \"41 mm\"")
	if !(sized.Rough.V > 0) || bored.Rough.V != sized.Rough.V || bored.Rough.Span != sized.Rough.Span || bored.Rough.Class != sized.Rough.Class || bored.Bore.V != 41 {
		t.Errorf("by its bore: roughness %g mm, %+v; by its size %g mm, %+v", bored.Rough.V, bored.Rough.Spread, sized.Rough.V, sized.Rough.Spread)
	}
	if smooth := pipe("size = \"41 mm\"\nbore = \"41 mm\"\nroughness = \"0 mm\""); smooth.Rough.V != 0 || smooth.Rough.How != settle.Given {
		t.Errorf("said to be smooth: %g mm, %s", smooth.Rough.V, smooth.Rough.How)
	}
}

// Pipe known by its bore alone, of no kind and no size, is as smooth as plastic pipe until somebody says more: that is
// assumed and told, and reaches from plastic as new to flexible hose, 0.0015 to 0.05 mm. Follows from the rows of the catalogue.
func TestPipeOfNoKindHasAWallThatIsAssumed(t *testing.T) {
	pipe := func(keys string) *settle.Run {
		text := strings.Replace(loop("", ""), "[pipe]\nspec = \"pvc-sch40\"\nsize = \"2 in\"\n", "", 1)
		text = strings.ReplaceAll(text, "length = \"1 m\"", "length = \"1 m\"\nbore = \"41 mm\"\n"+keys)
		return read(t, strings.Replace(text, "to = \"pump.in\"", "to = \"pump.in\"\nid = \"pipe\"", 1)).Run("pipe")
	}
	r := pipe("")
	if r.Spec != "" || r.Bore.V != 41 {
		t.Fatalf("a pipe of %q, bore %g mm: nothing is tested", r.Spec, r.Bore.V)
	}
	if high := r.Rough.V * (1 + r.Rough.High); r.Rough.V != 0.0015 || r.Rough.How != settle.Assumed || r.Rough.Low < 0 || !agree.Within(high, 0.05, 0.001) {
		t.Errorf("roughness %g mm, %s, %+v", r.Rough.V, r.Rough.How, r.Rough.Spread)
	}
	if smooth := pipe("roughness = \"0 mm\""); smooth.Rough.V != 0 || smooth.Rough.How != settle.Given {
		t.Errorf("said to be smooth: %g mm, %s", smooth.Rough.V, smooth.Rough.How)
	}
}

// One jet is one, and of several each.
func TestJetsInWords(t *testing.T) {
	for count, want := range map[int]string{1: "1 jet, K 1.2 on 24 mm", 3: "3 jets, each K 1.2 on 24 mm"} {
		s := read(t, strings.ReplaceAll(strings.ReplaceAll(loop("", ""), `ports = ["s", "r"]`, `ports = ["s", "r", "x", "y"]`), "[[part]]\nid = \"tub\"", fmt.Sprintf("[[part]]\nid = \"jets\"\nkind = \"jet-group\"\nexisting = true\ncount = %d\nbore = \"24 mm\"\nk = 1.2\n[[run]]\nfrom = \"tub.x\"\nto = \"jets.in\"\nlength = \"0 mm\"\nexisting = true\n[[run]]\nfrom = \"jets.out\"\nto = \"tub.y\"\nlength = \"0 mm\"\nexisting = true\n[[part]]\nid = \"tub\"", count)))
		if got := s.Part("jets").Loss.Words().In(quantity.MetricSystem); got != want {
			t.Errorf("%d: %q, want %q", count, got, want)
		}
	}
}

package hydraulic

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"dryfit/graph/agree"
	"dryfit/graph/hydraulic/formula"
	"dryfit/graph/hydraulic/laws"
	"dryfit/graph/hydraulic/network"
)

func near(t *testing.T, what string, got, want, tolerance float64, source string) {
	t.Helper()
	if !agree.Within(got, want, tolerance*math.Abs(want)) {
		t.Errorf("%s = %.7g, want %.7g ± %.3g %% (%s)", what, got, want, 100*tolerance, source)
	}
}

// table reads testdata/file: lines of numbers and words by column name.
func table(t *testing.T, file string) []map[string]string {
	t.Helper()
	f, err := os.Open("testdata/" + file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	all, err := r.ReadAll()
	if err != nil || len(all) < 2 {
		t.Fatalf("%s: %v, %d lines", file, err, len(all))
	}
	var out []map[string]string
	for _, line := range all[1:] {
		row := map[string]string{}
		for i, name := range all[0] {
			row[name] = line[i]
		}
		out = append(out, row)
	}
	return out
}

func num(t *testing.T, row map[string]string, column string) float64 {
	t.Helper()
	if row[column] == "" {
		return 0
	}
	v, err := strconv.ParseFloat(row[column], 64)
	if err != nil {
		t.Fatalf("%s: %v", column, err)
	}
	return v
}

// One pipe each, quantities in SI: D1 to D4 and D8's two pipes.
func TestSinglePipes(t *testing.T) {
	for _, r := range table(t, "pipes.csv") {
		bore, length, q := num(t, r, "bore"), num(t, r, "length"), num(t, r, "flow")
		nu, g, rho := num(t, r, "viscosity"), num(t, r, "g"), num(t, r, "density")
		var h, v, re, f float64
		v = q / formula.Area(bore)
		if f = num(t, r, "constant_f"); f > 0 {
			h = f * length / bore * v * v / (2 * g)
		} else {
			law := laws.NewRunLaw(length, bore, num(t, r, "relative")*bore, nu)
			h, _ = law.Loss(q)
			h *= formula.Gravity / g
			re = q * law.Reynolds
			f, _ = law.Pipe.Friction(re)
		}
		got := map[string]float64{"velocity": v, "reynolds": re, "f": f, "head": h, "drop": rho * g * h, "power": rho * g * h * q}
		value, ok := got[r["quantity"]]
		if !ok {
			t.Fatalf("unknown quantity %q", r["quantity"])
		}
		near(t, r["case"]+" "+r["quantity"], value, num(t, r, "want"), num(t, r, "tolerance"), r["source"])
	}
}

// Head lost in Schedule 40 plastic pipe, ft per 100 ft. The table is by Hazen and Williams
// with C 150, so a law of Darcy and Weisbach meets it within the tolerance said.
func TestFrictionTable(t *testing.T) {
	cold, warm := formula.NewWater(15.56), formula.NewWater(40)
	for _, r := range table(t, "frictiontable.csv") {
		q, bore := num(t, r, "gpm")*6.30901964e-5, num(t, r, "bore_mm")/1000
		loss := func(w Water) float64 {
			h, _ := laws.NewRunLaw(100, bore, 1.5e-6, w.Viscosity/w.Density).Loss(q)
			return h
		}
		name := r["gpm"] + " gpm in " + r["size"]
		tolerance := 0.11
		if size, gpm := r["size"], num(t, r, "gpm"); size == "1-1/2" && gpm >= 30 || size == "2" && gpm >= 40 {
			tolerance = 0.04
		}
		near(t, name, loss(cold), num(t, r, "table"), tolerance, "Illinois Administrative Code 77, 906, appendix A, exhibit I")
		near(t, name+" 60 °F", loss(cold), num(t, r, "darcy_60f"), 0.008, "own Darcy-Weisbach, eps 1.5 um, as printed with two decimals")
		near(t, name+" 40 °C", loss(warm), num(t, r, "darcy_40c"), 0.008, "own Darcy-Weisbach, eps 1.5 um, as printed with two decimals")
	}
}

// series is a row of pipes and losses that carry one flow.
type series []network.Law

func (s series) Loss(q float64) (head, slope float64) {
	for _, l := range s {
		h, d := l.Loss(q)
		head, slope = head+h, slope+d
	}
	return head, slope
}

func square(k, bore float64) network.Law {
	return &laws.PartLaw{Square: laws.SquareOf(k, bore), Times: 1}
}

// driven returns the flow that a head drives through a law.
func driven(t *testing.T, head float64, law network.Law) float64 {
	t.Helper()
	f, err := network.Solve(&network.Network{Nodes: 2, Edges: []network.Edge{{From: 0, To: 1, Law: law}},
		Fixed: []network.Fixed{{Node: 0, Head: head}, {Node: 1}}})
	if err != nil {
		t.Fatal(err)
	}
	return f.Q[0]
}

// D5: 400 ft up, 500 ft of 3 in pipe, lift check one size down, 4 elbows, gate, exit.
// Crane TP-410, 2009, example 7.15: 421 ft and 15.2 hp printed, 420.3 ft and 15.15 hp by an
// open-source library. Lift check, globe style: (600 f_T + β·(0.5·(1-β²) + (1-β²)²))/β⁴ on
// the pipe, with the 2-1/2 in bore in it.
func TestPumpHead(t *testing.T) {
	const foot, inch = 0.3048, 0.0254
	bore := 3.068 * inch
	q := 100 * 6.30901964e-5
	density := 62.298 * 16.018463
	pipe := laws.NewRunLaw(500*foot, bore, 0.0022*inch, 0.95e-3/density)
	b := 2.469 / 3.068
	b2 := b * b
	k := (600*formula.FullyTurbulent(bore)+b*(0.5*(1-b2)+(1-b2)*(1-b2)))/(b2*b2) + 4*formula.HandbookK(30, bore) + formula.HandbookK(8, bore) + formula.Exit
	h, _ := series{pipe, square(k, bore)}.Loss(q)
	total := h/foot + 400
	near(t, "D5 total head, ft", total, 421, 0.005, "Crane TP-410 7.15")
	hp := formula.HydraulicPower(density, q, total*foot) / 0.70 / 745.69987
	near(t, "D5 power, hp", hp, 15.2, 0.005, "Crane TP-410 7.15")
	near(t, "D5 total head, ft", total, 420.35, 5e-4, "library")
}

// D6: a reservoir of 11.5 ft drives water of 60 °F through an entrance, a 3 in mitre bend
// (60 f_T), a 3 in gate, 10 ft of 3 in, a sudden contraction, 20 ft of 2 in and an exit.
// Crane TP-410, 2009, example 7.19: 137 US gpm printed, 136.7 by an open-source library,
// which like the example takes the bores to stand as the nominal sizes do, 2 to 3, where
// velocities are converted; with the true bores the flow is 140.
func TestReservoir(t *testing.T) {
	const foot, inch = 0.3048, 0.0254
	w := formula.NewWater(15.56)
	big := 3.068 * inch
	small := big * 2 / 3
	nu, steel := w.Viscosity/w.Density, 0.0018*inch
	law := series{
		square(formula.Entrance, big), square(formula.HandbookK(60, big), big), square(formula.HandbookK(8, big), big),
		laws.NewRunLaw(10*foot, big, steel, nu), square(formula.Contraction(small, big), small),
		laws.NewRunLaw(20*foot, small, steel, nu), square(formula.Exit, small),
	}
	near(t, "D6 flow, gpm", driven(t, 11.5*foot, law)/6.30901964e-5, 137, 0.01, "Crane TP-410 7.19")
}

// D7: two cast-iron pipes in series with entrance, contraction and exit.
func TestSeries(t *testing.T) {
	const nu = 1.31e-6
	law := series{
		square(0.5, 0.6), laws.NewRunLaw(300, 0.6, 0.26e-3, nu), square(0.24, 0.4), laws.NewRunLaw(300, 0.4, 0.26e-3, nu), square(1, 0.4),
	}
	h, _ := law.Loss(0.5)
	near(t, "D7 total head", h, 13.337, 0.01, "university tutorial (Wolaita Sodo)")
	near(t, "D7 total head", h, 13.363, 0.001, "own, f 0.01686 and 0.01808")
}

// whitePipes are the pipes of White, Fluid Mechanics, examples 6.17 and 6.18.
func whitePipes() []network.Law {
	const nu, g = 1.02e-6, 9.81
	var out []network.Law
	for _, p := range [][3]float64{{100, 0.08, 0.003}, {150, 0.06, 0.002}, {80, 0.04, 0.005}} {
		out = append(out, atGravity{laws.NewRunLaw(p[0], p[1], p[2]*p[1], nu), g})
	}
	return out
}

// atGravity is a law by another g than the standard one, as books use it.
type atGravity struct {
	law network.Law
	g   float64
}

func (a atGravity) Loss(q float64) (head, slope float64) {
	h, s := a.law.Loss(q)
	return h * formula.Gravity / a.g, s * formula.Gravity / a.g
}

// D9: three pipes in series under 20.3 m.
func TestThreeInSeries(t *testing.T) {
	q := driven(t, 20.3, series(whitePipes()))
	near(t, "D9 flow, m3/h", q*3600, 10.2, 0.005, "White ex. 6.17, from memory")
	near(t, "D9 flow, m3/h", q*3600, 10.223, 0.0005, "own")
	near(t, "D9 velocity", q/formula.Area(0.08), 0.565, 0.002, "own")
}

func TestSourcesAreSaid(t *testing.T) {
	for _, file := range []string{"pipes.csv"} {
		for i, r := range table(t, file) {
			if strings.TrimSpace(r["source"]) == "" {
				t.Errorf("%s line %d has no source", file, i)
			}
		}
	}
}

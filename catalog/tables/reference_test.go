package tables

import (
	"dryfit/catalog"
	"dryfit/graph/agree"
	"encoding/csv"
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"
)

// The tables in testdata/reference are copies of published ones; their README and every line
// say where they come from.

// referenceTable reads a table; each line is a map from the head of the column.
func referenceTable(t *testing.T, name string) []map[string]string {
	t.Helper()
	f, err := os.Open("testdata/reference/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	lines, err := csv.NewReader(f).ReadAll()
	if err != nil || len(lines) < 2 {
		t.Fatalf("%s: %d lines, %v", name, len(lines), err)
	}
	var out []map[string]string
	for _, l := range lines[1:] {
		m := map[string]string{}
		for i, head := range lines[0] {
			m[head] = l[i]
		}
		out = append(out, m)
	}
	return out
}

func num(t *testing.T, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(strings.TrimLeft(s, "+"), 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// nominal reads the size of a reference table: "1-1/2 in", "dn 50", "50 mm".
func nominal(t *testing.T, s string) catalog.Size {
	t.Helper()
	if d, ok := strings.CutPrefix(s, "dn "); ok {
		s = d + " mm"
	}
	size, err := catalog.ParseSize(s, false)
	if err != nil {
		t.Fatal(err)
	}
	return size
}

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !agree.Within(got, want, tolerance+1e-9) {
		t.Errorf("%s: %.4f, the table says %.4f", what, got, want)
	}
}

// ASTM D1785, EN ISO 1452-2 and flexible hose: testdata/reference/pipes.csv.
func TestPipesAgainstTable(t *testing.T) {
	specs := map[string]catalog.Spec{
		"ASTM D1785 Sch40": catalog.PVCSch40, "ASTM D1785 Sch80": catalog.PVCSch80,
		"EN ISO 1452-2 PN10 (S10)": catalog.PVCPN10, "EN ISO 1452-2 PN16 (S6.3)": catalog.PVCPN16,
		"flexible PVC, IPS": catalog.FlexInch, "flexible PVC spiral, metric": catalog.FlexMetric,
	}
	compared := 0
	for _, l := range referenceTable(t, "pipes.csv") {
		spec, ok := specs[l["series"]]
		if !ok {
			continue // series the catalogue has no rows for
		}
		r, ok := catalog.Embedded().Pipe(spec, nominal(t, l["nominal"]))
		if !ok {
			t.Errorf("no pipe %s %s", spec, l["nominal"])
			continue
		}
		compared++
		near(t, r.Name+" outside", r.OutsideMM, num(t, l["od_mm"]), 0.01)
		if spec.Flexible() {
			near(t, r.Name+" bore", r.BoreMM, num(t, l["id_mean_mm"]), 0.01)
			continue
		}
		near(t, r.Name+" wall", r.WallMM, num(t, l["wall_min_mm"]), 0.01)
		near(t, r.Name+" bore at the least wall", r.BoreMinWallMM, num(t, l["id_at_min_wall_mm"]), 0.02)
		if mean := l["id_mean_mm"]; mean != "" {
			near(t, r.Name+" bore", r.BoreMM, num(t, mean), 0.01)
		} else {
			near(t, r.Name+" bore", r.BoreMM, metricMean(r.OutsideMM, r.WallMM), 0.01)
		}
		near(t, r.Name+" rating, bar", r.RatingPa/1e5, num(t, l["pressure_bar_20_23C"]), 0.01)
	}
	if compared != 8+8+7+7+2+2 {
		t.Errorf("%d pipes were compared", compared)
	}
}

// e = PN·dn/(200 + PN) mm at 20 °C (EN ISO 1452: design stress 10 MPa), walls in steps of
// 0.1 mm, except where a least wall governs (25 mm PN10).
func TestMetricWallsCarryTheirPressure(t *testing.T) {
	for _, spec := range []catalog.Spec{catalog.PVCPN10, catalog.PVCPN16} {
		for _, size := range catalog.Embedded().PipeSizes(spec) {
			r, _ := catalog.Embedded().Pipe(spec, size)
			if spec == catalog.PVCPN10 && size.Nominal == 25 {
				continue
			}
			bar := r.RatingPa / 1e5
			near(t, r.Name+" wall", r.WallMM, bar*r.OutsideMM/(200+bar), 0.1)
		}
	}
}

// ASTM D2466, D2467 and ISO 727 socket depths: testdata/reference/sockets.csv. The D2466
// depths are printed in inches to three places (0.688 for 11/16), hence their tolerance.
func TestSocketsAgainstTable(t *testing.T) {
	compared := 0
	for _, l := range referenceTable(t, "sockets.csv") {
		var spec catalog.Spec
		tolerance := 0.01
		switch l["series"] {
		case "ASTM D2466 Sch40":
			spec, tolerance = catalog.PVCSch40, 0.0005*25.4+0.005
		case "ASTM D2467 Sch80":
			spec = catalog.PVCSch80
		case "EN ISO 1452-3 / ISO 727":
			spec = catalog.PVCPN16
		default:
			continue
		}
		for _, kind := range []string{"elbow-90", "elbow-45", "tee", "coupling", "slip-coupling"} {
			r, ok := catalog.Embedded().Fitting(kind, spec, nominal(t, l["nominal"]))
			if !ok {
				t.Errorf("no %s %s %s", kind, spec, l["nominal"])
				continue
			}
			compared++
			near(t, r.Name+" socket", r.SocketMM, num(t, l["depth_min_mm"]), tolerance)
		}
	}
	if compared != 5*(8+8+7) {
		t.Errorf("%d sockets were compared", compared)
	}
}

// ASTM D2467 and ISO 264 take-offs, bushes, and typical lengths of unions and valves:
// testdata/reference/laying_lengths.csv.
func TestTakeOffsAgainstTable(t *testing.T) {
	compared := 0
	for _, l := range referenceTable(t, "laying_lengths.csv") {
		if strings.HasPrefix(l["standard"], "BS ") {
			continue // no rows for BS inch fittings: they are computed, to be measured
		}
		z := num(t, l["z_mm"])
		if l["fitting"] == "reducing_bush_extra_takeoff" {
			large, small, _ := strings.Cut(l["nominal"], " x ")
			unit := " in"
			if d, ok := strings.CutPrefix(large, "dn "); ok {
				large, unit = d, " mm"
			}
			small = strings.TrimSuffix(small, unit)
			spec := catalog.PVCSch80
			if unit == " mm" {
				spec = catalog.PVCPN16
			}
			r, ok := catalog.Embedded().Reducing("reducing-bush", spec, nominal(t, large+unit), nominal(t, small+unit))
			if !ok {
				t.Errorf("no bush %s", l["nominal"])
				continue
			}
			compared++
			near(t, r.Name+" adds", r.TakeOffMM, z, 0.011)
			continue
		}
		size := nominal(t, l["nominal"])
		spec := catalog.PVCSch80
		if size.Metric {
			spec = catalog.PVCPN16
		}
		kind := map[string]string{
			"elbow90": "elbow-90", "elbow45": "elbow-45", "tee_run_half": "tee", "tee_branch": "tee", "coupling_stop_gap": "coupling",
			"union_stop_to_stop": "union", "true_union_ball_valve_stop_to_stop": "true-union-ball-valve",
			"gate_or_slide_valve_stop_to_stop": "gate-valve", "spring_check_valve_stop_to_stop": "spring-check",
		}[l["fitting"]]
		r, ok := catalog.Embedded().Fitting(kind, spec, size)
		if !ok {
			t.Errorf("no %s %s", kind, size)
			continue
		}
		compared++
		got := r.LengthMM
		switch l["fitting"] {
		case "elbow90", "elbow45", "tee_run_half":
			got = r.TakeOffMM
		case "tee_branch":
			got = r.BranchTakeOffMM
		}
		near(t, r.Name+" "+l["fitting"], got, z, 0.01)
		if l["class"] == "typical" && !r.Measure {
			t.Errorf("%s is typical only, and not marked to be measured", r.Name)
		}
		if l["tol_plus"] != "" {
			near(t, r.Name+" tolerance +", r.TolPlusMM, num(t, l["tol_plus"]), 0.01)
			near(t, r.Name+" tolerance -", -r.TolMinusMM, num(t, l["tol_minus"]), 0.01)
		}
		if spec == catalog.PVCSch80 && l["standard"] == "ASTM D2467" {
			if r.Measure {
				t.Errorf("%s is a standard's, and marked to be measured", r.Name)
			}
			stand, ok := catalog.Embedded().Fitting(kind, catalog.PVCSch40, size)
			if !ok || !stand.Measure || stand.Note == "" {
				t.Errorf("the stand-in %q is not marked to be measured", stand.Name)
			}
			near(t, stand.Name+" stand-in", stand.TakeOffMM+stand.LengthMM, r.TakeOffMM+r.LengthMM, 0)
		}
	}
	if compared < 90 {
		t.Errorf("only %d lengths were compared", compared)
	}
}

// Worked cut lengths with unrounded inch values, computed by hand from ASTM D2467 (1-1/2 in:
// elbow 1 in, socket 1-3/8 in; 2 in: tee 1-1/4 in, socket 1-1/2 in).
func TestInchValuesAreExact(t *testing.T) {
	small, large := catalog.Size{Nominal: 1.5}, catalog.Size{Nominal: 2}
	elbow, _ := catalog.Embedded().Fitting("elbow-90", catalog.PVCSch80, small)
	tee, _ := catalog.Embedded().Fitting("tee", catalog.PVCSch80, large)
	bush, _ := catalog.Embedded().Reducing("reducing-bush", catalog.PVCSch80, large, small)
	if elbow.SocketMM != 34.925 || bush.TakeOffMM != 3.175 {
		t.Errorf("socket %.6f, bush %.6f: not the exact inches", elbow.SocketMM, bush.TakeOffMM)
	}
	if got := 500 - (tee.TakeOffMM + bush.TakeOffMM) - elbow.TakeOffMM; !agree.Within(got, 439.675, 1e-9) {
		t.Errorf("2 in tee reduced to a 1-1/2 in elbow, 500 mm: %.4f, want 439.675", got)
	}
	if got := 2*elbow.TakeOffMM + 2*elbow.SocketMM; !agree.Within(got, 120.65, 1e-9) {
		t.Errorf("two 1-1/2 in elbows as close as can be: %.4f, want 120.65", got)
	}
}

// PPI recommendation C and a metric PVC-U table: testdata/reference/derating.csv. Between
// lines: 0.576 at 40 °C by the inch table (interpolated by hand).
func TestDeratingAgainstTable(t *testing.T) {
	for _, l := range referenceTable(t, "derating.csv") {
		spec := catalog.PVCSch40
		switch {
		case strings.HasPrefix(l["table"], "metric"):
			spec = catalog.PVCPN10
		case strings.HasPrefix(l["table"], "ISO"):
			continue
		}
		got, source := Derating(spec, num(t, l["temp_C"]))
		near(t, l["table"]+" at "+l["temp_C"], got, num(t, l["factor"]), 1e-12)
		if source == "" {
			t.Error("no source")
		}
	}
	got, _ := Derating(catalog.PVCSch40, 40)
	near(t, "inch at 40 °C", got, 0.576, 0.0005)
	got, _ = Derating(catalog.PVCPN16, 40)
	near(t, "metric at 40 °C", got, 0.57, 1e-12)
	for temp, want := range map[float64]float64{-5: 1, 10: 1, 60.01: 0, 90: 0} {
		if got, _ := Derating(catalog.FlexInch, temp); got != want {
			t.Errorf("factor at %g °C: %g, want %g", temp, got, want)
		}
	}
	pipe, _ := catalog.Embedded().Pipe(catalog.PVCSch40, catalog.Size{Nominal: 2})
	pa, _ := RatingAt(pipe, 37.8)
	near(t, "2 in Schedule 40 at 37.8 °C, bar", pa/1e5, 280*0.0689475729*0.62, 0.001)
	if len(derating()) != 15 {
		t.Errorf("%d derating points", len(derating()))
	}
}

// A maker's installation table: testdata/reference/support_spacing.csv.
func TestSupportsAgainstTable(t *testing.T) {
	for _, l := range referenceTable(t, "support_spacing.csv") {
		spec := catalog.Spec("pvc-" + strings.ToLower(l["series"]))
		for _, temp := range []string{"16", "27", "38", "49", "60"} {
			got, _, ok := SupportSpacing(spec, nominal(t, l["nominal"]), num(t, temp))
			if !ok {
				t.Fatalf("no spacing for %s %s", spec, l["nominal"])
			}
			near(t, string(spec)+" "+l["nominal"]+" at "+temp, got, 1000*num(t, l["m_at_"+temp+"C"]), 0.001)
		}
	}
	// Half way between 1.52 m at 38 °C and 1.07 m at 49 °C.
	got, _, _ := SupportSpacing(catalog.PVCSch40, catalog.Size{Nominal: 2}, 43.5)
	near(t, "2 in at 43.5 °C", got, 1295, 0.001)
	cold, _, _ := SupportSpacing(catalog.PVCSch40, catalog.Size{Nominal: 2}, 0)
	near(t, "2 in at 0 °C", cold, 1830, 0.001)
	hot, _, _ := SupportSpacing(catalog.PVCSch40, catalog.Size{Nominal: 2}, 70)
	near(t, "2 in at 70 °C", hot, 910, 0.001)
	// Metric PVC-U of 50 mm at 40 °C wants a support every 1.0 to 1.2 m (from memory of pipe
	// makers' tables), and the thicker wall no fewer.
	for _, spec := range []catalog.Spec{catalog.PVCPN10, catalog.PVCPN16} {
		metric, _, ok := SupportSpacing(spec, catalog.Size{Metric: true, Nominal: 50}, 40)
		if !ok || !agree.Between(metric, 1000, 1200) {
			t.Errorf("%s 50 mm at 40 °C: %g mm, %v", spec, metric, ok)
		}
	}
	for _, spec := range []catalog.Spec{catalog.FlexInch, catalog.FlexMetric, catalog.HosePipe, catalog.PVCSch40} {
		if mm, _, ok := SupportSpacing(spec, catalog.Size{Nominal: 7}, 20); ok {
			t.Errorf("%s 7 in has a spacing, %g", spec, mm)
		}
	}
	if _, _, ok := SupportSpacing(catalog.PVCPN10, catalog.Size{Metric: true, Nominal: 10}, 20); ok {
		t.Error("10 mm has a spacing")
	}
}

// Cement makers' tables: testdata/reference/solvent_cement.csv and cure_times.csv.
func TestCementAgainstTable(t *testing.T) {
	for _, l := range referenceTable(t, "solvent_cement.csv") {
		c, ok := Cement(nominal(t, l["nominal"]))
		if !ok {
			t.Fatalf("no cement for %s", l["nominal"])
		}
		near(t, l["nominal"]+" cement", c.CementML, num(t, l["cement_ml_per_joint"]), 0)
		near(t, l["nominal"]+" primer", c.PrimerML, num(t, l["primer_ml_per_joint"]), 0)
		if l["joints_per_US_quart_cement"] != "" { // a US quart is 946.353 ml (NIST SP 811)
			near(t, l["nominal"]+" from the quart", c.CementML, 946.353/num(t, l["joints_per_US_quart_cement"]), 0.006)
		}
	}
	metric, _ := Cement(catalog.Size{Metric: true, Nominal: 50})
	inch, _ := Cement(catalog.Size{Nominal: 1.5})
	if metric.CementML != inch.CementML || metric.Source == inch.Source {
		t.Errorf("50 mm: %+v, 1-1/2 in: %+v", metric, inch)
	}
	if _, ok := Cement(catalog.Size{Metric: true, Nominal: 44}); ok {
		t.Error("44 mm has cement")
	}
}

func TestCureTimesAgainstTable(t *testing.T) {
	for _, c := range []struct {
		size         catalog.Size
		temp         float64
		handling, to time.Duration // the slower of the two tables, read by eye
		to25         time.Duration
	}{
		{catalog.Size{Nominal: 1.5}, 20, 30 * time.Minute, 2 * time.Hour, 12 * time.Hour},
		{catalog.Size{Nominal: 0.75}, 20, 15 * time.Minute, time.Hour, 6 * time.Hour},
		{catalog.Size{Nominal: 2}, 10, 2 * time.Hour, 4 * time.Hour, 24 * time.Hour},
		{catalog.Size{Nominal: 3}, 0, 12 * time.Hour, 72 * time.Hour, 192 * time.Hour},
		{catalog.Size{Metric: true, Nominal: 63}, 16, 30 * time.Minute, 2 * time.Hour, 12 * time.Hour},
		{catalog.Size{Nominal: 2}, 40, 30 * time.Minute, 2 * time.Hour, 12 * time.Hour},
	} {
		got, ok := CureTimes(c.size, c.temp)
		if !ok || got.Handling != c.handling || got.To11Bar != c.to || got.To25Bar != c.to25 || got.Source == "" {
			t.Errorf("%s at %g °C: %+v, want %v, %v, %v", c.size, c.temp, got, c.handling, c.to, c.to25)
		}
	}
	if _, ok := CureTimes(catalog.Size{Nominal: 2}, -30); ok {
		t.Error("a joint cures at -30 °C")
	}
	if _, ok := CureTimes(catalog.Size{Metric: true, Nominal: 10}, 20); ok {
		t.Error("10 mm has a cure time")
	}
}

func TestKerfsAgainstTable(t *testing.T) {
	for _, l := range referenceTable(t, "kerf.csv") {
		k, ok := Kerf(l["tool"])
		if !ok || k.MM != num(t, l["kerf_mm"]) || k.LowMM > k.MM || k.HighMM < k.MM || k.Source == "" {
			t.Errorf("%s: %+v", l["tool"], k)
		}
	}
	if k, ok := Kerf(""); !ok || k.Tool != DefaultTool {
		t.Errorf("the kerf nobody named is %+v", k)
	}
	if _, ok := Kerf("teeth"); ok {
		t.Error("teeth have a kerf")
	}
	if len(kerfs()) != 6 {
		t.Errorf("%d tools", len(kerfs()))
	}
}

// Outside diameters that look alike and don't fit: testdata/reference/joins.csv.
func TestJoinsAgainstTable(t *testing.T) {
	compared := 0
	for _, l := range referenceTable(t, "joins.csv") {
		if !strings.HasPrefix(l["b"], "dn ") {
			continue
		}
		a, b := nominal(t, l["a"]), nominal(t, l["b"])
		if b.Nominal == 20 {
			continue // no 20 mm pipe in the catalogue
		}
		compared++
		inch, okA := catalog.Embedded().Pipe(catalog.PVCSch40, a)
		metric, okB := catalog.Embedded().Pipe(catalog.PVCPN16, b)
		if !okA || !okB {
			t.Fatalf("no pipe %s or %s", a, b)
		}
		near(t, l["a"]+" against "+l["b"], inch.OutsideMM-metric.OutsideMM, num(t, l["difference_mm"]), 0.011)
		if _, ok := catalog.Embedded().Transition(catalog.PVCPN10, b, catalog.FlexInch, a); !ok {
			t.Errorf("no transition from %s to %s", b, a)
		}
	}
	if compared != 7 {
		t.Errorf("%d pairs were compared", compared)
	}
	for _, l := range referenceTable(t, "joins.csv") {
		if l["od_b_mm"] == "" || strings.HasPrefix(l["b"], "dn ") {
			continue
		}
		found := ByOutside(catalog.Embedded(), num(t, l["od_b_mm"]), 0.01)
		name := strings.Replace(l["b"], "3505:1968", "3505", 1)
		if !slices.ContainsFunc(found, func(o Outside) bool { return o.Pipe == name }) {
			t.Errorf("%s mm is not known as %s: %+v", l["od_b_mm"], name, found)
		}
	}
}

// metricMean is the mean bore of metric PVC-U pipe: outside and wall in the middle of their
// tolerances, the wall up to a tenth of it and 0.2 mm, rounded up to 0.1 mm, over the least;
// the outside up to 0.2 mm over the nominal one, 0.3 mm from 63 mm on. Source: EN ISO 1452-2,
// from memory.
func metricMean(outside, wall float64) float64 {
	over := 0.2
	if outside >= 63 {
		over = 0.3
	}
	more := math.Ceil(math.Round((0.1*wall+0.2)*1e4)/1e3) / 10
	return outside + over/2 - 2*(wall+more/2)
}

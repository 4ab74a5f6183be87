package whatif

import (
	"math"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/description"
	"dryfit/graph/plan"
	"dryfit/graph/settle"
)

// What is turned of one pump holds together: two speeds, its size and its shape. Flow goes with
// the speed, head with its square; a size of v has v^0.7 of the flow at v^0.3 of the head, a
// shape of w has w of the flow at 1/w of the head (how far a pump of a type may be off, common
// practice, no source): worked by hand.
func TestPumpTurnedTogether(t *testing.T) {
	text := string(demo(t, "two-speed").Job.Text)
	from := strings.Index(text, "speeds = [\n")
	to := from + strings.Index(text[from:], "\n]") + 2
	s := studyOf(t, text[:from]+`type = "two-speed-pump"`+text[to:])
	curve := func(v Values, speed string) []graph.CurvePoint {
		t.Helper()
		a, err := s.Ask(v, plan.Findings)
		if err != nil || a.Plan == nil {
			t.Fatal(v, err)
		}
		speeds := a.Plan.After.Layout.Stage.Part("pump").Speeds.V
		i := slices.IndexFunc(speeds, func(x graph.Speed) bool { return x.Name == speed })
		first := slices.IndexFunc(speeds, func(x graph.Speed) bool { return len(x.Curve) > 0 })
		if i < 0 || first < 0 {
			t.Fatalf("%v", speeds)
		}
		if len(speeds[i].Curve) > 0 {
			return speeds[i].Curve
		}
		out := slices.Clone(speeds[first].Curve)
		for k := range out {
			out[k].Flow *= speeds[i].Ratio
			out[k].Head.Value *= speeds[i].Ratio * speeds[i].Ratio
		}
		return out
	}
	held := func(v Values, speed string, flow, head float64) {
		t.Helper()
		was, now := curve(nil, speed), curve(v, speed)
		for i := range was {
			if !agree.Within(now[i].Flow, flow*was[i].Flow, 0.002*was[len(was)-1].Flow) || !agree.Within(now[i].Head.Value, head*was[i].Head.Value, 0.002*was[0].Head.Value) {
				t.Errorf("%v, %s: point %d is %.6f m3/s at %.3f, was %.6f at %.3f", v, speed, i, now[i].Flow, now[i].Head.Value, was[i].Flow, was[i].Head.Value)
			}
		}
	}
	both := Values{"speed-pump-low": "80", "speed-pump-high": "90"}
	held(both, "low", 0.8, 0.64)
	held(both, "high", 0.9, 0.81)
	all := Values{"speed-pump-high": "90", "size-pump": "150", "shape-pump": "110"}
	held(all, "high", 0.9*math.Pow(1.5, 0.7)*1.1, 0.81*math.Pow(1.5, 0.3)/1.1)
	held(all, "low", math.Pow(1.5, 0.7)*1.1, math.Pow(1.5, 0.3)/1.1)
}

// A pump with a curve of its own is off by its head and its flow; the file keeps its form.
func TestPumpCurveMayBeOff(t *testing.T) {
	s := demo(t, "two-speed")
	text, only, err := s.Text(Values{"head-pump": "98", "speed-pump-low": "90"})
	if err != nil || len(only) > 0 {
		t.Fatal(err, only)
	}
	if was, now := strings.Count(string(s.Job.Text), "\n"), strings.Count(string(text), "\n"); was != now {
		t.Errorf("%d lines became %d", was, now)
	}
	for _, line := range strings.Split(string(s.Job.Text), "\n") {
		if i := strings.Index(line, "#"); i >= 0 && !strings.Contains(string(text), line[i:]) {
			t.Errorf("a remark is gone: %s", line)
		}
	}
}

// Turning one speed leaves the other as the file has it, to the letter, in an inch file too; what
// is turned is written in the units of the file.
func TestOneSpeedTurnedAlone(t *testing.T) {
	text := string(demo(t, "two-speed").Job.Text)
	from := strings.Index(text, "speeds = [\n")
	to := from + strings.Index(text[from:], "\n]") + 2
	const high = `curve = [["0 gpm", "50 ft"], ["60 gpm", "41 ft"], ["100 gpm", "21 ft"]]`
	const low = `curve = [["0 gpm", "12.5 ft"], ["30 gpm", "10.25 ft"], ["50 gpm", "5.25 ft"]]`
	inch := text[:from] + "speeds = [\n{ name = \"low\", " + low + " },\n{ name = \"high\", " + high + " },\n]" + text[to:]
	inch = regexp.MustCompile(`(?m)^(units *= *)"metric"`).ReplaceAllString(inch, `${1}"inch"`)
	s := studyOf(t, inch)
	out, only, err := s.Text(Values{"speed-pump-low": "90"})
	if err != nil || len(only) > 0 {
		t.Fatal(err, only)
	}
	if !strings.Contains(string(out), high) {
		t.Errorf("the high speed was touched:\n%s", out)
	}
	if strings.Contains(string(out), low) || !strings.Contains(string(out), `"27 gpm"`) || strings.Contains(string(out), "m3/s") {
		t.Errorf("the low speed, 30 gpm at 90 %%, wants 27 gpm:\n%s", out)
	}
}

// What is put into a file that is written in inch units is in them: a curve in gpm and ft, a place
// in inches; the nominal size of pipe keeps its name. 1 gpm (US) is 0.227125 m3/h, 1 ft 0.3048 m
// (NIST SP 811, appendix B).
func TestPutInInch(t *testing.T) {
	text, err := os.ReadFile("../../testdata/two-speed.toml")
	if err != nil {
		t.Fatal(err)
	}
	s := studyOf(t, strings.Replace(string(text), `units = "metric"`, `units = "inch"`, 1))
	for _, c := range s.Controls {
		value := quantity.Trim(c.High)
		if len(c.Choices) > 0 {
			value = c.Choices[len(c.Choices)-1].Value
		}
		if c.ID == CutID {
			continue
		}
		now, _, err := s.Text(Values{c.ID: value})
		if err != nil {
			t.Fatal(err)
		}
		was := map[string]bool{}
		for line := range strings.Lines(string(s.Job.Text)) {
			was[line] = true
		}
		for line := range strings.Lines(string(now)) {
			code, _, _ := strings.Cut(line, "#")
			if was[line] || strings.HasPrefix(line, "size") || strings.HasPrefix(line, "kv") {
				continue
			}
			if m := regexp.MustCompile(`"[^"]*[0-9] (mm|m|kPa|Pa|l/min|°C)"`).FindString(code); m != "" && !strings.Contains(string(s.Job.Text), m) {
				t.Errorf("%s: %s in %s", c.ID, m, line)
			}
		}
	}
	// by hand: 100 %  of 22 m3/h is 96.863 gpm, at 120 % 116.24; 8.6 m is 28.215 ft, times 1.44 40.630
	got := description.InSystem(`[["26.4 m3/h", "12.384 m"], ["0 m3/h", "3 kPa"]]`, quantity.InchSystem)
	if want := `[["116.24 gpm", "40.63 ft"], ["0 gpm", "0.43511 psi"]]`; got != want {
		t.Errorf("%s, want %s", got, want)
	}
	for _, same := range []string{`{ kv = "31 m3/h" }`, `"spring-check 2 psi"`, `"2 in"`, `"right 300 mm up 180 mm"`, `"30 %"`} {
		if got := description.InSystem(same, quantity.InchSystem); got != same {
			t.Errorf("%s becomes %s", same, got)
		}
	}
	if got := description.InSystem(`["right 508 mm", "up 25.4 mm"]`, quantity.InchSystem); got != `["right 20 in", "up 1 in"]` {
		t.Error(got)
	}
}

// How large a pump may be is turned as far as the ranges take it: the page and the sample had it from
// two places, which were not of one mind about small pumps known by their watts, and about those of which
// the ends of the curve alone are known.
func TestPumpTurnsAsFarAsItsRange(t *testing.T) {
	text, err := os.ReadFile("../../testdata/circulation.toml")
	if err != nil {
		t.Fatal(err)
	}
	curve := regexp.MustCompile(`(?m)^curve = .*\n`)
	for _, said := range []string{"power = \"95 W\"\n", "type = \"circulation-pump-24h\"\n", "power = \"95 W\"\ncurve = [[\"0 m3/h\", \"3.4 m\"], [\"3.2 m3/h\", \"0 m\"]]\n"} {
		s := studyOf(t, strings.Replace(curve.ReplaceAllString(string(text), ""), "power = \"95 W\"\n", said, 1))
		held := 0
		for _, u := range settle.Of(s.Plan.Circuit).Unknowns() {
			for _, c := range s.Controls {
				if u.Number == settle.SizeNumber && c.ID == "size-"+u.At || u.Number == settle.HeadNumber && c.ID == "head-"+u.At {
					held++
					if !agree.Within(c.Low, 100*(1+u.Span.Low), 0.5) || !agree.Within(c.High, 100*(1+u.Span.High), 0.5) {
						t.Errorf("%s: turned from %g to %g, sampled from %g to %g", c.Label, c.Low, c.High, 100*(1+u.Span.Low), 100*(1+u.Span.High))
					}
				}
			}
		}
		if held == 0 {
			t.Errorf("%s: no pump's size or head is turned", said)
		}
	}
}

// What was read on the tub was read of the job as it stands: what is turned is turned from what that is taken
// to be, and is not brought back to the reading. A pump turned to where it stands, give or take a hundredth,
// moves as much as was read, be it described by its curve or by its type; turned to half its speed it moves about
// half as much through losses that go nearly by the square (affinity laws).
func TestTurnedFromWhatWasRead(t *testing.T) {
	text := string(demo(t, "two-speed").Job.Text)
	from := strings.Index(text, "speeds = [\n")
	to := from + strings.Index(text[from:], "\n]") + 2
	reading := "\n[[reading]]\nat = \"pump\"\nmode = \"high\"\nflow = \"%s m3/h\"\nplus-minus = \"3 %%\"\n"
	for _, c := range []struct{ text, read string }{
		{text, "14"},
		{text[:from] + `type = "two-speed-pump"` + text[to:], "14"},
	} {
		s := studyOf(t, c.text+strings.Replace(strings.Replace(reading, "%s", c.read, 1), "%%", "%", 1))
		if !s.Plan.Asked.Fit.Changes() {
			t.Fatal("what was read is as described: the test shows nothing")
		}
		at := func(v Values) float64 {
			t.Helper()
			a, err := s.Ask(v, plan.Flows)
			if err != nil || a.Plan == nil {
				t.Fatal(err, a.Found)
			}
			return a.Plan.Before.Solution("high").Part("pump").Flow
		}
		stands, near, half := at(nil), at(Values{"speed-pump-high": "99"}), at(Values{"speed-pump-high": "50"})
		if want := s.Plan.Before.Solution("high").Part("pump").Flow; !agree.Within(stands, want, 1e-6*want) {
			t.Errorf("nothing turned: %g m3/s, in the plan %g", stands, want)
		}
		if !agree.Within(near/stands, 0.99, 0.005) || !agree.Within(half/stands, 0.5, 0.06) {
			t.Errorf("at 99 and 50 %% of its speed %.3f and %.3f of what it moves", near/stands, half/stands)
		}
	}
}

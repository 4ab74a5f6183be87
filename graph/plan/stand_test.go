package plan

import (
	"math"
	"slices"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/description"
	"dryfit/graph/lots"
)

// standing is a description with the unit's place in it: the legs of the first demo taken out
// and where it stands put in.
func standing(t *testing.T, change func(string) string) *graph.Circuit {
	t.Helper()
	text := standingText
	if change != nil {
		was := text
		if text = change(text); text == was {
			t.Fatal("nothing changed")
		}
	}
	c, ds := description.Read("stand.toml", []byte(text))
	if c == nil {
		t.Fatal(ds)
	}
	return c
}

// An invented tub with one pump of two speeds and its return line along the back.
const standingText = `
[water]
volume = "1200 l"
[pipe]
spec = "pvc-sch40"
size = "2 in"
[[part]]
id = "tub"
kind = "tub"
ports = ["skimmer", "jets"]
port.skimmer = { faces = "down" }
[[part]]
id = "pump"
kind = "pump"
existing = true
speeds = [{ name = "low", curve = [["0 m3/h", "4 m"], ["14 m3/h", "0.6 m"]] }, { name = "high", curve = [["0 m3/h", "15 m"], ["30 m3/h", "3 m"]] }]
port.in = { faces = "left" }
port.out = { at = ["right 110 mm", "up 150 mm"], faces = "up" }
[[part]]
id = "filter"
kind = "filter"
existing = true
port.in = { faces = "left" }
port.out = { at = ["right 180 mm", "down 140 mm"], faces = "right" }
[[part]]
id = "jets"
kind = "jet-group"
existing = true
count = 16
bore = "6 mm"
[[run]]
id = "suction"
from = "tub.skimmer"
to = "pump.in"
existing = true
legs = ["down 420 mm", "front 240 mm", "right 870 mm"]
[[run]]
id = "discharge"
from = "pump.out"
to = "filter.in"
existing = true
legs = ["up 180 mm", "right 260 mm"]
[[run]]
id = "return-line"
from = "filter.out"
to = "jets.in"
existing = true
play = "50 mm"
legs = ["right 500 mm", "up 260 mm", "left 1450 mm", "up 150 mm"]
[[run]]
from = "jets.out"
to = "tub.jets"
existing = true
length = "0 mm"
[[part]]
id = "unit"
kind = "heat-pump"
ports-size = "1 1/2 in"
flow = { least = "2.8 m3/h", rated = "4.2 m3/h", most = "8.4 m3/h" }
loss = { flow = "4.2 m3/h", drop = "6 kPa" }
port.out = { at = ["up 220 mm"] }
[retrofit]
unit = "unit"
at = ["front 540 mm", "right 3400 mm", "down 500 mm"]
at-from = "tub.skimmer"
ports-face = "left"
`

// named asks for the run that is best to cut, and spares the search of the others.
const named = "cut = \"return-line\"\n"

// planOf is the plan of a circuit.
func planOf(t *testing.T, c *graph.Circuit) *Plan {
	t.Helper()
	p, err := Make(c, Findings|Places|Swift)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// TestPipesFindTheUnit walks the legs of what was found from the new tees, by itself, and
// holds where they end against where the unit stands: written down from the description.
func TestPipesFindTheUnit(t *testing.T) {
	p := planOf(t, standing(t, nil))
	if graph.HasErrors(p.Findings) || p.After == nil {
		t.Fatalf("no plan: %v", p.Findings)
	}
	where := p.After.Layout.Positions
	skimmer := where["tub.skimmer"]
	for port, want := range map[string]graph.Vec{"unit.in": {X: 3400, Y: -540, Z: -500}, "unit.out": {X: 3400, Y: -540, Z: -280}} {
		if d := where[port].Sub(skimmer).Sub(want).Len(); d > 0.05 {
			t.Errorf("%s misses its place by %.3f mm", port, d)
		}
	}
	for i, strand := range p.Proposal.Strands {
		elbows := 0
		for _, r := range p.Circuit.Runs {
			if !slices.Contains(strand, r.ID) {
				continue
			}
			for _, l := range r.Legs {
				if n := l.By; !agree.Within(math.Abs(n.X)*math.Abs(n.Y)+math.Abs(n.Y)*math.Abs(n.Z)+math.Abs(n.X)*math.Abs(n.Z), 0, 1e-6) {
					t.Errorf("a leg of %s is not along an axis: %v", r.ID, n)
				}
				elbows++
			}
		}
		if elbows == 0 {
			t.Errorf("no legs of pipe %d", i+1)
		}
	}
	for _, d := range p.Findings {
		if d.Severity >= graph.Warning && (d.Rule == "clash" || d.Rule == "routing" || d.Rule == "assembly" || d.Rule == "retrofit") {
			t.Errorf("the pipes found are not fine: %v", d)
		}
	}
}

// TestKeepClearMovesThePipes puts a door where the pipes would run.
func TestKeepClearMovesThePipes(t *testing.T) {
	box := `keep-clear = [{ from = ["right 2600 mm", "front 200 mm", "down 700 mm"], to = ["right 2900 mm", "front 1100 mm", "down 100 mm"], what = "door" }]` + "\n"
	p := planOf(t, standing(t, func(s string) string { return s + named + box }))
	if graph.HasErrors(p.Findings) {
		t.Fatalf("no plan: %v", p.Findings)
	}
	skimmer := p.After.Layout.Positions["tub.skimmer"]
	low, high := graph.Vec{X: 2600, Y: -1100, Z: -700}, graph.Vec{X: 2900, Y: -200, Z: -100}
	for i := range p.After.Layout.Paths {
		path := &p.After.Layout.Paths[i]
		if !path.Run.New() {
			continue
		}
		for k := 1; k < len(path.Points); k++ {
			a, b := path.Points[k-1].Sub(skimmer), path.Points[k].Sub(skimmer)
			for n := range 101 {
				v := a.Add(b.Sub(a).Scale(float64(n) / 100))
				if v.X > low.X-24 && v.X < high.X+24 && v.Y > low.Y-24 && v.Y < high.Y+24 && v.Z > low.Z-24 && v.Z < high.Z+24 {
					t.Fatalf("%s passes the door at %v", path.Run.ID, v)
				}
			}
		}
	}
}

// TestNoWayToTheUnit walls the unit in: the place is ruled out and the wall is named. What would
// help is looked for with -wide: of one thing in the way TestNoPairIsSaidOnce always does.
func TestNoWayToTheUnit(t *testing.T) {
	box := `keep-clear = [{ from = ["right 3000 mm", "front 3000 mm", "down 3 m"], to = ["right 3100 mm", "back 3000 mm", "up 3 m"], what = "fence" },
	{ from = ["right 3000 mm", "front 3000 mm", "down 3 m"], to = ["right 6100 mm", "front 3100 mm", "up 3 m"], what = "fence" },
	{ from = ["right 3000 mm", "back 3000 mm", "down 3 m"], to = ["right 6100 mm", "back 3100 mm", "up 3 m"], what = "fence" },
	{ from = ["right 3000 mm", "front 3000 mm", "down 3100 mm"], to = ["right 6100 mm", "back 3100 mm", "down 3 m"], what = "fence" },
	{ from = ["right 3000 mm", "front 3000 mm", "up 3100 mm"], to = ["right 6100 mm", "back 3100 mm", "up 3 m"], what = "fence" },
	{ from = ["right 6000 mm", "front 3000 mm", "down 3 m"], to = ["right 6100 mm", "back 3100 mm", "up 3 m"], what = "fence" }]` + "\n"
	want := Findings | Places
	if !lots.All() {
		want |= Swift
	}
	p, err := Make(standing(t, func(s string) string { return s + named + box }), want)
	if err != nil {
		t.Fatal(err)
	}
	found := false
	for _, v := range p.Places {
		for _, r := range v.Reasons {
			found = found || strings.Contains(r.Text.String(), "fence")
		}
		if v.Verdict == "best" || v.Verdict == "possible" {
			t.Errorf("%s is %s", v.Place.Where(), v.Verdict)
		}
	}
	if !found {
		t.Error("the fence is not named")
	}
}

// TestOpenLegCloses leaves one leg open for each axis: the loop closes to nothing.
func TestOpenLegCloses(t *testing.T) {
	legs := `to-unit = ["front 300 mm", "down 260 mm", "right 2300 mm"]
from-unit = ["left ?", "up ?", "back ?"]
`
	p := planOf(t, standing(t, func(s string) string {
		head, _, _ := strings.Cut(s, "at = [\"front")
		return head + legs
	}))
	if p.After == nil {
		t.Fatal("no plan")
	}
	for _, c := range p.After.Layout.Closures {
		if c.ErrorMM.Len() > 0.05 {
			t.Errorf("a loop misses itself by %v: %v", c.ErrorMM, c.Runs)
		}
	}
	for _, d := range p.Findings {
		if strings.Contains(d.Message.String(), "open leg") {
			t.Error(d)
		}
	}
	turned := planOf(t, standing(t, func(s string) string {
		head, _, _ := strings.Cut(s, "at = [\"front")
		return head + strings.Replace(legs, "left ?", "right ?", 1)
	}))
	found := false
	for _, v := range turned.Places {
		for _, r := range v.Reasons {
			found = found || strings.Contains(r.Text.String(), `the open leg "right ?"`)
		}
	}
	if !found {
		t.Errorf("an open leg the wrong way round is not named: %v", turned.Places)
	}
}

// TestWrittenLegsKeepClear draws the pipes by hand through a door: it is said of the leg.
func TestWrittenLegsKeepClear(t *testing.T) {
	box := `keep-clear = [{ from = ["right 1500 mm", "front 200 mm", "down 700 mm"], to = ["right 1900 mm", "front 1100 mm", "up 100 mm"], what = "door" }]
to-unit = ["front 300 mm", "down 330 mm", "right 3000 mm"]
from-unit = ["left ?", "up ?", "back ?"]
`
	p := planOf(t, standing(t, func(s string) string { return s + box }))
	found := false
	for _, v := range p.Places {
		for _, r := range v.Reasons {
			found = found || strings.Contains(r.Text.String(), `your leg "right 3000 mm" passes what is to be kept clear: door`)
		}
	}
	if !found {
		t.Errorf("the door is not named: %v", p.Places)
	}
}

// 15 mm of the unit's height trap water for nothing: the line lies 30 mm above the skimmer (420
// down, 150, 180 up, 140 down, 260 up), the inlet is asked for at 45 or 15. It is said, and at 30
// mm there is one low point less.
func TestTrappedHeightIsNamed(t *testing.T) {
	at := func(up string) *Plan {
		return planOf(t, standing(t, func(s string) string { return strings.Replace(s, `"down 500 mm"]`, `"up `+up+` mm"]`, 1) }))
	}
	said := func(p *Plan, words string) (n int) {
		for _, d := range p.Findings {
			if strings.Contains(d.Message.String(), words) {
				n++
			}
		}
		return n
	}
	for up, words := range map[string]string{"45": `with "unit" 15 mm lower its pipes trap water or air at 1 point fewer`, "15": `with "unit" 15 mm higher its pipes trap`} {
		if p := at(up); said(p, words) != 1 || said(p, "low point in") == 0 {
			t.Errorf("up %s mm: %q is not said once", up, words)
		}
	}
	fed := planOf(t, standing(t, func(s string) string {
		s = strings.Replace(s, `"down 500 mm"]`, `"up 45 mm"]`, 1)
		return strings.Replace(s, `to = "jets.in"
existing = true
play = "50 mm"
legs = ["right 500 mm", "up 260 mm", "left 1450 mm", "up 150 mm"]`, `to = "feeder.in"
existing = true
play = "50 mm"
legs = ["right 500 mm", "up 260 mm", "left 1450 mm"]
[[run]]
from = "feeder.out"
to = "jets.in"
existing = true
legs = ["left 100 mm", "up 150 mm"]
[[part]]
id = "feeder"
kind = "feeder"
existing = true
port.out = { at = ["left 120 mm"] }`, 1)
	}))
	if said(fed, "1, not 2, those at the check before the feeder aside;") != 1 || said(at("45"), "the check before the feeder") != 0 {
		t.Errorf("with a check in its pipes, which traps water or air too: %v", fed.Findings)
	}
	if p := at("30"); said(p, `with "unit"`) != 0 || said(p, "low point in") != 0 {
		t.Errorf("level: %v", p.Findings)
	}
}

// A unit said to stand in old pipe is told at the line that says so, with what it stands in, and
// nothing that only follows from it: the inlet is put on the pump's outlet and into its line by hand.
func TestUnitInThePumpsLine(t *testing.T) {
	for _, i := range lots.Of(2, 0) {
		cut := []string{named, ""}[i]
		p, err := Make(standing(t, func(s string) string {
			return strings.Replace(s, `at = ["front 540 mm", "right 3400 mm", "down 500 mm"]
at-from = "tub.skimmer"`, `at = ["right 110 mm", "up 240 mm"]
at-from = "pump.in"`, 1) + cut
		}), Findings)
		if err != nil {
			t.Fatal(err)
		}
		var told []string
		for _, d := range p.Findings {
			if d.Severity != graph.Error {
				continue
			}
			told = append(told, d.Message.String())
			if p.Circuit.Retrofit != nil && d.Pos != p.Circuit.Retrofit.Stand.Pos {
				t.Errorf("told at line %d: %v", d.Pos.Line, d)
			}
		}
		if len(told) != 1 || !strings.Contains(told[0], `the inlet of "unit" stands in leg 1 of discharge`) {
			t.Errorf("with %q: %q", cut, told)
		}
	}
}

// Where two stretches are measured and no legs tie them together, the unit's place counts in the one it is
// counted from, whichever of them the file has first. By hand: the suction's leg has no bearing on the line.
func TestPlaceCountedInOneOfTwoStretches(t *testing.T) {
	apart := func(s string) string {
		return strings.NewReplacer(`legs = ["up 180 mm", "right 260 mm"]`, `length = "440 mm"`, `to = "pump.in"
existing = true
legs = ["down 420 mm", "front 240 mm", "right 870 mm"]`, `to = "basket.in"
existing = true
length = "1130 mm"

[[part]]
id = "basket"
kind = "strainer"
existing = true

[[run]]
from = "basket.out"
to = "pump.in"
existing = true
legs = ["right 400 mm"]`).Replace(s)
	}
	p := planOf(t, standing(t, func(s string) string {
		return strings.Replace(apart(s), `at-from = "tub.skimmer"`, `at-from = "filter.out"`, 1)
	}))
	if wrong := graph.Errors(p.Findings); len(wrong) > 0 || p.Proposal == nil {
		t.Errorf("counted from filter.out: %v", wrong)
	}
	q := planOf(t, standing(t, apart))
	wrong := graph.Errors(q.Findings)
	if len(wrong) == 0 || !strings.Contains(wrong[0].Message.String(), "counted from tub.skimmer, and no legs tie that to the cut") {
		t.Errorf("counted from tub.skimmer: %v", wrong)
	}
}

// A place counted from a port that no legs tie to the cut: a port that is tied is named, and with
// that one in its stead the finding is gone.
func TestPlaceCountedFromWhatIsTied(t *testing.T) {
	untied := func(s string) string {
		return strings.Replace(strings.Replace(s, `legs = ["down 420 mm", "front 240 mm", "right 870 mm"]`, `length = "1530 mm"`, 1), "[retrofit]\n", "[retrofit]\n"+named, 1)
	}
	find := func(c *graph.Circuit) *graph.Diagnostic {
		for _, d := range planOf(t, c).Findings {
			if strings.Contains(string(d.Message), "no legs tie that to the cut") {
				return &d
			}
		}
		return nil
	}
	d := find(standing(t, untied))
	if d == nil {
		t.Fatal("at is counted from a port that nothing ties to the cut, and nobody says so")
	}
	hint := string(d.Hint)
	_, rest, ok := strings.Cut(hint, `at-from = "`)
	port, _, _ := strings.Cut(rest, `"`)
	if !ok || port == "" {
		t.Fatalf("no port is named in %q", hint)
	}
	if d := find(standing(t, func(s string) string {
		return strings.Replace(untied(s), `at-from = "tub.skimmer"`, `at-from = "`+port+`"`, 1)
	})); d != nil {
		t.Errorf("counted from %s: %s", port, d.Message)
	}
}

// Of a place that is ruled out, where the unit's pipes have no drain yet, nobody is sent to fit one: what rules
// the place out comes first. Where the place does, the drain is there. Follows from the description.
func TestNoDrainIsAskedForWhereThePlaceIsRuledOut(t *testing.T) {
	for leg, out := range map[string]bool{"1": true, "3": false} {
		p, err := Make(standing(t, func(text string) string {
			text = strings.Replace(text, "[retrofit]\n", "drain-plug = false\n[site]\nair = \"-5 °C\"\n[retrofit]\ncut = { run = \"return-line\", leg = "+leg+" }\n", 1)
			return strings.NewReplacer(`ports-size = "1 1/2 in"`, `ports-size = "50 mm"`, "right 500 mm", "right 330 mm", "down 500 mm", "down 100 mm", `port.out = { at = ["up 220 mm"] }`, `port.out = { at = ["up 320 mm"] }`).Replace(text)
		}), Findings)
		if err != nil {
			t.Fatal(err)
		}
		told := false
		for _, d := range p.Findings {
			if d.Rule == "unit-drains" {
				told = true
				if !strings.HasPrefix(d.Hint.String(), "see first to what rules the place out") {
					t.Errorf("leg %s: %q", leg, d.Hint)
				}
			}
		}
		if told != out || out != (len(graph.Errors(p.Findings)) > 0) {
			t.Errorf("leg %s: drains told of %v; %v", leg, told, graph.Errors(p.Findings))
		}
	}
}

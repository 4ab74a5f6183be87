package drawing

import (
	"fmt"
	"math"
	"os"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph/description"
	"dryfit/graph/plan"
	"dryfit/render/scene"
	"dryfit/render/sheet"
	"dryfit/render/sticker"
	"dryfit/render/tag"
)

// Where the unit stands below the water its unions say what is shut before they are opened, and so
// does a check below it that nothing shuts off; above the water nothing runs out. How each demo
// stands is in its file: the unit of two-speed 430 mm below the skimmer, its check between two
// tees with no valve beside it; that of plunge-pool above the water. Of plug-in nobody says it.
func TestTagsOfWhatEmptiesTheTub(t *testing.T) {
	for _, c := range []struct {
		demo string
		want map[string]string // by tag; "": no such row
	}{
		{"two-speed", map[string]string{"U1": "V1, V2 SHUT", "U2": "V1, V2 SHUT", "CV1": "EMPTY THE TUB", "V1": "", "D1": ""}},
		{"plug-in", map[string]string{"U1": "V1, V2 SHUT", "U2": "V1, V2 SHUT"}},
		{"plunge-pool", map[string]string{"U1": "", "U2": "", "CV1": "", "CV2": ""}},
	} {
		p := demos(t)[c.demo]
		names := tag.Of(p.Circuit, p.Net())
		said := map[string]string{}
		for id, rows := range warnings(p, names) {
			for _, s := range rows {
				if when, of, _ := strings.Cut(s.Mode, ": "); when == "before opening" {
					said[names.Tag(id)] = strings.TrimSpace(of + " " + s.Position)
				}
			}
		}
		for part, want := range c.want {
			if said[part] != want {
				t.Errorf("%s: before %s is opened its tag says %q, want %q", c.demo, part, said[part], want)
			}
		}
		for _, l := range sticker.OfValves(p.After.Circuit, names, p.After.Solutions, nil, nil, warnings(p, names)) {
			if l.Head == "union" && c.want[l.Big] == "" {
				t.Errorf("%s: %s has a label that says nothing", c.demo, l.Big)
			}
		}
	}
}

// Where one valve leads past two units its label names every isolator that may leave the water no
// other way, and no word of it is cut off: two-new-units with a valve in the place of its spring check,
// shut off by V1 and V2 in the pipes they share and V4 and V5 before each (its file). By hand: with any
// of the four shut a unit or both stand still, and V3 is what is left for the water.
func TestLabelPastTwoUnits(t *testing.T) {
	data, err := os.ReadFile("../pack/testdata/two-new-units.toml")
	if err != nil {
		t.Fatal(err)
	}
	text := strings.Replace(string(data), "kind = \"check-valve\"\nstyle = \"spring\"\ncracking = \"2 psi\"", "kind = \"ball-valve\"\nposition = \"30 %\"", 1)
	p := planOf(t, "two.toml", []byte(text))
	names := tag.Of(p.Circuit, p.Net())
	want := sticker.Setting{Mode: "while V1, V2, V4 or V5 is shut", Position: "OPEN"}
	if got := warnings(p, names)["bypass"]; len(got) != 1 || got[0] != want {
		t.Errorf("the label of %s says %v, want %v", names.Tag("bypass"), got, want)
	}
	for _, page := range []sheet.Page{{}, {Format: sheet.Letter}} {
		pages, err := Pages(p, "labels", page, quantity.MetricSystem)
		if err != nil {
			t.Fatal(err)
		}
		shown := ""
		for _, s := range pages {
			for _, it := range s.Items {
				if text, ok := it.(scene.Text); ok {
					shown += text.Text + " "
				}
			}
		}
		if strings.Contains(shown, "…") || strings.Contains(shown, "see the valve schedule") {
			t.Errorf("words of a label are cut off: %s", shown)
		}
	}
}

// The flow switch is tried by shutting V1 for a moment with the throttle as it is set: what the labels say
// is of an isolator that is left shut. V3 of circulation is set part open (its file). Stood it shut, it
// would be opened before any of them is shut at all: common practice, no source.
func TestLabelsLeaveRoomForTheTry(t *testing.T) {
	p := demos(t)["circulation"]
	names := tag.Of(p.Circuit, p.Net())
	said := map[string]string{}
	for id, rows := range warnings(p, names) {
		for _, s := range rows {
			said[names.Tag(id)] += s.Mode + ": " + s.Position
		}
	}
	for part, want := range map[string]string{"V1": "before left shut: V3 OPEN", "V2": "before left shut: V3 OPEN", "V3": "while V1 or V2 is left shut: OPEN"} {
		if said[part] != want {
			t.Errorf("%s: %q, want %q", part, said[part], want)
		}
	}
	data, err := os.ReadFile("../pack/testdata/two-new-units.toml")
	if err != nil {
		t.Fatal(err)
	}
	text := strings.Replace(string(data), "kind = \"check-valve\"\nstyle = \"spring\"\ncracking = \"2 psi\"", "kind = \"ball-valve\"\nposition = \"shut\"", 1)
	c, _ := description.Read("two.toml", []byte(text))
	if p, err = plan.Make(c, plan.Lists|plan.Flows); err != nil || !p.After.StandsShut("bypass") {
		t.Fatal("nothing stands shut: ", err)
	}
	names = tag.Of(p.Circuit, p.Net())
	for id, rows := range warnings(p, names) {
		for _, s := range rows {
			if strings.Contains(s.Mode, "left shut") {
				t.Errorf("%s: %v, with nothing open past the unit", names.Tag(id), s)
			}
		}
	}
}

// A check in a blower's air line has no water to stand open or shut by: its label says what it is in.
// A blower and such a check put to the jets of the circulation demo; CV2 is the check of the unit's pipe.
func TestLabelOfAirCheck(t *testing.T) {
	data, err := os.ReadFile("../../testdata/circulation.toml")
	if err != nil {
		t.Fatal(err)
	}
	const air = `
[[part]]
id = "blower"
kind = "blower"
existing = true

[[part]]
id = "air-check"
kind = "check-valve"
style = "swing"
existing = true

[[run]]
from = "blower.in"
to = "air-check.in"
existing = true
length = "1 m"

[[run]]
from = "air-check.out"
to = "jets.air"
existing = true
length = "900 mm"
`
	p := planOf(t, "air.toml", append(data, air...))
	names := tag.Of(p.Circuit, p.Net())
	said := map[string]sticker.Setting{}
	for _, l := range sticker.OfValves(p.After.Circuit, names, p.After.Solutions, nil, nil, nil) {
		said[l.Big] = l.Modes[0]
	}
	if got, want := said[names.Tag("air-check")], (sticker.Setting{Mode: "air line", Position: "works by itself"}); got != want {
		t.Errorf("its label says %v, want %v", got, want)
	}
	if got := said[names.Tag("feeder-check")]; got.Mode == "air line" || got.Mode == "" {
		t.Errorf("the label of the check on the unit's pipe says %v", got)
	}
}

// What each throttle is set by stands on no sheet of the tub as it is before the work, where the valve
// is not yet: on paper of its own, as the plug-in demo's two circuits have it in inches on letter with
// fourteen unions more between pump and element.
func TestNoSettingBeforeTheWork(t *testing.T) {
	const file = "../../testdata/plug-in.toml"
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	const direct = "from = \"pump.out\"\nto = \"element.in\"\nexisting = true\nlength = \"0 mm\"\n"
	parts, runs, last := "", "", "pump"
	for i := range 14 {
		id := fmt.Sprint("nut-", i)
		parts += "[[part]]\nid = \"" + id + "\"\nkind = \"union\"\nexisting = true\n"
		runs += "from = \"" + last + ".out\"\nto = \"" + id + ".in\"\nexisting = true\nlength = \"300 mm\"\n[[run]]\n"
		last = id
	}
	text := strings.Replace(string(data), direct, runs+strings.Replace(direct, "pump", last, 1)+parts, 1)
	c, ds := description.Read(file, []byte(text))
	if c == nil {
		t.Fatal(ds)
	}
	p, err := plan.Make(c, Wants("all"))
	if err != nil {
		t.Fatal(err)
	}
	seen := map[string]bool{}
	for _, page := range []sheet.Page{{}, {Format: sheet.Letter}, {Format: sheet.Letter, Orientation: sheet.Portrait}} {
		pages, err := Pages(p, "schematic", page, quantity.InchSystem)
		if err != nil {
			t.Fatal(err)
		}
		for _, s := range pages {
			said := ""
			for _, it := range s.Items {
				if text, ok := it.(scene.Text); ok {
					said += text.Text + " "
				}
			}
			before := strings.Contains(said, "Schematic before the work")
			seen["before"], seen["set"] = seen["before"] || before, seen["set"] || strings.Contains(said, "V3: set until")
			if before && strings.Contains(said, "V3: set until") {
				t.Errorf("before the work: %s", said)
			}
		}
	}
	if !seen["before"] || !seen["set"] {
		t.Errorf("what is looked for was not drawn: %v", seen)
	}
}

// In jobs as crowded as these every name and length of the isometric has a place on the drawing, on
// letter paper in inches because the pipes are cut there by another plane than the first; a
// leader that crosses pipe never runs along it: it keeps 7° from the three ways pipes go on paper (30°
// and 90°, ISO 5456-3).
func TestCrowdedIsometricsSayEverything(t *testing.T) {
	long, inch := 0, sheet.Page{Format: sheet.Letter}
	for _, job := range []struct {
		file  string
		page  sheet.Page
		units quantity.System
	}{
		{file: "jobs/one-speed.toml"}, {file: "jobs/sunk-in-deck.toml"}, {file: "tubs/threads.toml"}, {file: "tubs/plug-in.toml"}, {file: "tubs/starve.toml"},
		{"jobs/one-speed.toml", inch, quantity.InchSystem}, {"jobs/round-on-hose.toml", inch, quantity.InchSystem},
	} {
		file := job.file
		pages, err := Pages(jobPlan(t, "../"+file), "isometric", job.page, job.units)
		if err != nil {
			t.Fatal(err)
		}
		for _, s := range pages {
			for _, it := range s.Items {
				switch it := it.(type) {
				case scene.Text:
					if strings.Contains(it.Text, "No room on the drawing") {
						t.Errorf("%s: %s", file, it.Text)
					}
				case scene.Shape:
					if it.Name != "long-leader" {
						continue
					}
					long++
					from, to := it.Paths[0].Start, it.Paths[0].Segments[0].To
					turn := math.Mod(math.Atan2(to.Y-from.Y, to.X-from.X)*180/math.Pi+180, 180)
					for _, axis := range []float64{30, 90, 150} {
						if math.Abs(turn-axis) < 6.9 {
							t.Errorf("%s: a leader at %.1f° runs along pipe", file, turn)
						}
					}
				}
			}
		}
	}
	if long == 0 {
		t.Error("no leader crosses pipe")
	}
}

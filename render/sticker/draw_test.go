package sticker

import (
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/golden"
	"dryfit/graph/hydraulic"
	"dryfit/graph/route"
	"dryfit/graph/stream"
	"dryfit/render/scene"
	"dryfit/render/scene/differ"
	"dryfit/render/sheet"
	"dryfit/render/tag"
)

// circuit has a valve of every kind; invented.
func circuit() *graph.Circuit {
	pump := &graph.Part{ID: "pump", Kind: graph.Pump, Pump: &graph.PumpData{Speeds: []graph.Speed{{Name: "low"}, {Name: "high"}}}}
	v := func(id string, k graph.Kind, at graph.Opening) *graph.Part {
		return &graph.Part{ID: id, Kind: k, Valve: &graph.ValveData{Position: at, PositionSet: true}}
	}
	div := v("diverter", graph.DiverterValve, 1)
	div.Valve.Ways = []graph.DiverterWay{{Port: "jets", Open: 1}, {Port: "footwell", Open: 0.3}}
	return &graph.Circuit{
		Parts: []*graph.Part{pump, v("v1", graph.BallValve, 1), v("bypass-of-the-unit", graph.GateValve, 0.35), v("v3", graph.ButterflyValve, 0), div,
			{ID: "check", Kind: graph.CheckValve, Check: &graph.CheckData{Style: "spring"}},
			{ID: "drain", Kind: graph.DrainValve}, {ID: "bleed", Kind: graph.AirBleed}, {ID: "union", Kind: graph.Union}},
		Modes: []graph.Mode{
			{Name: "low", JetsOpen: 1, Speeds: map[string]string{"pump": "low"}},
			{Name: "high", JetsOpen: 1, Speeds: map[string]string{"pump": "high"}, Positions: map[string]graph.Opening{"v3": 1}},
			{Name: "unit off for the summer", JetsOpen: 1, Positions: map[string]graph.Opening{"v1": 0, "v3": 1}},
		},
	}
}

func stickers(units quantity.System) []Sticker {
	var pieces []route.Piece
	for n := 1; n <= 24; n++ {
		pieces = append(pieces, route.Piece{Number: n * n, CutMM: 61.3 * float64(n), Spec: "pvc-sch40", Size: catalog.Size{Nominal: 1.5}, Measure: n%2 == 0,
			Run:  &graph.Run{ID: "from-unit-to-the-second-tee-of-the-bypass"},
			From: route.End{Joint: 2 * n, Fitting: "elbow-90 at bend 2 of from-unit-to-the-second-tee-of-the-bypass"}, To: route.End{Joint: 2*n + 1, Fitting: "v2.in"}})
	}
	c := circuit()
	var solved []hydraulic.Solution
	for i, m := range c.Modes {
		solved = append(solved, hydraulic.Solution{Mode: m, Parts: []hydraulic.PartFlow{{Part: c.Part("check"), State: []string{"shut", "lifting", "lifting"}[i]}}})
	}
	return append(OfPieces(pieces, tag.Of(c, stream.NewNet(c)), units), OfValves(c, tag.Of(c, stream.NewNet(c)), solved, nil, nil, nil)...)
}

func input() Input {
	return Input{Stickers: stickers(quantity.MetricSystem), Job: graph.Job{Name: "Invented job: a tub by the shed", Date: "2026-04-18"}}
}

func TestGolden(t *testing.T) {
	kept := golden.In(t, "testdata/*.svg", differ.Picture)
	for i, s := range Draw(input()) {
		kept.Is(filepath.Join("testdata", fmt.Sprintf("labels-%d.svg", i+1)), scene.SVG(s))
	}
}

// The positions are those of the description in each mode, and the checks' those solved.
func TestPositions(t *testing.T) {
	want := map[string]string{
		"V1":  "at low speed OPEN/at high speed, V3 open OPEN/with no pump running, V1 shut, V3 open SHUT",
		"V2":  "every mode OPEN 35 % of its turns",
		"V3":  "at low speed SHUT/at high speed, V3 open OPEN/with no pump running, V1 shut, V3 open OPEN",
		"DV1": "jets OPEN/footwell 30 % open",
		"CV1": "at low speed stays shut/at high speed, V3 open spring part open/with no pump running, V1 shut, V3 open spring part open",
		"D1":  "every mode SHUT",
		"AB1": "every mode SHUT",
	}
	for _, l := range stickers(quantity.MetricSystem) {
		if !l.Valve {
			continue
		}
		var got []string
		for _, s := range l.Modes {
			got = append(got, s.Mode+" "+s.Position)
		}
		if g := strings.Join(got, "/"); g != want[l.Big] {
			t.Errorf("%s: %q, want %q", l.Big, g, want[l.Big])
		}
		delete(want, l.Big)
	}
	if len(want) > 0 {
		t.Errorf("no label for %v", want)
	}
}

// What a throttle is set by stands on its sticker; with the warnings too many rows for one it goes
// on two, the readings first.
func TestReadingsOfAThrottle(t *testing.T) {
	c := circuit()
	set := map[string][]Setting{"bypass-of-the-unit": {{"unit shows", "1.7 m3/h"}, {"gauges round unit", "5.0 kPa apart"}, {"warms at air 2 / 15 °C", "1.7 / 2.5 K"}, {"start near", "30° from shut"}}}
	also := map[string][]Setting{"bypass-of-the-unit": {{"unit shut off", "OPEN first"}}}
	of := func(also map[string][]Setting) (out [][]Setting) {
		for _, l := range OfValves(c, tag.Of(c, stream.NewNet(c)), nil, nil, set, also) {
			if l.Big == "V2" {
				out = append(out, l.Modes)
			}
		}
		return out
	}
	if got := of(nil); len(got) != 1 || !slices.Equal(got[0], set["bypass-of-the-unit"]) {
		t.Errorf("without warnings: %v", got)
	}
	got := of(also)
	if len(got) != 2 || !slices.Equal(got[0], set["bypass-of-the-unit"][:3]) || len(got[1]) != 2 || got[1][0].Mode != "start near" || got[1][1].Position != "OPEN first" {
		t.Errorf("with a warning: %v", got)
	}
}

// Every sticker is on a sheet once; no text touches another, a cut line or the frame; nothing
// is smaller than 1.9 mm.
func TestNothingOverlaps(t *testing.T) {
	for _, units := range []quantity.System{quantity.MetricSystem, quantity.InchSystem} {
		for _, page := range []sheet.Page{{}, {Orientation: sheet.Portrait, Fixed: true}, {Format: sheet.A3, Fixed: true}} {
			in := input()
			in.Stickers, in.Page = stickers(units), page
			big := map[string]int{}
			for _, s := range Draw(in) {
				var texts []scene.Text
				var lines []scene.Box
				for _, it := range s.Items {
					switch it := it.(type) {
					case scene.Text:
						texts = append(texts, it)
						if it.Name == "big" {
							big[it.Text]++
						}
						if it.SizeMM < leastEm {
							t.Errorf("%q is %g mm", it.Text, it.SizeMM)
						}
					case scene.Shape:
						if it.Name == "cut-line" {
							lines = append(lines, scene.Bounds(it))
						}
					}
				}
				for i, a := range texts {
					for _, b := range texts[:i] {
						if scene.Bounds(a).Overlaps(scene.Bounds(b)) {
							t.Errorf("%q and %q overlap", a.Text, b.Text)
						}
					}
					for _, l := range lines {
						if scene.Bounds(a).Overlaps(l) {
							t.Errorf("%q lies on a cut line", a.Text)
						}
					}
				}
			}
			if len(big) != len(in.Stickers) {
				t.Errorf("%d labels drawn, want %d", len(big), len(in.Stickers))
			}
			for text, n := range big {
				if n != 1 {
					t.Errorf("label %q is drawn %d times", text, n)
				}
			}
		}
	}
}

// Stickers of valves stand together where that takes no sheet more; the rest goes on as it comes.
func TestValvesOnASheetOfTheirOwn(t *testing.T) {
	of := func(pieces, valves int) []Sticker {
		out := make([]Sticker, pieces+valves)
		for i := range valves {
			out[pieces+i].Valve = true
		}
		return out
	}
	for _, c := range []struct {
		pieces, valves int
		want           []int
	}{
		{16, 4, []int{20}}, {16, 5, []int{16, 5}}, {18, 22, []int{20, 20}}, {25, 5, []int{20, 10}}, {21, 20, []int{20, 1, 20}}, {0, 21, []int{20, 1}}, {21, 0, []int{20, 1}},
	} {
		var got []int
		all := 0
		for _, s := range shared(of(c.pieces, c.valves), 20) {
			got, all = append(got, len(s)), all+len(s)
		}
		if !slices.Equal(got, c.want) || all != c.pieces+c.valves {
			t.Errorf("%d pieces and %d valves on sheets of %v, not %v", c.pieces, c.valves, got, c.want)
		}
	}
}

// A sheet says of its own stickers alone what is to be known: one of valves speaks of no piece.
func TestNotesOfASheetsOwnStickers(t *testing.T) {
	var pieces, valves []Sticker
	for _, l := range stickers(quantity.MetricSystem) {
		if l.Valve {
			valves = append(valves, l)
		} else {
			pieces = append(pieces, l)
		}
	}
	for _, c := range []struct {
		stickers             []Sticker
		star, piece, hanging bool
	}{{pieces, true, true, false}, {valves, false, false, true}, {append(slices.Clone(pieces), valves...), true, true, true}} {
		s := page(Input{}, c.stickers, 1, 1)
		said := ""
		for _, it := range s.Scene.Items {
			if x, ok := it.(scene.Text); ok {
				said += x.Text + " "
			}
		}
		for words, want := range map[string]bool{"measure the part first": c.star, "tick on each piece": c.piece, "ie on each valve": c.hanging, "in normal use": c.hanging} {
			if strings.Contains(said, words) != want {
				t.Errorf("%d labels, %d of valves: %q said: %t, in %q", len(c.stickers), len(valves), words, !want, said)
			}
		}
	}
}

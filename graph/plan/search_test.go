package plan

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/description"
	"dryfit/graph/plan/search"
)

// Each leg of a run is judged by its own room. Worked by hand from ASTM D2467 take-offs
// (2 in: 1-1/4 in = 31.75 mm) and ASTM D2466 sockets (1-5/32 in = 29.37 mm): of the return
// line of the two-speed demo, leg 1 of 120 mm has 120 - 31.75 - 2 x 29.37 = 29.51 mm, leg 2
// of 260 mm 260 - 2 x 31.75 - 2 x 29.37 = 137.76 mm, leg 3 of 1450 mm 1327.76 mm and leg 4
// of 150 mm 59.51 mm. What goes in: 2 x 29.37 into the tees, two tees of 63.50, two nipples
// of 29.37 + 38.10 + 5, a check of 95: 425.68 mm. Only leg 3 has it, whether the run is
// named or every place is looked at.
func TestEachLegHasItsOwnRoom(t *testing.T) {
	room := map[int]float64{1: 29.51, 2: 137.76, 3: 1327.76, 4: 59.51}
	for _, named := range []bool{true, false} {
		places := placesOf(t, "two-speed", named)
		if first := places[0]; first.Verdict != "best" || first.Place.Run != "return-line" || first.Place.Leg != 3 {
			t.Fatalf("run named %v: first is %s, %s; want leg 3 of return-line, best", named, first.Place.Where(), first.Verdict)
		}
		for _, v := range places {
			p := v.Place
			if p.Run != "return-line" {
				continue
			}
			if !agree.Within(p.RoomMM, room[p.Leg], 0.01) || !agree.Within(p.NeededMM, 425.68, 0.01) {
				t.Errorf("%s: room %.2f, needed %.2f; want %.2f and 425.68", p.Where(), p.RoomMM, p.NeededMM, room[p.Leg])
			}
			if p.Leg == 3 {
				continue
			}
			begins := fmt.Sprintf("leg %d of run %q has %.0f mm", p.Leg, p.Run, room[p.Leg])
			if v.Verdict != "ruled out" || len(v.Reasons) != 1 || !strings.HasPrefix(v.Reasons[0].Text.String(), begins) {
				t.Errorf("%s is %s for %v; want it ruled out for its own room alone", p.Where(), v.Verdict, v.Reasons)
			}
		}
	}
}

// placesOf ranks the places of a demo, with the run it names or with none.
func placesOf(t *testing.T, demo string, named bool) []search.Verdict {
	t.Helper()
	file := "../../testdata/" + demo + ".toml"
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	c, ds := description.Read(file, data)
	if c == nil {
		t.Fatal(ds)
	}
	if !named {
		c.Retrofit.Cut = nil
	}
	p, err := Make(c, Places)
	if err != nil {
		t.Fatal(err)
	}
	for _, d := range p.Findings {
		if d.Severity == graph.Error {
			t.Errorf("error: %s", d.Message)
		}
	}
	return p.Places
}

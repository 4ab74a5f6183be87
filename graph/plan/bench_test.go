package plan_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/description/ladder"
	"dryfit/graph/plan"
	"dryfit/graph/plan/search"
)

// largeJob is a circuit of about 500 runs: a line in a hundred lengths joined by unions, and a
// manifold with its own pipe to and from each of two hundred jets. All of it is invented.
func largeJob(tb testing.TB) *graph.Circuit {
	tb.Helper()
	const lengths, jets = 106, 195
	var b strings.Builder
	b.WriteString(`
[pipe]
spec = "pvc-sch40"
size = "2 in"

[[part]]
id = "pump"
kind = "pump"
existing = true
speeds = [
  { name = "low",  curve = [["0 m3/h", "8 m"], ["8 m3/h", "7 m"], ["14 m3/h", "4 m"]] },
  { name = "high", curve = [["0 m3/h", "18 m"], ["14 m3/h", "14 m"], ["30 m3/h", "3 m"]] },
]

[[part]]
id = "filter"
kind = "filter"
existing = true
loss = { flow = "10 m3/h", drop = "2 kPa" }

[[part]]
id = "unit"
kind = "heat-pump"
ports-size = "1 1/2 in"
flow = { least = "2.8 m3/h", rated = "4.2 m3/h", most = "8.4 m3/h" }
loss = { flow = "4.2 m3/h", drop = "6 kPa" }

[retrofit]
unit = "unit"
`)
	ports := []string{`"suction"`}
	outlets := []string{`"in"`}
	for i := range jets {
		ports = append(ports, fmt.Sprintf("%q", fmt.Sprintf("j%d", i)))
		outlets = append(outlets, fmt.Sprintf("%q", fmt.Sprintf("o%d", i)))
	}
	fmt.Fprintf(&b, "[[part]]\nid = \"tub\"\nkind = \"tub\"\nports = [%s]\n", strings.Join(ports, ", "))
	fmt.Fprintf(&b, "[[part]]\nid = \"manifold\"\nkind = \"manifold\"\nexisting = true\nports = [%s]\n", strings.Join(outlets, ", "))
	run := func(from, to, legs string) {
		fmt.Fprintf(&b, "[[run]]\nfrom = %q\nto = %q\nexisting = true\nclear = \"150 mm\"\n%s\n", from, to, legs)
	}
	run("tub.suction", "pump.in", `legs = ["down 200 mm", "right 300 mm"]`)
	run("pump.out", "filter.in", `legs = ["up 200 mm", "right 300 mm"]`)
	last := "filter.out"
	for i := range lengths {
		id := fmt.Sprintf("u%d", i)
		fmt.Fprintf(&b, "[[part]]\nid = %q\nkind = \"union\"\nexisting = true\n", id)
		legs := `legs = ["right 200 mm", "up 900 mm"]`
		if i%2 == 1 {
			legs = `legs = ["right 150 mm", "down 900 mm"]`
		}
		run(last, id+".in", legs)
		last = id + ".out"
	}
	run(last, "manifold.in", `legs = ["right 400 mm"]`)
	for i := range jets {
		fmt.Fprintf(&b, "[[part]]\nid = \"jet%d\"\nkind = \"jet-group\"\nexisting = true\ncount = 1\nbore = \"3 mm\"\n", i)
		run(fmt.Sprintf("manifold.o%d", i), fmt.Sprintf("jet%d.in", i), fmt.Sprintf("legs = [\"up %d mm\", \"back 600 mm\"]", 100+i))
		run(fmt.Sprintf("jet%d.out", i), fmt.Sprintf("tub.j%d", i), `length = "0 mm"`)
	}
	return read(tb, "large.toml", []byte(b.String()))
}

// BenchmarkCutinLarge ranks every place of a circuit of 500 runs; it is to take a second.
func BenchmarkCutinLarge(b *testing.B) {
	c := largeJob(b)
	for b.Loop() {
		if _, err := plan.Make(c, plan.Places); err != nil {
			b.Fatal(err)
		}
	}
}

// In a circuit of many runs the best eight places are worked out, and the others are told to
// be possible by the rules on the circuit alone. Not every place is held against those: what
// was not says so, and is neither possible nor best.
func TestCutinLarge(t *testing.T) {
	c := largeJob(t)
	if n := len(c.Runs); n < 490 || n > 510 {
		t.Fatalf("%d runs, want about 500", n)
	}
	p := work(t, c, plan.Places)
	solved, possible, barred, unseen := 0, 0, 0, 0
	for _, v := range p.Places {
		switch {
		case strings.HasPrefix(v.Verdict, "possible") || v.Verdict == "best":
			possible++
			if v.Summary != "" {
				solved++
			}
		case v.Verdict == "not looked at":
			unseen++
			if v.Place.RoomMM < v.Place.NeededMM || v.Place.Run[:4] != "mani" {
				t.Errorf("%s (room %.0f mm of %.0f) is not looked at", v.Place.Where(), v.Place.RoomMM, v.Place.NeededMM)
			}
		case v.Place.Run[:4] == "mani" && slices.ContainsFunc(v.Reasons, func(r search.Reason) bool { return r.Rule == "unit-before-jets" }):
			barred++
		}
	}
	if len(p.Places) != 2+2+2*106+1+2*195 || possible != 106 || solved != 8 || p.Places[0].Summary == "" {
		t.Errorf("%d places, %d possible, %d of them solved", len(p.Places), possible, solved)
	}
	if barred < 15 || unseen == 0 {
		t.Errorf("%d places behind the manifold are barred, %d not looked at", barred, unseen)
	}
}

// BenchmarkLadder works out ladders of many runs: what check, cutin and flow want of a plan. It
// is to grow by at most 1.2 in the exponent.
func BenchmarkLadder(b *testing.B) {
	for _, w := range []struct {
		name string
		want plan.Want
	}{{"check", 0}, {"lists", plan.Lists}, {"places", plan.Places}, {"flows", plan.Flows}, {"ranges", plan.Ranges}} {
		for _, n := range []int{50, 200, 500, 1000} {
			c := read(b, "ladder.toml", ladder.Of(n))
			b.Run(fmt.Sprintf("%s-%d", w.name, n), func(b *testing.B) {
				b.ReportAllocs()
				for b.Loop() {
					if _, err := plan.Make(c, w.want); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
	}
}

// Who waits for the ranges is told how far they are: every point of the sample once, in order.
func TestRangesTellHowFar(t *testing.T) {
	c := read(t, "ladder.toml", ladder.Of(20))
	next, all := 0, 0
	p, err := plan.Make(c, plan.Ranges, func(what string, done, of int) {
		if what == "solving again over what is not known exactly" && of > 0 {
			if done != next {
				t.Fatalf("told of point %d, want %d", done, next)
			}
			next, all = done+1, of
		}
	})
	if err != nil {
		t.Fatal(err)
	}
	if p.Ranges == nil || all == 0 || next != all || all != p.Ranges.Samples {
		t.Errorf("told of %d points of %d; the ranges are of %+v", next, all, p.Ranges)
	}
}

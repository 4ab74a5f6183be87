package match

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"dryfit/graph/plan"
)

// headAt is a point of a pump's curve as the demo has it.
var headAt = regexp.MustCompile(`\["([\d.]+) m3/h", "([\d.]+) m"\]`)

// truth is the demo with a pump that is not what its sheet says and a filter that costs other than its own: each
// head and flow of the curves by a factor, the filter's drop by another.
func truth(flow, head, filter float64) func(string) string {
	return func(s string) string {
		s = headAt.ReplaceAllStringFunc(s, func(point string) string {
			at := headAt.FindStringSubmatch(point)
			q, _ := strconv.ParseFloat(at[1], 64)
			h, _ := strconv.ParseFloat(at[2], 64)
			return fmt.Sprintf(`["%.4f m3/h", "%.4f m"]`, q*flow, h*head)
		})
		return strings.Replace(s, `drop = "6.5 kPa"`, fmt.Sprintf(`drop = "%.3f kPa"`, 6.5*filter), 1)
	}
}

// TestMatchByReadingsNearsTheTruth makes tubs whose pump and filter are none of what the file says of them, and
// reads the pump's flow at both its speeds there with a meter that is 4 % off, one way at one speed and the
// other at the other. What match says by the file with these readings of what each unit would get is nearer to
// what it gets there than by the file alone, and the unit it puts first is the one that is first there.
func TestMatchByReadingsNearsTheTruth(t *testing.T) {
	alone := of(t, read(t, same))
	for _, f := range [][3]float64{{0.92, 0.93, 1.4}, {1.08, 1.08, 0.8}, {0.95, 0.9, 1.0}} {
		world := read(t, truth(f[0], f[1], f[2]))
		p, err := plan.Make(world, plan.Flows)
		if err != nil {
			t.Fatal(err)
		}
		readings, off := "", 1.04
		for i := range p.Before.Solutions {
			s := &p.Before.Solutions[i]
			readings += fmt.Sprintf("\n[[reading]]\nat = \"pump\"\nmode = %q\nflow = \"%.2f m3/h\"\nplus-minus = \"5 %%\"\n", s.Mode.Name, s.Part("pump").Flow*3600*off)
			off = 2 - off
		}
		there, fitted := of(t, world), of(t, read(t, func(s string) string { return s + readings }))
		var byFile, byReading float64
		for i := range there.Units {
			u := &there.Units[i]
			a, b := as(t, alone, u.Name), as(t, fitted, u.Name)
			for k, flow := range u.Flows {
				byFile += math.Abs(a.Flows[k].M3s - flow.M3s)
				byReading += math.Abs(b.Flows[k].M3s - flow.M3s)
			}
		}
		if byReading >= byFile || byFile == 0 {
			t.Errorf("pump by %v, filter by %g: by the readings %.3f m3/h off in all, by the file alone %.3f", f[:2], f[2], byReading*3600, byFile*3600)
		}
		if fitted.Units[0].Name != there.Units[0].Name {
			t.Errorf("%v: %s first, there it is %s", f, fitted.Units[0].Name, there.Units[0].Name)
		}
	}
}

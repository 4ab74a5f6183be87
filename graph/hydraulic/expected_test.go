package hydraulic_test

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"dryfit/graph/agree"
	"dryfit/graph/hydraulic"
)

// TestCircuits compares whole circuits with answers worked out elsewhere: testdata/circuits
// says by what.
func TestCircuits(t *testing.T) {
	f, err := os.Open("testdata/circuits/expected.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	table := csv.NewReader(f)
	table.Comment = '#'
	rows, err := table.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	solved := map[string]*hydraulic.Solution{} // by circuit and mode
	checked := map[string]bool{}
	for _, row := range rows[1:] {
		circuit, mode, what, id, field, want, tolerance := row[0], row[1], row[2], row[3], row[4], row[5], row[6]
		checked[circuit] = true
		sol := solved[circuit+" "+mode]
		if sol == nil {
			sol = solve(t, file(t, "circuits/"+circuit+".toml"), mode)
			solved[circuit+" "+mode] = sol
		}
		name := strings.Join([]string{circuit, mode, id, field}, ", ")
		if field == "state" {
			if got := sol.Part(id).State; got != want {
				t.Errorf("%s: %q, want %q", name, got, want)
			}
			continue
		}
		value, err1 := strconv.ParseFloat(want, 64)
		most, err2 := strconv.ParseFloat(tolerance, 64)
		if err1 != nil || err2 != nil {
			t.Fatalf("%s: %v, %v", name, err1, err2)
		}
		got, ok := reported(sol, what, id, field)
		switch {
		case !ok:
			t.Errorf("%s: nothing reports it", name)
		case !agree.Within(got, value, most*max(math.Abs(value), 1e-3)):
			t.Errorf("%s: %.7g, want %.7g within %g", name, got, value, most)
		}
	}
	files, err := filepath.Glob("testdata/circuits/*.toml")
	if err != nil {
		t.Fatal(err)
	}
	for _, path := range files {
		if name := strings.TrimSuffix(filepath.Base(path), ".toml"); !checked[name] {
			t.Errorf("nothing is expected of %s", name)
		}
	}
}

// reported returns a number of a solution in the units of the table of expected values.
func reported(s *hydraulic.Solution, what, id, field string) (float64, bool) {
	if what == "run" {
		r := s.Run(id)
		if r == nil {
			return 0, false
		}
		v, ok := map[string]float64{"flow": r.Flow * 3600, "v": r.Velocity, "re": r.Reynolds, "f": r.Friction, "drop": r.Drop / 1000}[field]
		return v, ok
	}
	p := s.Part(id)
	if p == nil {
		return 0, false
	}
	if leg, ok := strings.CutPrefix(field, "legs."); ok { // legs.PORT.k
		for _, l := range p.Legs {
			if l.Port+".k" == leg {
				return l.K, true
			}
		}
		return 0, false
	}
	v, ok := map[string]float64{"flow": p.Flow * 3600, "drop": p.Drop / 1000, "head": p.HeadM, "margin": p.MarginPa / 1000, "npsh": p.NPSHAvailableM,
		"rise": p.RiseK, "static": p.StaticPa / 1000, "power": p.PowerW, "eff": p.Efficiency}[field]
	return v, ok
}

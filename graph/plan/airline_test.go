package plan_test

import (
	"os"
	"path/filepath"
	"slices"
	"testing"

	"dryfit/graph"
	"dryfit/graph/plan"
)

// A line of old pipe that is called an air line by a slip of the pen is told as one that joins the
// water: the tee it ends at has two legs of water left, and the job is planned on to be told so.
func TestAnAirLineInTheWaterIsTold(t *testing.T) {
	file := filepath.Join("..", "..", "testdata", "plunge-pool.toml")
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	at := "from = \"floor-valve.out\"\nto = \"suction-tee.branch\"\n"
	c := read(t, file, []byte(replaced(t, string(data), []string{at + "existing = true", at + "air = true"})))
	p := work(t, c, plan.Findings|plan.Flows)
	if !slices.ContainsFunc(p.Findings, func(d graph.Diagnostic) bool {
		return d.Rule == "air-apart-from-water" && d.Severity == graph.Error
	}) {
		t.Errorf("an air line in the water is not told: %v", p.Findings)
	}
}

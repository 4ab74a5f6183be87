package plan

import (
	"testing"

	"dryfit/graph"
)

// A climate of which only wind and swing are said is no weather: that is found, where it stands.
func TestClimateWithoutAir(t *testing.T) {
	c := &graph.Climate{Pos: graph.Pos{File: "job.toml", Line: 3, Column: 1}, WindMS: []float64{2}}
	w, found := WeatherOf(c)
	if w != nil || len(found) != 1 || found[0].Pos != c.Pos || found[0].Severity != graph.Error {
		t.Errorf("weather %v, found %v", w != nil, found)
	}
	c.AirC = []float64{2, 3, 6, 9, 13, 17, 19, 18, 15, 11, 6, 3}
	if w, found = WeatherOf(c); w == nil || len(found) > 0 {
		t.Errorf("with the months' air: weather %v, found %v", w != nil, found)
	}
}

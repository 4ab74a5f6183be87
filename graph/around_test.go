package graph

import (
	"testing"
)

// What a leg says of its surroundings goes before what is said of its run; what it leaves open is the
// run's. By the meaning of the keys, no source needed.
func TestAroundALeg(t *testing.T) {
	yes, no := true, false
	r := Run{Surroundings: Surroundings{ClearMM: 100, PlayMM: 20, Reachable: &yes},
		Legs: []Leg{{Surroundings: NothingSaid()}, {Surroundings: Surroundings{ClearMM: 0, PlayMM: -1, PushesAside: &yes, Reachable: &no}}}}
	for leg, want := range []Surroundings{r.Surroundings, r.Surroundings, {ClearMM: 0, PlayMM: 20, PushesAside: &yes, Reachable: &no}, r.Surroundings} {
		if got := r.Around(leg); got != want {
			t.Errorf("leg %d: %+v, want %+v", leg, got, want)
		}
	}
}

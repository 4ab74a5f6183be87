package pack

import (
	"strings"
	"testing"

	"dryfit/catalog/quantity"
)

// One suction shut is as forbidden as both: the schedule says it of the one or the other, as the owner's
// page does. Plunge-pool has a valve in each of its two suctions (its file).
func TestEitherSuctionIsNeverShut(t *testing.T) {
	p := demoPlan(t, "plunge-pool")
	never := strings.Join(valveSchedule(p, factsOf(p, quantity.MetricSystem)).Never, "; ")
	if !strings.Contains(never, "SV1 or SV2 shut while a pump can start") {
		t.Error(never)
	}
}

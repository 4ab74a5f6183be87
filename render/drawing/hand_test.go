package drawing

import (
	"testing"
)

// A valve that is set by its Kv is told to stand where its own curve has it: of one that passes a tenth of its
// 200 m3/h half open, as its row says, that is 45 degrees, not the 60 of a cock in a round pipe.
func TestHandOfAnOwnRow(t *testing.T) {
	p := planOf(t, "hand.toml", []byte(`
[pipe]
spec = "pvc-sch40"
size = "2 in"
[[part]]
id = "tub"
kind = "tub"
ports = ["a", "b"]
[[part]]
id = "pump"
kind = "pump"
existing = true
curve = [["0 m3/h", "10 m"], ["30 m3/h", "0 m"]]
[[part]]
id = "v"
kind = "ball-valve"
type = "slow"
kv = "20 m3/h"
existing = true
[[run]]
from = "tub.a"
to = "pump.in"
length = "1 m"
existing = true
[[run]]
from = "pump.out"
to = "v.in"
length = "1 m"
existing = true
[[run]]
from = "v.out"
to = "tub.b"
length = "1 m"
existing = true
[[catalog.ball-valve]]
name = "slow"
size = "2 in"
length = "90 mm"
socket = "38 mm"
ends = "socket"
rating = "10 bar"
kv = "200 m3/h"
opening = [["0 %", "0 %"], ["25 %", "5 %"], ["50 %", "10 %"], ["75 %", "20 %"], ["100 %", "100 %"]]
source = "made up"
`))
	if got := Hand(p, p.After.Circuit.Part("v")); got != "HANDLE 45° from shut" {
		t.Errorf("it is to stand: %s", got)
	}
}

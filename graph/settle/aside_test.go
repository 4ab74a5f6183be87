package settle_test

import (
	"strings"
	"testing"

	"dryfit/graph/agree"
)

// An injector on a hose beside the line was made for that hose's share of the pump's water, one in
// the line for all of it. 3/4 in of bore in pipe of 52.5 mm (ASTM D1785, mean) is 0.132 of it.
func TestBesideTheLine(t *testing.T) {
	job := func(hose string) string {
		return strings.Replace(loop("", ""), "[[part]]\nid = \"check\"", `[[part]]
id = "off"
kind = "tee"
[[part]]
id = "back"
kind = "tee"
[[part]]
id = "ozone"
kind = "ozone-injector"
[[run]]
from = "off.branch"
to = "ozone.in"
length = "400 mm"
`+hose+`
[[run]]
from = "ozone.out"
to = "back.branch"
length = "400 mm"
`+hose+`
[[run]]
from = "off.run-out"
to = "back.run-in"
length = "500 mm"
[[run]]
from = "back.run-out"
to = "check.in"
length = "500 mm"
[[part]]
id = "check"`, 1)
	}
	line := func(text string) string {
		return strings.Replace(text, "from = \"pump.out\"\nto = \"check.in\"", "from = \"pump.out\"\nto = \"off.run-in\"", 1)
	}
	narrow := read(t, line(job("spec = \"hose\"\nsize = \"3/4 in\""))).Part("ozone").Loss
	if want := (19.05 / 52.5) * (19.05 / 52.5); !agree.Within(narrow.Aside, want, 0.003) || !strings.Contains(string(narrow.BestFlow()), "share") {
		t.Errorf("on hose of 3/4 in: %.3f of the pump's best flow, %q, want %.3f", narrow.Aside, narrow.BestFlow(), want)
	}
	// Tubs narrow a line to 1-1/2 in at what stands in it (common practice, no source): no share.
	if inch := read(t, line(job("spec = \"hose\"\nsize = \"1 in\""))).Part("ozone").Loss; !agree.Within(inch.Aside, (25.4/52.5)*(25.4/52.5), 0.005) {
		t.Errorf("on hose of 1 in: %.3f of the pump's best flow", inch.Aside)
	}
	if line := read(t, line(job("spec = \"hose\"\nsize = \"1-1/2 in\""))).Part("ozone").Loss; line.Aside != 0 {
		t.Errorf("narrowed to 1-1/2 in: %.3f of the pump's best flow, want all of it", line.Aside)
	}
	if whole := read(t, line(job(""))).Part("ozone").Loss; whole.Aside != 0 {
		t.Errorf("in pipe of the pump's size: %.3f of its best flow, want all of it", whole.Aside)
	}
}

package drawing

import (
	"fmt"
	"strings"
	"testing"

	"dryfit/render/tag"
)

// A unit that hangs with a bypass of its own in the pipes of another is shut off by its own valves: before its
// unions are opened these are shut, and not those of the other, which then stands still too. By hand from the
// circuit below: tub, pump, a (isolated by v5 and v6), and in its pipe before it b (by v1 and v2).
func TestLabelOfAUnitInThePipeOfAnother(t *testing.T) {
	var b strings.Builder
	b.WriteString(`[water]
volume = "1000 l"
[pipe]
spec = "pvc-sch40"
size = "1 1/2 in"
[[part]]
id = "tub"
kind = "tub"
ports = ["out", "back"]
[[part]]
id = "pump"
kind = "pump"
existing = true
curve = [["0 m3/h", "9 m"], ["8 m3/h", "7 m"], ["14 m3/h", "3 m"]]
`)
	part := func(kind string, ids ...string) {
		for _, id := range ids {
			fmt.Fprintf(&b, "[[part]]\nid = %q\nkind = %q\nexisting = true\n", id, kind)
		}
	}
	run := func(ends ...string) {
		for i := 1; i < len(ends); i++ {
			from, to := ends[i-1], ends[i]
			if !strings.Contains(from, ".") {
				from += ".out"
			}
			if i > 1 && strings.HasSuffix(from, ".run-in") {
				from = strings.TrimSuffix(from, "in") + "out"
			}
			if !strings.Contains(to, ".") {
				to += ".in"
			}
			fmt.Fprintf(&b, "[[run]]\nfrom = %q\nto = %q\nlength = \"300 mm\"\nexisting = true\n", from, to)
		}
	}
	part("tee", "tee-a", "tee-b", "tee-c", "tee-d")
	part("ball-valve", "v1", "v2", "v3", "v4", "v5", "v6")
	part("union", "u1", "u2", "u3", "u4")
	part("heat-pump", "a", "b")
	run("tub.out", "pump", "tee-a.run-in", "v4", "tee-b.run-in", "tub.back")
	run("tee-a.branch", "v5", "tee-c.run-in", "v3", "tee-d.run-in", "u1", "a", "u2", "v6", "tee-b.branch")
	run("tee-c.branch", "v1", "u3", "b", "u4", "v2", "tee-d.branch")
	p := planOf(t, "inner.toml", []byte(b.String()))
	names := tag.Of(p.Circuit, p.Net())
	said := warnings(p, names)
	for union, valves := range map[string][2]string{"u1": {"v5", "v6"}, "u2": {"v5", "v6"}, "u3": {"v1", "v2"}, "u4": {"v1", "v2"}} {
		rows := said[union]
		if len(rows) != 1 || !strings.Contains(rows[0].Mode, names.Tag(valves[0])) || !strings.Contains(rows[0].Mode, names.Tag(valves[1])) || strings.Count(rows[0].Mode, ",") != 1 {
			t.Errorf("before %s is opened: %v, want %s and %s shut", names.Tag(union), rows, names.Tag(valves[0]), names.Tag(valves[1]))
		}
	}
}

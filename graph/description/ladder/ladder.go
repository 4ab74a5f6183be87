// Package ladder writes descriptions of any size, to measure by: a line of tees with a jet on
// each, which is what a tub of many jets is plumbed like. Everything in them is invented.
package ladder

import (
	"fmt"
	"strings"
)

// mostJets is how many jets a ladder has: a tub of more ports is none.
const mostJets = 190

// Of returns the description of a tub with about so many runs, 20 to 2,000: pump, filter and a
// line of tees with a jet on each, and unions in the line where there are more runs than jets
// for them. A unit is to be fitted; where, is left open.
func Of(runs int) []byte {
	jets := min((runs-3)/3, mostJets)
	unions := max(0, runs-3-3*jets)
	var b strings.Builder
	b.WriteString(head)
	ports := []string{`"suction"`}
	for i := range jets {
		ports = append(ports, fmt.Sprintf(`"j%d"`, i+1))
	}
	fmt.Fprintf(&b, "\n[[part]]\nid = \"tub\"\nkind = \"tub\"\nports = [%s]\nport.suction = { faces = \"front\" }\n", strings.Join(ports, ", "))
	run := func(from, to, way string) {
		fmt.Fprintf(&b, "\n[[run]]\nfrom = %q\nto = %q\nexisting = true\n%s\n", from, to, way)
	}
	part := func(id, kind, more string) {
		fmt.Fprintf(&b, "\n[[part]]\nid = %q\nkind = %q\nexisting = true\n%s", id, kind, more)
	}
	const room = "clear = \"150 mm\"\nplay = \"40 mm\"\npushes-aside = true\n"
	run("tub.suction", "pump.in", `legs = ["front 200 mm", "right 600 mm"]`)
	run("pump.out", "filter.in", `legs = ["up 200 mm", "right 300 mm"]`)
	last, line := "filter.out", room+`legs = ["right 1900 mm"]`
	for i := range jets {
		for k := range (i+1)*unions/jets - i*unions/jets {
			id := fmt.Sprintf("u%d-%d", i+1, k+1)
			part(id, "union", "")
			run(last, id+".in", line)
			last, line = id+".out", `legs = ["right 250 mm"]`
		}
		tee, jet := fmt.Sprintf("t%d", i+1), fmt.Sprintf("jet%d", i+1)
		part(jet, "jet-group", "count = 1\nbore = \"6 mm\"\n")
		way := fmt.Sprintf("size = \"3/4 in\"\nlegs = [\"up %d mm\", \"back 400 mm\"]", 150+10*(i%7))
		if i == jets-1 {
			run(last, jet+".in", `legs = ["right 250 mm"]`)
		} else {
			part(tee, "tee", "port.branch.size = \"3/4 in\"\n")
			run(last, tee+".run-in", line)
			last, line = tee+".run-out", `legs = ["right 300 mm"]`
			run(tee+".branch", jet+".in", way)
		}
		run(jet+".out", fmt.Sprintf("tub.j%d", i+1), `length = "0 mm"`)
	}
	return []byte(b.String())
}

const head = `# Made to measure by; everything in it is invented.

[job]
name = "A ladder of tees"

[water]
volume = "2500 l"
temperature = "38 °C"

[pipe]
spec = "pvc-sch40"
size = "2 in"

[retrofit]
unit = "unit"

[[part]]
id = "pump"
kind = "pump"
existing = true
runs-for-heat = "hours"
speeds = [
  { name = "low",  power = "300 W",  curve = [["0 m3/h", "6 m"], ["8 m3/h", "5 m"], ["16 m3/h", "2 m"]] },
  { name = "high", power = "2.2 kW", curve = [["0 m3/h", "18 m"], ["14 m3/h", "14 m"], ["34 m3/h", "3 m"]] },
]
port.in = { faces = "left" }
port.out = { at = ["right 110 mm", "up 150 mm"], faces = "up" }

[[part]]
id = "filter"
kind = "filter"
existing = true
loss = { flow = "10 m3/h", drop = "4 kPa" }
length = "300 mm"

[[part]]
id = "unit"
kind = "heat-pump"
known = "data-sheet"
ports-size = "1 1/2 in"
flow = { least = "2.8 m3/h", rated = "4.2 m3/h", most = "8.4 m3/h" }
loss = { flow = "4.2 m3/h", drop = "6 kPa" }
highest-pressure = "3.5 bar"
ratings = [{ air = "15 °C", water = "38 °C", output = "12.1 kW", input = "3.0 kW" }]
set-point = "38 °C"
refrigerant = "R32"
drain-plug = true
stands-on = "slab"
`

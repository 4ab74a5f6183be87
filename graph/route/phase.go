package route

import (
	"slices"
	"strings"

	"dryfit/graph"
)

// phases says of each joint where it is made: what lies on the chain between two old ends,
// with its branches up to their isolators, is put together on the bench, and only its
// joints to the old pipe and those that close it are made in the line.
func (o *sequence) phases() {
	b := o.bodies
	o.phase = make([]Phase, len(b.links))
	o.late = make([]int, len(b.links))
	inString, onLoop := o.stringBodies()
	head := o.withIsolators(inString)
	for k := range b.links {
		n := &b.links[k]
		x, y := b.ends[k][0], b.ends[k][1]
		switch {
		case n.class() == unitNut:
			o.phase[k] = Unit
		case x == 0 || y == 0:
			o.phase[k] = InLine
		case head[x] && head[y] && onLoop[k] && n.class() >= slid:
			o.phase[k] = InLine
		case head[x] && head[y]:
			o.phase[k] = Bench
		default:
			o.phase[k] = Pipes
		}
	}
	for rank, c := range o.closings {
		o.late[c.link] = rank + 1
		phase := o.phase[c.link]
		for _, j := range c.cycle {
			phase = max(phase, o.phase[j])
		}
		o.phase[c.link] = phase
		if c.with >= 0 {
			o.late[c.with], o.phase[c.with] = rank+1, phase
		}
		o.fitLate(c, rank+1, phase)
		for _, part := range o.slid(c) {
			for j := range b.links {
				if b.links[j].Part == part && b.links[j].Slip {
					o.late[j], o.phase[j] = rank+1, phase
				}
			}
		}
	}
	o.measureNear()
}

// slid are the slip couplings of a loop that one of them closes. All of them are parked before and
// slid together: into one that is glued nothing goes in between two ends that stand.
func (o *sequence) slid(c closing) []string {
	if c.how != "slip coupling" {
		return nil
	}
	var out []string
	for _, k := range append(slices.Clone(c.cycle), c.link) {
		if n := &o.bodies.links[k]; n.Slip && n.Part != "" && !slices.Contains(out, n.Part) {
			out = append(out, n.Part)
		}
	}
	return out
}

// stringBodies are the bodies on chains between two old ends that do not pass the unit,
// and the links on them.
func (o *sequence) stringBodies() (map[int]bool, map[int]bool) {
	b := o.bodies
	in, on := map[int]bool{}, map[int]bool{}
	for _, c := range o.closings {
		all := append(slices.Clone(c.cycle), c.link)
		old, unit := false, false
		for _, k := range all {
			old = old || b.ends[k][0] == 0 || b.ends[k][1] == 0
			unit = unit || o.isUnit(b.ends[k][0]) || o.isUnit(b.ends[k][1])
		}
		if !old || unit {
			continue
		}
		for _, k := range all {
			on[k] = true
			in[b.ends[k][0]], in[b.ends[k][1]] = true, true
		}
	}
	delete(in, 0)
	return in, on
}

func (o *sequence) isUnit(body int) bool {
	p := o.part(partOf(o.bodies.names[body]))
	return p != nil && p.Kind == graph.HeatPump
}

// partOf is the id of the part a body belongs to; "" for pipe and fittings.
func partOf(body string) string {
	if id, ok := strings.CutPrefix(body, "part "); ok {
		return id
	}
	if id, ok := strings.CutPrefix(body, "tail "); ok {
		return id[:strings.LastIndexByte(id, '.')]
	}
	return ""
}

// benchReach is how many joints a branch's isolator may be away from the string to be put
// together with it on the bench.
const benchReach = 10

// withIsolators adds to the string each branch up to its first hand valve.
func (o *sequence) withIsolators(in map[int]bool) map[int]bool {
	b := o.bodies
	all := make([][]int, len(b.names))
	for k, e := range b.ends {
		all[e[0]] = append(all[e[0]], k)
		all[e[1]] = append(all[e[1]], k)
	}
	out := map[int]bool{}
	var start []int
	for i := range b.names {
		if in[i] {
			out[i] = true
			start = append(start, i)
		}
	}
	for _, s := range start {
		came := map[int]int{s: -1}
		depth := map[int]int{s: 0}
		for queue := []int{s}; len(queue) > 0; queue = queue[1:] {
			at := queue[0]
			if p := o.part(partOf(b.names[at])); at != s && p != nil && p.Kind.IsHandValve() {
				for x := at; x >= 0 && !in[x]; x = came[x] {
					out[x] = true
				}
				continue
			}
			if depth[at] >= benchReach {
				continue
			}
			for _, k := range all[at] {
				far := b.other(k, at)
				if _, seen := came[far]; seen || far == 0 || in[far] || o.isUnit(far) {
					continue
				}
				came[far], depth[far] = at, depth[at]+1
				queue = append(queue, far)
			}
		}
	}
	return out
}

// measureNear counts for each joint how many joints it is away from what is there already,
// so that pipes are run outwards.
func (o *sequence) measureNear() {
	b := o.bodies
	all := make([][]int, len(b.names))
	for k, e := range b.ends {
		all[e[0]] = append(all[e[0]], k)
		all[e[1]] = append(all[e[1]], k)
	}
	o.near = make([]int, len(b.links))
	for k := range o.near {
		o.near[k] = len(b.links)
	}
	away := map[int]int{0: 0}
	for queue := []int{0}; len(queue) > 0; queue = queue[1:] {
		at := queue[0]
		for _, k := range all[at] {
			o.near[k] = min(o.near[k], away[at])
			far := b.other(k, at)
			if _, seen := away[far]; !seen && !o.isUnit(far) {
				away[far] = away[at] + 1
				queue = append(queue, far)
			}
		}
	}
}

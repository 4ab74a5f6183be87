package hydraulic

import (
	"slices"

	"dryfit/graph"
)

// ports numbers the ports of a circuit as they are met: a part's by its place in the circuit
// and the port's name, so that no key is put together for each.
type ports struct {
	of    [][]namedPort    // of each part, as they are met
	large []map[string]int // of a part of many ports: their numbers by name; nil of others
	count int
}

type namedPort struct {
	name   string
	number int
}

// manyPorts is from how many ports on a part's are looked up rather than gone through.
const manyPorts = 12

// carriesAir reports whether a port carries air. Most parts have no such port, which is found once
// for all of their ports.
func (b *builder) carriesAir(part int, port string) bool {
	return b.air[part] && b.c.Parts[part].IsAir(port)
}

// hasAir reports whether any port of a part may carry air.
func hasAir(p *graph.Part) bool {
	return p.Kind.MovesAir() || p.Kind.AirPort() != "" || slices.ContainsFunc(p.Ports, func(q graph.Port) bool { return q.Air })
}

func newPorts(parts int) *ports {
	return &ports{of: make([][]namedPort, parts), large: make([]map[string]int, parts)}
}

// number returns the number of a port, counted from 0 in the order in which they are asked for.
func (s *ports) number(part int, port string) int {
	list := s.of[part]
	if len(list) < manyPorts {
		for i := range list {
			if list[i].name == port {
				return list[i].number
			}
		}
	} else if n, ok := s.large[part][port]; ok {
		return n
	}
	n := s.count
	s.count++
	if list == nil {
		list = make([]namedPort, 0, 4)
	}
	s.of[part] = append(list, namedPort{port, n})
	switch len(s.of[part]) {
	case manyPorts:
		s.large[part] = make(map[string]int, 2*manyPorts)
		for _, p := range s.of[part] {
			s.large[part][p.name] = p.number
		}
	default:
		if s.large[part] != nil {
			s.large[part][port] = n
		}
	}
	return n
}

// middle is what the port of a part is called in which its others meet.
const middle = ""

// port returns the number of a port of the circuit, by its part's place there.
func (b *builder) port(part int, port string) int {
	n := b.ports.number(part, port)
	for len(b.nodes) <= n {
		b.nodes, b.runsAt = append(b.nodes, -1), append(b.runsAt, -1)
	}
	return n
}

// middleOf is the node in which the ports of a part meet.
func (b *builder) middleOf(p *graph.Part) int { return b.nodeOf(b.port(b.m.PartAt[p.ID], middle)) }

// endOf is the node of a part's port with a number; every port of a tub is the water in it.
func (b *builder) endOf(p *graph.Part, port int) int {
	if p.Kind == graph.Tub {
		return b.m.tub
	}
	return b.nodeOf(port)
}

// nodeOf is the node of a port with a number, in the network.
func (b *builder) nodeOf(n int) int {
	if b.nodes[n] < 0 {
		b.nodes[n] = b.m.net.Nodes
		b.m.net.Nodes++
	}
	return b.nodes[n]
}

// runAt returns the first run at a port, or nil.
func (b *builder) runAt(p *graph.Part, port string) *ModelRun {
	if i := b.runsAt[b.port(b.m.PartAt[p.ID], port)]; i >= 0 {
		return &b.m.Runs[i]
	}
	return nil
}

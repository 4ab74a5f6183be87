package settle

import (
	"cmp"
	"strings"

	"dryfit/catalog"
	"dryfit/graph"
)

// Socket is what a port offers to pipe.
type Socket struct {
	Spec catalog.Spec
	Size catalog.Size
	Row  *catalog.Row // of the part
	Ends string       // "socket", "barb", "thread", "union", of this port
	Free bool         // takes whatever its run is made of: nobody said a size
}

// PortEnds returns what one port of a row is: of two ends that differ the first is the
// inlet (a tee's run), the second the outlet (a tee's branch).
func PortEnds(row *catalog.Row, port string) string {
	first, second, two := strings.Cut(row.Ends, "/")
	if two && (port == graph.Out || port == graph.Branch) {
		return second
	}
	return first
}

// socketAt returns what a port offers to the run that ends there.
func (s *Stage) socketAt(p *Part, port string, run *graph.Run) Socket {
	out := Socket{Row: &p.Row.V}
	out.Ends = cmp.Or(p.Ends, PortEnds(out.Row, port))
	if p.Ends == "" && p.Part.Spec.IsHose() { // made for hose: it goes on its tails
		out.Ends = "barb"
	}
	if p.Kind == graph.Barb {
		out.Ends = barbEnd(out.Row, run)
	}
	var said catalog.Size
	if q := p.Port(port); q != nil {
		said = q.Size
	}
	if said.IsZero() && p.Kind == graph.HeatPump {
		said = s.portsSize(p.Part).V
	}
	if Fitted(p.Kind) {
		out.Spec, out.Size = p.Spec.V, p.Size.V
		if p.Kind == graph.Tee && port == graph.Branch && !p.BranchSize.IsZero() {
			out.Size = p.BranchSize
		} else if p.Kind == graph.Tee && port == graph.Branch && out.Row.Kind == "reducing-tee" {
			out.Size = out.Row.Size2
		}
	} else {
		if said.IsZero() && !TwoSizes(p.Kind) {
			said = p.Part.Size
		}
		out.Spec, out.Size, out.Free = p.Part.Spec, said, said.IsZero()
		if out.Free {
			out.Spec, out.Size = run.Spec, run.Size
		}
	}
	if !said.IsZero() {
		out.Size = said
	}
	if out.Spec == "" {
		out.Spec = run.Spec
	}
	if !out.Size.IsZero() && !out.Free && (out.Spec.IsHose() || out.Spec.Family() == "" || (out.Spec.Family() == catalog.Metric) != out.Size.Metric) {
		out.Spec = RigidSpec("", out.Size)
	}
	return out
}

// Depth is how deep pipe of a spec and size goes into a fitting of its own kind, mm; 0 where
// the catalogue has none. It may be asked of a finished stage.
func (s *Stage) Depth(spec catalog.Spec, size catalog.Size) float64 {
	return SocketDepth(s.cat, spec, size)
}

// depth is Depth while the stage is made, each looked up once.
func (s *Stage) depth(spec catalog.Spec, size catalog.Size) float64 {
	d, ok := s.deep[pipe{spec, size}]
	if !ok {
		d = SocketDepth(s.cat, spec, size)
		s.deep[pipe{spec, size}] = d
	}
	return d
}

// SocketDepth is how deep pipe of a spec and size goes into a fitting of its own kind, mm: a
// coupling's, else an elbow's or a tee's; 0 where the catalogue has none.
func SocketDepth(cat *catalog.Catalog, spec catalog.Spec, size catalog.Size) float64 {
	for _, kind := range []string{"coupling", "elbow-90", "tee"} {
		if r, ok := cat.Fitting(kind, spec, size); ok && r.SocketMM > 0 {
			return r.SocketMM
		}
	}
	return 0
}

// SlipClearMM is by how much new pipe is cut short of the old pipe it meets in a slip coupling, mm:
// a string between two of them is so 2 mm shorter than its gap and drops in, and sockets without a
// stop cover what is missing. Common practice, no source.
const SlipClearMM = 1

// OverSlip is how long a slip coupling is from face to face, mm, by its row: as it says, else its
// length and both sockets, of the depth given where the row has none.
func OverSlip(row catalog.Row, depth float64) float64 {
	if row.OverallMM > 0 {
		return row.OverallMM
	}
	if row.SocketMM > 0 {
		depth = row.SocketMM
	}
	return row.LengthMM + 2*depth
}

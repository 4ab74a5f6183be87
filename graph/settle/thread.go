package settle

import (
	"cmp"
	"strings"

	"dryfit/catalog"
	"dryfit/graph"
)

// ThreadAdaptor is the fitting between a threaded part and glued pipe: a socket at one end,
// a thread at the other.
const ThreadAdaptor = "thread-adaptor"

// onThread returns the adaptor that stands on a threaded port of the new work, or where new
// pipe comes to an old one, and what the port offers then: a socket. What is there already
// on both sides was made up by somebody, and stays as it is.
func (s *Stage) onThread(e *End, pipe *graph.Run) ([]Adaptor, Socket) {
	part := e.Socket
	if part.Ends != "thread" || pipe.Direct() || e.Part.Existing && !pipe.New() {
		return nil, part
	}
	if pipe.Spec.IsHose() && part.Free {
		part = s.besideHose(part)
	}
	row, ok := s.cat.Fitting(ThreadAdaptor, part.Spec, part.Size)
	a := Adaptor{Kind: ThreadAdaptor, Row: row, Known: ok, Spec: part.Spec, Spec2: part.Spec, Size: part.Size, Size2: part.Size,
		AddsMM: row.LengthMM, DepthMM: cmp.Or(row.SocketMM, s.depth(part.Spec, part.Size))}
	part.Ends, part.Free = "socket", false
	return []Adaptor{a}, part
}

// ontoHose returns what a port without a size of its own offers to hose: where its row says
// that it is a socket, that of the rigid pipe nearest to the hose, in which a barb goes.
func (s *Stage) ontoHose(part Socket) Socket {
	if !part.Free || part.Ends != "socket" && part.Ends != "union" && part.Ends != "spigot" {
		return part
	}
	return s.besideHose(part)
}

// besideHose is a port taken as one for the rigid pipe nearest to the hose at it.
func (s *Stage) besideHose(part Socket) Socket {
	part.Spec, part.Free = RigidSpec("", part.Size), false
	part.Size = s.nearestPipe(part.Spec, part.Size)
	return part
}

// barbEnd is the end of a barb that a run meets, whichever way round the water takes it: hose
// goes over the barb, other pipe to the end opposite.
func barbEnd(row *catalog.Row, run *graph.Run) string {
	if run.Spec.IsHose() {
		return "barb"
	}
	first, second, _ := strings.Cut(row.Ends, "/")
	if first == "barb" && second != "" {
		return second
	}
	return first
}

package solid

import (
	"fmt"
	"strings"
	"testing"

	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/route"
	"dryfit/graph/route/laying"
)

// Every pair of a size of pipe and a size of port, in both series, glued, on a thread and on hose,
// on the branch of a tee, on a valve in the line and on a unit, is either joined, by parts the
// catalogue has that do not run through each other, or the finding names the part that is missing
// with both its sizes and says what would help. What is held against is the pair itself; no source
// is needed.
func TestEveryPairIsReducedOrNamed(t *testing.T) {
	cat := catalog.Embedded()
	reduced, named := 0, 0
	for _, spec := range catalog.Specs() {
		for _, size := range cat.PipeSizes(spec) {
			for _, portSpec := range []catalog.Spec{catalog.PVCSch40, catalog.PVCSch80, catalog.PVCPN16} {
				for _, port := range cat.PipeSizes(portSpec) {
					for _, kind := range []string{"tee", "valve", "unit", "thread"} {
						what := fmt.Sprintf("%s %s at a %s of %s %s", spec, size, kind, portSpec, port)
						lay := pairOf(kind, portSpec, port, spec, size)
						said := said(lay.Findings)
						missing := notHad{}
						for _, f := range lay.Paths[0].Fittings {
							if f.Row.Kind == "" {
								missing = notHad{f.Kind, f.From, f.To}
							}
						}
						switch adaptor := missing.kind; adaptor {
						case "":
							reduced++
							if strings.Contains(said, "error: ") {
								t.Errorf("%s: %s", what, said)
							}
							if clash := Check(lay); len(clash) > 0 && clash[0].Severity == graph.Error {
								t.Errorf("%s: %s", what, clash[0].Message)
							}
						case "barb", "transition": // the rules inch-metric-transition and hose-on-barbs speak of those, by both sizes
							named++
							if missing.from.IsZero() || missing.to.IsZero() {
								t.Errorf("%s: a %s from %q to %q", what, adaptor, missing.from, missing.to)
							}
						default:
							named++
							if !strings.Contains(said, "the catalogue has no "+adaptor) || !strings.Contains(said, size.String()) || !strings.Contains(said, port.String()) {
								t.Errorf("%s: %s", what, said)
							}
						}
					}
				}
			}
		}
	}
	if reduced < named { // all of one series are, and where the two series meet those of like size
		t.Errorf("%d pairs are reduced and %d named", reduced, named)
	}
}

// notHad is a fitting that the catalogue does not have.
type notHad struct {
	kind     string
	from, to catalog.Size
}

// pairOf lays a new pipe from a port of another size to old work of its own.
func pairOf(kind string, portSpec catalog.Spec, port catalog.Size, spec catalog.Spec, size catalog.Size) *route.Layout {
	s := newSketch()
	from := "p.out"
	switch kind {
	case "tee":
		p := s.part(graph.Tee, "p", false)
		p.Spec, p.Size = portSpec, port
		from = "p.branch"
	case "valve":
		p := s.part(graph.BallValve, "p", false)
		p.Spec, p.Size = portSpec, port
	default:
		p := s.part(graph.HeatPump, "p", false)
		p.Unit = &graph.UnitData{PortsSize: port}
		if kind == "thread" {
			p.Ends = "thread"
		}
	}
	end := s.part(graph.Filter, "end", true)
	end.Spec, end.Size = spec, size
	r := s.run(from, "end.in", false, graph.Vec{X: 2000})
	r.Spec, r.Size = spec, size
	return laying.Of(s.c)
}

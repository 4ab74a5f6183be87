package laying

import (
	"strings"
	"testing"

	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/route"
	"dryfit/graph/settle"
)

// A tap with a thread on glued 3/4 in pipe: an adaptor stands between them, screwed on one
// side and glued on the other, and the piece is shorter by its length. By hand, 3/4 in
// Schedule 40: leg 200 mm, tee 2 in with a bush to 3/4 in; the adaptor's length is the
// catalogue's row (8 mm, common practice).
func TestThreadAdaptor(t *testing.T) {
	s := newSketch(catalog.PVCSch40, inch(0.75))
	tee := s.part(graph.Tee, "t")
	tee.Size, tee.Spec = inch(0.75), catalog.PVCSch40
	s.part(graph.DrainValve, "tap")
	r := s.run("t.branch", "tap.in", down(200))
	lay := Of(s.c)
	noErrors(t, lay)
	row, ok := lay.Circuit.Catalog.Fitting("thread-adaptor", r.Spec, r.Size)
	if !ok || row.LengthMM <= 0 {
		t.Fatal("the catalogue has no thread adaptor of 3/4 in")
	}
	p := lay.Pieces[0]
	near(t, "piece to the adaptor", p.CutMM, 200-14.2875-row.LengthMM, 0.01) // tee 9/16 in: ASTM D2467
	if p.To.Kind != "thread-adaptor" {
		t.Errorf("the piece ends in %s", p.To.Kind)
	}
	var kinds []string
	for _, j := range lay.Joints {
		kinds = append(kinds, j.Kind)
	}
	if got := strings.Join(kinds, " "); strings.Count(got, "thread") != 1 || strings.Count(got, "cement") != 2 {
		t.Errorf("joints %s, want one screwed and two glued", got)
	}
	text := ""
	for _, step := range route.Assemble(lay).Steps {
		text += step.Text + "\n"
		if strings.Contains(step.Text, "screw") == strings.Contains(step.Text, "glue") {
			t.Errorf("a step both screws and glues, or neither: %s", step.Text)
		}
	}
	if !strings.Contains(text, "screw tap.in into thread-adaptor at tap.in, tape on the thread") {
		t.Errorf("steps:\n%s", text)
	}
}

// ends is what the two ends of a joint may be, by its kind: what holds what in the trade
// (common practice, no source).
var fits = map[string]map[string]bool{
	"cement": {"pipe socket": true, "pipe union": true, "pipe spigot": false, "spigot socket": true, "socket spigot": true, "spigot union": true},
	"thread": {"thread thread": true},
	"barb":   {"hose barb": true},
	"slip":   {"pipe socket": true},
}

// Every joint's two ends fit, for every kind of part on rigid pipe of both series, on
// flexible pipe and on hose; where they don't there is an error.
func TestEndsFit(t *testing.T) {
	pipes := []struct {
		spec catalog.Spec
		size catalog.Size
	}{{catalog.PVCSch40, inch(1.5)}, {catalog.PVCSch40, inch(2)}, {catalog.PVCSch80, inch(1)}, {catalog.PVCPN16, dn(50)}, {catalog.FlexInch, inch(2)}, {catalog.HosePipe, dn(38)}, {catalog.HosePipe, inch(1.5)}}
	threads, joints := 0, 0
	for _, kind := range graph.Kinds() {
		if kind.UserPorts() || kind == graph.Tub {
			continue
		}
		for _, pipe := range pipes {
			s := newSketch(pipe.spec, pipe.size)
			p := s.part(kind, "x")
			for i, port := range kind.PortNames() {
				if port == kind.AirPort() {
					continue
				}
				end := s.part(graph.Filter, "end-"+port)
				end.Existing = true
				way := []graph.Vec{left(900), right(900), front(900)}[i]
				s.run("x."+port, "end-"+port+".in", way)
			}
			lay := Of(s.c)
			for _, j := range lay.Joints {
				if j.Nut || j.BodyA == route.Existing || j.BodyB == route.Existing {
					continue
				}
				joints++
				a, b := endKind(lay, p, j, j.BodyA), endKind(lay, p, j, j.BodyB)
				if a == "" || b == "" {
					continue // nobody says what the part's ends are
				}
				if j.Kind == "thread" {
					threads++
				}
				if !fits[j.Kind][a+" "+b] && !fits[j.Kind][b+" "+a] && findings(lay.Findings, graph.Error) == "" {
					t.Errorf("%s on %s %s: %s joint of %s (%s) and %s (%s)", kind, pipe.spec, pipe.size, j.Kind, j.A, a, j.B, b)
				}
			}
		}
	}
	if threads < 6 || joints < 200 {
		t.Errorf("%d joints, %d of them threads: too few to prove anything", joints, threads)
	}
}

// endKind is what one side of a joint is.
func endKind(lay *route.Layout, p *graph.Part, j route.Joint, body string) string {
	for i := range lay.Pieces {
		if route.PieceBody(i) == body {
			if lay.Pieces[i].Spec == catalog.HosePipe {
				return "hose"
			}
			return "pipe"
		}
	}
	for i := range lay.Paths {
		for k := range lay.Paths[i].Fittings {
			if route.FittingBody(i, k) != body {
				continue
			}
			row := &lay.Paths[i].Fittings[k].Row
			first, second, two := strings.Cut(row.Ends, "/")
			switch {
			case !two:
				return first
			case j.Kind == "thread" && (first == "thread" || second == "thread"):
				return "thread"
			case j.Kind == "barb" && (first == "barb" || second == "barb"):
				return "barb"
			case first == "spigot" && second == "socket" && strings.HasPrefix(j.A+j.B, "piece"):
				return "socket"
			case first == "thread" || first == "barb":
				return second
			case first == "spigot" && !strings.Contains(j.A+j.B, "piece"):
				return "spigot"
			case first == "spigot":
				return "socket"
			}
			return first
		}
	}
	row := lay.Stage.Part(p.ID).Row.V
	ends := row.Ends
	if ends == "" {
		return ""
	}
	if p.Kind == graph.Barb {
		if j.Kind == "barb" {
			return "barb"
		}
		return strings.TrimSuffix(ends, "/barb")
	}
	port := "in"
	if strings.Contains(j.A+j.B, "x.out") || strings.Contains(j.A+j.B, "x.branch") {
		port = "out"
	}
	return settle.PortEnds(&row, port)
}

// Two ends joined without pipe between that don't fit are an error that says what would.
func TestDirectEndsFit(t *testing.T) {
	for _, c := range []struct {
		a, b graph.Kind
		want string
	}{
		{graph.BallValve, graph.Tee, "they can't be joined without pipe"},
		{graph.Tee, graph.DrainValve, "they can't be joined directly"},
	} {
		s := newSketch(catalog.PVCSch40, inch(2))
		s.part(c.a, "a")
		s.part(c.b, "b")
		from := map[graph.Kind]string{graph.BallValve: "a.out", graph.Tee: "a.branch"}[c.a]
		to := map[graph.Kind]string{graph.Tee: "b.run-in", graph.DrainValve: "b.in"}[c.b]
		r := s.run(from, to)
		r.HasLength = true
		if text := findings(Of(s.c).Findings, graph.Error); !strings.Contains(text, c.want) {
			t.Errorf("%s on %s: %q is not in\n%s", c.a, c.b, c.want, text)
		}
	}
}

// A spigot of a machine goes into a coupling, whatever stands between that and the pipe: a nipple or
// a bush goes into a socket, and not onto a spigot. In the pipe's own size, smaller and larger, and of
// the other series; no pipe, bush or transition meets the spigot itself. Follows from what a spigot is
// (common practice, no source).
func TestSpigotTakesACoupling(t *testing.T) {
	for _, c := range []struct {
		port, pipe catalog.Size
		spec       catalog.Spec
		between    string
	}{
		{dn(50), dn(50), catalog.PVCPN16, ""},
		{dn(32), dn(50), catalog.PVCPN16, "reducer"},
		{dn(63), dn(50), catalog.PVCPN16, "reducing-bush"},
		{inch(1.5), dn(50), catalog.PVCPN16, "transition"},
		{dn(50), inch(1.5), catalog.PVCSch40, "transition"},
	} {
		s := newSketch(c.spec, c.pipe)
		p := s.part(graph.HeatPump, "x")
		p.Size, p.Ends = c.port, "spigot"
		end := s.part(graph.Filter, "end")
		end.Existing = true
		s.run("x.out", "end.in", right(900))
		lay := Of(s.c)
		coupled, between := 0, c.between == ""
		for _, j := range lay.Joints {
			between = between || strings.Contains(j.A+j.B, c.between+" at x.out")
			if j.A != "x.out" && j.B != "x.out" {
				continue
			}
			coupled++
			if j.A != "x.out" || j.B != "coupling at x.out" || j.Spigot != 'a' || j.DepthMM <= 0 {
				t.Errorf("port of %s on pipe of %s: %s meets %s, spigot %c", c.port, c.pipe, j.A, j.B, j.Spigot)
			}
		}
		if coupled != 1 || !between {
			t.Errorf("port of %s on pipe of %s: %d joints at the spigot, %s there: %v", c.port, c.pipe, coupled, c.between, between)
		}
		text := ""
		for _, step := range route.Assemble(lay).Steps {
			text += step.Text + "\n"
		}
		if !strings.Contains(text, "coupling at x.out onto x.out") {
			t.Errorf("port of %s on pipe of %s:\n%s", c.port, c.pipe, text)
		}
	}
}

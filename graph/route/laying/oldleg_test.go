package laying

import (
	"strings"
	"testing"

	"dryfit/catalog"
	"dryfit/graph"
)

// Old legs that leave less than nothing between their sockets are found at their own line. By
// hand, 2 in Schedule 80 (ASTM D2467: elbow 31.75 mm to its stop, sockets 38.1 mm): a leg
// between two elbows takes at least 2 · (31.75 + 38.1) = 139.7 mm.
func TestOldLegs(t *testing.T) {
	for _, c := range []struct {
		leg  float64
		want bool
	}{{120, true}, {141, false}} {
		s := newSketch(catalog.PVCSch80, inch(2))
		s.part(graph.Pump, "a").Existing = true
		s.part(graph.Filter, "b").Existing = true
		r := s.run("a.out", "b.in", right(500), up(c.leg), right(500))
		r.Existing = true
		var found *graph.Diagnostic
		lay := Of(s.c)
		for i := range lay.Findings {
			if strings.Contains(lay.Findings[i].Message.String(), "less than nothing is left") {
				found = &lay.Findings[i]
			}
		}
		if (found != nil) != c.want || found != nil && found.Pos != r.Legs[1].Pos {
			t.Errorf("a leg of %g mm: %v", c.leg, lay.Findings)
		}
	}
}

// A leg that was measured from face to face is mended by its hint, whether it is its run's only one
// or not. By hand, 2 in Schedule 80 as above: 120 + 2 · (31.75 + 38.1) = 259.7 mm between two elbows;
// the key of the whole run would lengthen its other legs too.
func TestOldLegMeasuredToFaces(t *testing.T) {
	old := func(legs ...graph.Vec) (*sketch, *graph.Run) {
		s := newSketch(catalog.PVCSch80, inch(2))
		s.part(graph.Pump, "a").Existing = true
		s.part(graph.Filter, "b").Existing = true
		r := s.run("a.out", "b.in", legs...)
		r.Existing = true
		return s, r
	}
	short := func(s *sketch) string {
		for _, d := range Of(s.c).Findings {
			if strings.Contains(d.Message.String(), "less than nothing is left") {
				return d.Hint.String()
			}
		}
		return ""
	}
	s, r := old(right(500), up(120), right(500))
	hint := short(s)
	if !strings.Contains(hint, "where 120 mm is from face to face, it is 259.7 mm from centre to centre") || strings.Contains(hint, "measured") {
		t.Errorf("a leg of three: %q", hint)
	}
	r.Legs[1].By = up(259.7)
	if again := short(s); again != "" {
		t.Errorf("a leg of three, as its hint says: %q", again)
	}
	s, r = old(up(20))
	if hint := short(s); !strings.Contains(hint, `say measured = "faces"`) {
		t.Errorf("the only leg: %q", hint)
	}
	r.Faces = true
	if again := short(s); again != "" {
		t.Errorf("the only leg, as its hint says: %q", again)
	}
}

// A run by length that its own elbows don't fit into is told at its length, old work as a warning.
// By hand, 2 in Schedule 80 (ASTM D2467: elbow 31.75 mm to its stop, socket 38.1 mm): three
// elbows take 3 · 2 · (31.75 + 38.1) = 419.1 mm.
func TestLengthShorterThanElbows(t *testing.T) {
	for _, c := range []struct {
		length   float64
		existing bool
		want     graph.Severity
	}{{400, true, graph.Warning}, {400, false, graph.Error}, {421, true, graph.Note}} {
		s := newSketch(catalog.PVCSch80, inch(2))
		s.part(graph.Pump, "a").Existing = c.existing
		s.part(graph.Filter, "b").Existing = c.existing
		r := s.run("a.out", "b.in")
		r.Existing, r.HasLength, r.LengthMM = c.existing, true, c.length
		r.Fittings = []graph.FittingCount{{Kind: "elbow-90", Count: 3}}
		got := graph.Note // for nothing found
		for _, d := range Of(s.c).Findings {
			if strings.Contains(d.Message.String(), "its 3 fittings alone") {
				got = d.Severity
			}
		}
		if got != c.want {
			t.Errorf("%g mm, existing %v: %q, want %q", c.length, c.existing, got, c.want)
		}
	}
}

// Old hose goes round its bends by itself: the way between its two barbs counts as one.
func TestOldHoseTooShort(t *testing.T) {
	for _, c := range []struct {
		leg  float64
		want bool
	}{{15, true}, {400, false}} {
		s := newSketch(catalog.HosePipe, dn(50))
		s.part(graph.Pump, "a").Existing = true
		s.part(graph.Filter, "b").Existing = true
		r := s.run("a.out", "b.in", right(c.leg), up(c.leg))
		r.Existing = true
		got := strings.Contains(findings(Of(s.c).Findings, graph.Warning), "the way along legs 1 to 2 of")
		if got != c.want {
			t.Errorf("two legs of %g mm: %v", c.leg, Of(s.c).Findings)
		}
	}
}

// A new run known only by its length is named, for its pipe is in no bar.
func TestUnmeasuredIsNamed(t *testing.T) {
	s := newSketch(catalog.PVCSch80, inch(2))
	s.part(graph.Pump, "a")
	s.part(graph.Filter, "b")
	r := s.run("a.out", "b.in")
	r.HasLength, r.LengthMM, r.Fittings = true, 900, []graph.FittingCount{{Kind: "elbow-90", Count: 2}}
	lay := Of(s.c)
	if len(lay.Unmeasured) != 1 || !strings.Contains(findings(lay.Findings, graph.Note), "its pipe is in no bar and in no cut list") {
		t.Errorf("unmeasured %v: %v", lay.Unmeasured, lay.Findings)
	}
}

// A new run of rigid pipe known only by its length is cut as one straight piece, and that is said;
// hose is as long as it is.
func TestTakenAsStraightIsNamed(t *testing.T) {
	for spec, want := range map[catalog.Spec]bool{catalog.PVCSch80: true, catalog.FlexInch: false} {
		s := newSketch(spec, inch(2))
		s.part(graph.Pump, "a")
		s.part(graph.Filter, "b")
		r := s.run("a.out", "b.in")
		r.HasLength, r.LengthMM = true, 900
		lay := Of(s.c)
		r.LengthMM = 40
		for _, d := range Of(s.c).Findings { // a run without legs is told to lengthen what it has
			if strings.Contains(d.Hint.String(), "leg 1") {
				t.Errorf("%s: %s", spec, d.Hint)
			}
		}
		if len(lay.Pieces) != 1 || strings.Contains(findings(lay.Findings, graph.Note), "its pipe is cut as one straight piece") != want {
			t.Errorf("%s: %d pieces, %v", spec, len(lay.Pieces), lay.Findings)
		}
	}
}

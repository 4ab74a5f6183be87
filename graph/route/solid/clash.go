package solid

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/route"
)

// touchMM is what two bodies may share before they count as running through each other: the
// play of the numbers. Common practice, no source.
const touchMM = 0.5

// Clash is two bodies that would have to be in one place.
type Clash struct {
	A, B    int       // indexes into Bodies.All; A is new work unless both are old
	Sure    bool      // both sizes are known and both places tied by legs: see Body.Core
	Way     graph.Vec // the shortest way for A to be out of B, one of the six directions
	DepthMM float64   // and how far
}

// Clashes finds the bodies that run through each other and are not joined: new work against
// new, and against what is there; of the old work pipe against pipe, for that shows a leg
// measured wrong. Bodies whose places no legs tie together stay out.
func (s *Bodies) Clashes() []Clash {
	low, high := make([]graph.Vec, len(s.All)), make([]graph.Vec, len(s.All))
	var order []int
	for i := range s.All {
		if len(s.All[i].Likely) == 0 {
			continue
		}
		low[i], high[i] = s.All[i].bounds()
		order = append(order, i)
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(low[a].X, low[b].X) })
	var out []Clash
	var active []int
	for _, j := range order {
		keep := active[:0]
		for _, i := range active {
			if high[i].X < low[j].X {
				continue
			}
			keep = append(keep, i)
			if high[i].Y < low[j].Y || high[j].Y < low[i].Y || high[i].Z < low[j].Z || high[j].Z < low[i].Z {
				continue
			}
			if c, ok := s.clash(min(i, j), max(i, j)); ok {
				out = append(out, c)
			}
		}
		keep = append(keep, j)
		active = keep
	}
	slices.SortFunc(out, func(a, b Clash) int { return cmp.Or(cmp.Compare(a.A, b.A), cmp.Compare(a.B, b.B)) })
	return out
}

// clash holds two bodies against each other.
func (s *Bodies) clash(i, j int) (Clash, bool) {
	a, b := &s.All[i], &s.All[j]
	behind := s.behindPipe(i, j)
	if a.Part+b.Part != "" && !a.New && !b.New || a.Group != b.Group || a.Group < 0 || s.Joined(i, j) && !behind || s.byShort(i, j) {
		return Clash{}, false
	}
	if !a.New {
		i, j, a, b = j, i, b, a
	}
	c := Clash{A: i, B: j}
	if c.Way, c.DepthMM = through(a.Core, b.Core); c.DepthMM > touchMM && !behind { // the port may be sunk into the case, with room round it
		c.Sure = true
		return c, true
	}
	c.Way, c.DepthMM = through(a.Likely, b.Likely)
	return c, c.DepthMM > touchMM
}

// Trouble lists the bodies in sure clashes of the new work, two by two; -1 is a wall of the
// cabinet.
func (s *Bodies) Trouble() []int {
	var out []int
	for _, c := range s.Clashes() {
		if c.Sure && s.All[c.A].New {
			out = append(out, c.A, c.B)
		}
	}
	for _, in := range s.inWalls(s.lay) {
		if in.sure {
			out = append(out, in.body, -1)
		}
	}
	return out
}

// through is how far the worst pair of two bodies' shapes runs through each other.
func through(a, b []Shape) (way graph.Vec, mm float64) {
	for _, p := range a {
		for _, q := range b {
			if boxesApart(p, q) > 0 {
				continue
			}
			if w, d := Part(p, q); d > mm {
				way, mm = w, d
			}
		}
	}
	return way, mm
}

// bounds is the box round all shapes of a body.
func (b *Body) bounds() (low, high graph.Vec) {
	low, high = b.Likely[0].Bounds()
	for _, s := range slices.Concat(b.Likely[1:], b.Core) {
		l, h := s.Bounds()
		low, high = least(low, l), most(high, h)
	}
	return low, high
}

// Check finds the clashes of a layout and words them: an error where both bodies are sure,
// else one warning for each two things, with what to measure.
func Check(lay *route.Layout) []graph.Diagnostic { return Of(lay).Check() }

// Check is solid.Check of bodies that are there already. Pipe of the old work through old
// pipe is one note: somebody measured it so.
func (s *Bodies) Check() []graph.Diagnostic {
	type place struct{ a, b string }
	worst := map[place]Clash{}
	more := map[place]map[string]bool{} // what runs through a guess
	var order []place
	olds := 0
	for _, c := range s.Clashes() {
		at := place{s.All[c.A].thing(), s.All[c.B].thing()}
		switch { // all that runs through a guess is one place: one measurement settles it
		case s.All[c.B].Guess:
			at.a = ""
		case s.All[c.A].Guess:
			at = place{"", s.All[c.A].thing()}
		}
		if at.a == "" {
			if more[at] == nil {
				more[at] = map[string]bool{}
			}
			other := &s.All[c.A]
			if other.Guess && !s.All[c.B].Guess {
				other = &s.All[c.B]
			}
			more[at][other.Name] = true
		}
		old, have := worst[at]
		if !have {
			order = append(order, at)
		}
		if !have || c.Sure && !old.Sure || c.Sure == old.Sure && c.DepthMM > old.DepthMM {
			worst[at] = c
		}
	}
	var out []graph.Diagnostic
	oldest := -1
	for _, at := range order {
		c := worst[at]
		if s.All[c.A].New {
			d := s.word(c)
			d.Behind = s.clashBehind(c)
			if n := len(more[at]) - 1; n > 0 {
				d.Message += graph.Say(" (and %d more of the new work there)", n)
			}
			out = append(out, d)
			continue
		}
		if s.measuredShort(&s.All[c.A], &s.All[c.B]) {
			continue
		}
		if oldest < 0 {
			oldest = len(out)
			out = append(out, s.wordOld(c))
		}
		olds++
	}
	if olds > 1 {
		out[oldest].Message += graph.Say(" (and %d more like it in the existing pipe)", olds-1)
	}
	out = append(out, s.checkCabinet(s.lay)...)
	return graph.SortDiagnostics(append(out, s.checkKeptClear()...))
}

// measuredShort reports whether one of two old bodies belongs to a run with a leg shorter than its own
// sockets: where its pipe lies is then nonsense, and that is said of the leg.
func (s *Bodies) measuredShort(a, b *Body) bool {
	return slices.ContainsFunc([]string{a.Run, b.Run}, func(id string) bool {
		r := s.lay.Circuit.Run(id)
		return r != nil && slices.ContainsFunc(s.lay.Findings, func(d graph.Diagnostic) bool {
			return d.Rule == "routing" && d.Severity == graph.Warning && s.ofRun(d.Pos, cmp.Or(r.RemainsOf, r.ID))
		})
	})
}

// ofRun reports whether a place is that of a run, of what is left of it, or of a leg of either.
func (s *Bodies) ofRun(pos graph.Pos, id string) bool {
	return slices.ContainsFunc(s.lay.Circuit.Runs, func(r *graph.Run) bool {
		return cmp.Or(r.RemainsOf, r.ID) == id && (r.Pos == pos || slices.ContainsFunc(r.Legs, func(l graph.Leg) bool { return l.Pos == pos }))
	})
}

// thing is what a body belongs to, for one finding for each place: a part with its tails, or
// a run.
func (b *Body) thing() string {
	if b.Part != "" {
		return "part " + b.Part
	}
	return "run " + b.Run
}

// wordOld words a clash of old pipe with old.
func (s *Bodies) wordOld(c Clash) graph.Diagnostic {
	a, b := &s.All[c.A], &s.All[c.B]
	return graph.Diagnostic{Pos: a.Pos, Rule: "clash", Severity: graph.Note, Of: []string{a.Part, b.Part},
		Message: graph.Say("%s runs through %s: they share %s", a.Name, b.Name, quantity.Closely(c.DepthMM)),
		Hint:    "the legs of the existing pipe were measured so; measure again where the new work comes near",
		Related: []graph.Related{{Pos: b.Pos, Message: graph.Say("%s is here", b.Name)}}}
}

// word words a clash.
func (s *Bodies) word(c Clash) graph.Diagnostic {
	a, b := &s.All[c.A], &s.All[c.B]
	d := graph.Diagnostic{Pos: a.Pos, Rule: "clash", Severity: graph.Error, Of: []string{a.Part, b.Part},
		Related: []graph.Related{{Pos: b.Pos, Message: graph.Say("%s is here", b.Name)}}}
	move := graph.Say("%s %s", quantity.Closely(math.Ceil(c.DepthMM)), graph.WayWord(c.Way))
	where := fmt.Sprintf("the leg that brings %s there", a.Name)
	d.Alters = []string{cmp.Or(a.Part, a.Run)}
	if a.Leg > 0 {
		where, d.Alters = fmt.Sprintf("leg %d of %s", a.Leg, a.Run), []string{a.Run}
	}
	d.Message = graph.Say("%s runs through %s: they share %s", a.Name, b.Name, quantity.Closely(c.DepthMM))
	d.Hint = graph.Say("move %s at least %s, and the legs before and after it with it", where, move)
	if c.Sure {
		return d
	}
	d.Severity = graph.Warning
	var assumed []quantity.Text
	for _, w := range []quantity.Text{a.Assumed, b.Assumed} {
		if w != "" && !slices.Contains(assumed, w) {
			assumed = append(assumed, w)
		}
	}
	d.Message = graph.Say("%s may run through %s: as they are taken to be they share %s", a.Name, b.Name, quantity.Closely(c.DepthMM))
	d.Hint = graph.Say("measure: %s; they are clear of each other where what is there is %s less, or with %s moved %s",
		joinWords(assumed), quantity.Closely(c.DepthMM), where, move)
	for _, x := range []*Body{a, b} {
		if x.Guess {
			d.Hint += graph.Say("; box on %q says how large it is", x.Part)
			break
		}
	}
	return d
}

func joinWords(words []quantity.Text) quantity.Text {
	switch len(words) {
	case 0:
		return "both"
	case 1:
		return words[0]
	}
	return words[0] + " and " + words[1]
}

package route

import (
	"fmt"
	"slices"
	"strings"

	"dryfit/graph"
)

// unionPlayMM is what the seal of a union gives when its ends do not quite meet: its lip.
// Source: common practice, no source (0 to 3 mm; measure).
const unionPlayMM = 3

// assembly words the order as steps and judges the joints that close loops.
func (o *sequence) assembly() *Assembly {
	a := &Assembly{OK: true}
	for i := 0; i < len(o.lay.Joints); {
		j := i + 1
		for j < len(o.lay.Joints) && o.sameStep(i, j) {
			j++
		}
		s := Step{Number: len(a.Steps) + 1, Phase: o.phase[i]}
		for k := i; k < j; k++ {
			o.lay.Joints[k].Step = s.Number
			s.Joints = append(s.Joints, k+1)
		}
		o.word(&s, i, j)
		a.Steps = append(a.Steps, s)
		i = j
	}
	for _, c := range o.closings {
		a.Loops = append(a.Loops, o.loop(c))
		o.judgeClosing(a, c)
	}
	if !a.OK {
		o.unstep(a)
	}
	a.Findings = graph.SortDiagnostics(a.Findings)
	return a
}

// unstep takes the step from each joint that cannot be made.
func (o *sequence) unstep(a *Assembly) {
	for _, c := range o.closings {
		if c.how != "" {
			continue
		}
		o.lay.Joints[c.link].Step = 0
		for i := range a.Steps {
			s := &a.Steps[i]
			if at := slices.Index(s.Joints, c.link+1); at >= 0 {
				s.Joints = slices.Delete(s.Joints, at, at+1)
				if len(s.Meetings) > 0 {
					s.Meetings = slices.Delete(s.Meetings, at, at+1)
				}
				if len(s.Joints) == 0 {
					s.Text = fmt.Sprintf("CANNOT BE MADE: %s", o.meeting(c.link))
					s.Before, s.Behind, s.Meetings = "", "", nil
				}
			}
		}
	}
}

// sameStep reports whether two joints in a row belong to one step of the work.
func (o *sequence) sameStep(i, j int) bool {
	x, y := &o.lay.links[i], &o.lay.links[j]
	if o.phase[i] != o.phase[j] || o.late[i] != o.late[j] || x.Open != y.Open {
		return false
	}
	if a, b := &o.lay.Joints[i], &o.lay.Joints[j]; a.Kind != b.Kind && (a.Kind == "thread" || b.Kind == "thread" || a.Kind == "barb" || b.Kind == "barb") || a.Clips != b.Clips {
		return false // another verb
	}
	if x.Open {
		return x.Part == y.Part
	}
	return o.late[i] > 0 || (x.Run == y.Run && !x.Old && !y.Old)
}

// meeting is one joint: what goes into what, or onto it. Hose goes over whatever it is pushed on.
func (o *sequence) meeting(k int) Meeting {
	j, n := o.lay.Joints[k], o.lay.links[k]
	spigot, into := j.A, j.B
	if n.Spigot == 'b' {
		spigot, into = into, spigot
	}
	switch {
	case j.Kind == "barb":
		return Meeting{Comes: spigot, Stays: into, Onto: true, Run: j.Run}
	case o.stands(spigot): // nobody turns that, or pushes it: what goes on it comes to it
		return Meeting{Comes: into, Stays: spigot, Onto: true, Run: j.Run}
	}
	return Meeting{Comes: spigot, Stays: into, Run: j.Run}
}

// stands reports whether a port, "part.port", is of something that stays where it stands: the
// unit, or a part that is there already.
func (o *sequence) stands(port string) bool {
	i := strings.LastIndexByte(port, '.')
	if i < 0 {
		return false
	}
	p := o.part(port[:i])
	return p != nil && (p.Existing || p.Kind == graph.HeatPump)
}

// word says what is done in a step, which makes the joints from one to before another. What is done
// with a joint comes of its kind: cement is glued, hose pushed on, a thread screwed.
func (o *sequence) word(s *Step, from, to int) {
	n := &o.lay.links[from]
	where := o.phase[from].Lead()
	numbers := jointNumbers(from+1, to)
	how, fit, closes := "", -1, ""
	if c := o.late[from]; c > 0 {
		how, fit = o.closings[c-1].how, o.closings[c-1].fit
		if how != "" && (n.Open || how != "union") { // else a piece made with the nuts that close it
			closes = "; this closes the loop"
		}
	}
	switch {
	case n.Open:
		what := "nuts"
		if to-from == 1 {
			what = "nut"
		}
		s.Text = where + fmt.Sprintf("do up the union %s of %s (%s)", what, n.Part, numbers) + closes
		return
	case how == "slip coupling":
		s.Text = where + o.slideText(from, to) + " (" + numbers + ")" + closes
		return
	}
	verb, with := o.verb(from, to)
	s.Before, s.Behind = verb, with+" ("+numbers+")"+closes
	switch {
	case how == "play":
		s.Before = "draw the old end back, " + verb
	case how == "together":
		s.Before = verb + "both at the same moment: "
	case how == "flexible hose":
		s.Before = "bend the hose aside and " + verb
	case fit >= 0:
		s.Before = fmt.Sprintf("hold piece %d, cut over length, in its place and cut it to what is there; then %s", fit+1, verb)
	}
	var met []string
	for k := from; k < to; k++ {
		m := o.meeting(k)
		s.Meetings = append(s.Meetings, m)
		met = append(met, m.String())
	}
	s.Text = where + s.Before + strings.Join(met, "; ") + s.Behind
}

// verb is what is done with the joints of a step, which are of one kind, and with what.
func (o *sequence) verb(from, to int) (verb, with string) {
	switch j := o.lay.Joints[from]; j.Kind {
	case "barb":
		with = ", with " + clipWords(j.Clips)
		if to-from > 1 {
			with += " each"
		}
		return "push ", with
	case "thread":
		return "screw ", ", tape on the thread"
	}
	return "glue ", ""
}

// slideText words a step in which slip couplings close a loop: one alone, or one at each end of
// what goes in from the side.
func (o *sequence) slideText(from, to int) string {
	var parts []string
	for k := from; k < to; k++ {
		if p := o.lay.links[k].Part; !slices.Contains(parts, p) {
			parts = append(parts, p)
		}
	}
	if len(parts) == 1 {
		return fmt.Sprintf("park slip coupling %s on the bare pipe beside it, bring the two ends together, slide it back over both and glue", parts[0])
	}
	for i, p := range parts {
		parts[i] = "slip coupling " + p
	}
	return "park " + strings.Join(parts, " and ") + " on the bare pipe beside them, hold what is new in its place between the old ends, slide each back over its two ends and glue"
}

func jointNumbers(from, to int) string {
	switch {
	case from == to:
		return fmt.Sprintf("joint %d", from)
	case to == from+1:
		return fmt.Sprintf("joints %d and %d", from, to)
	}
	return fmt.Sprintf("joints %d to %d", from, to)
}

// loop words a closing for those who print it or add up its tolerances.
func (o *sequence) loop(c closing) Loop {
	out := Loop{Closing: c.link + 1, How: c.how}
	if c.with >= 0 {
		out.How = fmt.Sprintf("together with joint %d", c.with+1)
	}
	n := &o.lay.links[c.link]
	switch c.how {
	case "union":
		out.PlayMM = unionPlayMM
	case "flexible hose", "slip coupling":
		out.PlayMM = -1
	case "play":
		out.PlayMM = n.Play
	}
	names := map[string]bool{}
	for _, k := range append(slices.Clone(c.cycle), c.link) {
		m := &o.lay.links[k]
		out.Joints = append(out.Joints, k+1)
		if m.Piece >= 0 && !slices.Contains(out.Pieces, m.Piece) {
			out.Pieces = append(out.Pieces, m.Piece)
		}
		names[partOf(m.A)], names[partOf(m.B)], names[m.Part] = true, true, true
		if m.Flex {
			out.PlayMM = -1
		}
	}
	for _, p := range o.lay.Circuit.Parts {
		if names[p.ID] {
			out.Parts = append(out.Parts, p.ID)
			if p.Kind == graph.HeatPump {
				out.PlayMM = -1 // it is set down where its pipes end
			}
		}
	}
	return out
}

func clipWords(n int) string {
	switch n {
	case 1:
		return "one clip"
	case 2:
		return "two clips"
	}
	return fmt.Sprintf("%d clips", n)
}

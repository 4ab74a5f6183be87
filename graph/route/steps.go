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
		s.Text = o.stepText(i, j)
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
				if len(s.Joints) == 0 {
					s.Text = fmt.Sprintf("CANNOT BE MADE: %s", o.meeting(c.link))
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

// meeting words one joint: what goes into what.
func (o *sequence) meeting(k int) string {
	j, n := o.lay.Joints[k], o.lay.links[k]
	spigot, into := j.A, j.B
	if n.Spigot == 'b' {
		spigot, into = into, spigot
	}
	if o.stands(spigot) { // nobody turns that, or pushes it: what goes on it comes to it
		return into + " onto " + spigot
	}
	return spigot + " into " + into
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

func (o *sequence) stepText(from, to int) string {
	n := &o.lay.links[from]
	where := map[Phase]string{Bench: "on the bench: ", InLine: "in the old line: ", Pipes: "", Unit: "at the unit, last: "}[o.phase[from]]
	var out []string
	for k := from; k < to; k++ {
		out = append(out, o.meeting(k))
	}
	text := strings.Join(out, "; ")
	numbers := jointNumbers(from+1, to)
	how := ""
	if o.late[from] > 0 {
		how = o.closings[o.late[from]-1].how
	}
	switch {
	case n.Open:
		what := "nuts"
		if to-from == 1 {
			what = "nut"
		}
		text = fmt.Sprintf("do up the union %s of %s (%s)", what, n.Part, numbers)
		if how != "" {
			text += "; this closes the loop"
		}
		return where + text
	case how == "slip coupling":
		return where + o.slideText(from, to) + " (" + numbers + "); this closes the loop"
	case how == "play":
		return where + fmt.Sprintf("draw the old end back, glue %s (%s); this closes the loop", text, numbers)
	case how == "together":
		return where + fmt.Sprintf("glue both at the same moment: %s (%s); this closes the loop", text, numbers)
	case how == "flexible hose":
		clips := ""
		if j := o.lay.Joints[from]; j.Kind == "barb" {
			clips = ", with " + clipWords(j.Clips)
			if to-from > 1 {
				clips += " each"
			}
		}
		text = fmt.Sprintf("bend the hose aside and join %s%s (%s); this closes the loop", text, clips, numbers)
		return where + text
	}
	if c := o.late[from]; c > 0 && o.closings[c-1].fit >= 0 {
		return where + fmt.Sprintf("hold piece %d, cut over length, in its place and cut it to what is there; then glue %s (%s)", o.closings[c-1].fit+1, text, numbers)
	}
	verb := "glue "
	switch j := o.lay.Joints[from]; j.Kind {
	case "barb":
		verb = fmt.Sprintf("push on, with %s each: ", clipWords(j.Clips))
	case "thread":
		return where + "screw " + text + ", tape on the thread (" + numbers + ")"
	}
	return where + verb + text + " (" + numbers + ")"
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

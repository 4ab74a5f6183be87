package schematic

import (
	"fmt"
	"slices"
	"strings"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/settle"
	"dryfit/render/scene"
	"dryfit/render/tag"
)

// Letter heights (em) on the drawing, mm, before it is fitted to the sheet.
const (
	tagEm  = 3.5
	idEm   = 3.0
	sizeEm = 3.0
	portEm = 3.0
	lineMM = 1.18 // line pitch, em
)

// word is a stretch of text in one cut.
type word struct {
	text string
	size float64
	bold bool
}

func (w word) width() float64 { return scene.TextWidth(w.text, w.size, w.bold) }

// text is a label: lines of words.
type text struct {
	lines [][]word
	ring  bool // in a circle: a cut's number
}

const wordGap = 1.2 // between a tag and an id on one line, mm

func (t text) size() (w, h float64) {
	for _, line := range t.lines {
		lw, lh := 0.0, 0.0
		for i, x := range line {
			if i > 0 {
				lw += wordGap
			}
			lw += x.width()
			lh = max(lh, x.size*lineMM)
		}
		w = max(w, lw)
		h += lh
	}
	if t.ring {
		w = max(w, h) + 2
		h = w
	}
	return w, h
}

// minor reports whether a kind gets a small label, with a short id on one line: there are
// many of them.
func minor(k graph.Kind) bool {
	switch k {
	case graph.Tee, graph.Union, graph.Coupling, graph.SlipCoupling, graph.Reducer, graph.Transition, graph.Barb,
		graph.Cap, graph.DrainValve, graph.AirBleed, graph.FlowSwitch, graph.PressureSwitch, graph.PressureGauge, graph.ThermometerPocket, graph.AirControl:
		return true
	}
	return false
}

// held ends the note of the sheet's pipe with how marks are read.
const held = "; a size marked holds straight on through fittings and valves"

const mostLabel = 34.0 // width at which an id is cut short, mm

// partText is the label of a part: its tag, the trade's word where the sign alone is not
// enough, and what a fitter must know of it. The description's names stand in findings only.
func (d *drawing) partText(p *graph.Part) text {
	var t text
	tag := d.tags[p.ID]
	switch {
	case tag == "":
		t.lines = append(t.lines, []word{{d.names.Word(p.ID), tagEm, true}})
	case minor(p.Kind):
		t.lines = append(t.lines, []word{{tag, idEm, true}})
	case p.Kind.IsHandValve() || p.Kind == graph.CheckValve || p.Kind == graph.JetGroup && p.Jets != nil && p.Jets.Count > 1:
		t.lines = append(t.lines, []word{{tag, tagEm, true}})
	default:
		t.lines = append(t.lines, []word{{tag, tagEm, true}}, []word{{fit(d.names.Word(p.ID), idEm), idEm, false}})
	}
	for _, f := range d.facts(p) {
		t.lines = append(t.lines, []word{{fit(f, idEm), idEm, false}})
	}
	return t
}

// fit shortens a text to the widest a label may be.
func fit(s string, size float64) string { //nolint:unparam // sizes are the pens' own names
	if scene.TextWidth(s, size, false) <= mostLabel {
		return s
	}
	r := []rune(s)
	for len(r) > 1 && scene.TextWidth(string(r)+"…", size, false) > mostLabel {
		r = r[:max(1, len(r)*9/10)]
	}
	return string(r) + "…"
}

// facts are the lines below a part's name.
func (d *drawing) facts(p *graph.Part) []string {
	var out []string
	switch {
	case p.Kind == graph.Tub && d.c.Water.VolumeM3 > 0 && len(d.c.OfKind(graph.Tub)) == 1:
		out = append(out, quantity.Format(d.c.Water.VolumeM3, quantity.Volume, d.units))
	case p.Kind == graph.Pump && len(p.SpeedNames()) > 1:
		out = append(out, fmt.Sprintf("%d-speed", len(p.SpeedNames())))
	case p.Kind == graph.ElementHeater && p.Element != nil:
		if power := d.set.Part(p.ID).Power; power.V > 0 && power.How != settle.Assumed {
			out = append(out, quantity.Format(power.V, quantity.Power, d.units))
		}
		if d.isolated(p) {
			out = append(out, "disconnected")
		}
	case p.Kind == graph.JetGroup && p.Jets != nil && p.Jets.Count > 1:
		out = append(out, fmt.Sprintf("%d jets", p.Jets.Count))
	case p.Kind == graph.CheckValve:
		if pa := d.cracking(p); pa > 0 {
			out = append(out, quantity.Format(pa, quantity.Pressure, d.units))
		}
	case p.Kind.IsHandValve():
		out = append(out, tag.Position(p))
	case p.Kind == graph.HeatPump && d.set.Part(p.ID).Rated.Known:
		out = append(out, "rated "+quantity.Format(d.set.Part(p.ID).Rated.V, quantity.Flow, d.units))
	}
	if s := d.ownSize(p); s != "" {
		out = append(out, s)
	}
	return out
}

// isolated reports whether an element is shown disconnected.
func (d *drawing) isolated(p *graph.Part) bool {
	return d.net.Disconnected(p, len(d.in.Circuit.Units()) == 0)
}

// cracking returns a spring check's pressure, Pa; 0 where nothing says it, or for a swing check.
func (d *drawing) cracking(p *graph.Part) float64 {
	set := d.set.Part(p.ID)
	if set.IsSwing() || set.Cracking.How == settle.Assumed {
		return 0
	}
	return set.Cracking.V
}

// ownSize is a part's size where it differs from its runs'.
func (d *drawing) ownSize(p *graph.Part) string {
	if p.Size.IsZero() || p.Kind == graph.Tub || p.Kind == graph.HeatPump {
		return ""
	}
	for _, r := range d.c.Runs {
		if (r.From.Part == p.ID || r.To.Part == p.ID) && r.Size == p.Size {
			return ""
		}
	}
	return p.Size.String()
}

// runText is the label of a run: its size where it is not clear already from
// the sheet's note or from the pipe before it. It has no lines where nothing need be said.
func (d *drawing) runText(r *graph.Run, air bool) text {
	var t text
	if r.Direct() {
		return t
	}
	s := d.sizeText(r)
	if air {
		s = strings.TrimSpace("air " + s)
	}
	if s != "" {
		t.lines = append(t.lines, []word{{s, sizeEm, r.New()}})
	}
	return t
}

// sizeText is a run's size, and its spec where that is not the sheet's. A size holds along
// the line, through fittings and valves and straight through tees, until another is marked or the line comes
// to a machine: behind that a sheet that says "unless marked" would be read. New work carries its size from
// its start on.
func (d *drawing) sizeText(r *graph.Run) string {
	if r.Size.IsZero() {
		return ""
	}
	is := pipeOf{r.Spec, r.Size}
	before := d.before(r)
	if is == d.read(before) && (is == d.common && !r.New() || before != nil && before.New() == r.New() && !before.Direct()) {
		return ""
	}
	if r.Spec != d.common.spec || d.read(before).spec != r.Spec { // of a size alone the spec would be taken for that before it
		return strings.TrimSpace(r.Size.String() + " " + string(r.Spec))
	}
	return r.Size.String()
}

// read is what pipe is taken for at its end: what it is where it has a length, else what is read of that
// before it, else the sheet's. Pipe of no length has no mark.
func (d *drawing) read(r *graph.Run) pipeOf {
	for range d.c.Runs { // a ring of pipe of no length has no beginning
		if r == nil {
			break
		}
		if !r.Direct() && !r.Size.IsZero() {
			return pipeOf{r.Spec, r.Size}
		}
		r = d.before(r)
	}
	return d.common
}

// before is the pipe that a run goes on from as one line, or nil.
func (d *drawing) before(r *graph.Run) *graph.Run {
	from, _ := d.net.Ends(r)
	p := d.net.Part(from.Part)
	if p == nil {
		return nil
	}
	for _, b := range d.net.Coming(p) {
		if _, to := d.net.Ends(b); runsOn(p, to.Port, from.Port) {
			return b
		}
	}
	return nil
}

// holds reports whether a mark is read at pipe beyond its own.
func (d *drawing) holds() bool {
	return slices.ContainsFunc(d.c.Runs, func(r *graph.Run) bool {
		return !r.Direct() && !r.Size.IsZero() && pipeOf{r.Spec, r.Size} != d.common && d.sizeText(r) == ""
	})
}

// runsOn reports whether pipe that comes to a port of a part goes on from another as one line: through a
// fitting or valve with two ports, and straight through a tee.
func runsOn(p *graph.Part, in, out string) bool {
	return p.Kind.TwoPort() && p.Kind.Plumbing() || p.Kind == graph.Tee && in != graph.Branch && out != graph.Branch
}

// pipeOf is a spec and a size.
type pipeOf struct {
	spec catalog.Spec
	size catalog.Size
}

// commonPipe is what most runs are made of: [pipe]'s, else that of the most runs.
func commonPipe(c *graph.Circuit) pipeOf {
	count := map[pipeOf]int{}
	var best pipeOf
	for _, r := range c.Runs {
		k := pipeOf{r.Spec, r.Size}
		count[k]++
		if count[k] > count[best] || best.size.IsZero() {
			best = k
		}
	}
	if k := (pipeOf{c.Pipe.Spec, c.Pipe.Size}); count[k] > 0 {
		return k
	}
	return best
}

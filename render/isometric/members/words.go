package members

import (
	"fmt"
	"math"
	"strings"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/route"
	"dryfit/graph/settle"
	"dryfit/render/symbol"
	"dryfit/render/tag"
)

// PipeOf is a spec and a size.
type PipeOf struct {
	Spec catalog.Spec
	Size catalog.Size
}

// commonPipe is what most of the new legs are made of.
func (d *Drawing) commonPipe() PipeOf {
	count := map[PipeOf]int{}
	var best PipeOf
	for i := range d.Lay.Paths {
		p := &d.Lay.Paths[i]
		if !p.Run.New() || len(p.Points) < 2 {
			continue
		}
		k := PipeOf{p.Run.Spec, p.Run.Size}
		count[k] += len(p.Points) - 1
		if count[k] > count[best] || best.Size.IsZero() {
			best = k
		}
	}
	return best
}

// Pens of signs, mm: those of new work between the thin and the thick of ISO 128.
const (
	PenNewSign = 0.5
	PenOldSign = 0.35
)

// LengthText is a length as it stands on a dimension line: mm without the unit, or feet and
// inches.
func (d *Drawing) LengthText(mm float64) string {
	return strings.TrimSuffix(quantity.Format(mm, quantity.Length, d.In.Units), " mm")
}

// Sign returns a part's sign as it stands in a pipe; each is made once.
func (d *Drawing) Sign(p *graph.Part) (symbol.Symbol, symbol.Look) {
	s, ok := d.signs[p]
	if !ok {
		s.look = d.lookOf(p)
		s.symbol = symbol.Of(p.Kind, s.look)
		d.signs[p] = s
	}
	return s.symbol, s.look
}

// signed is a sign and how it looks.
type signed struct {
	symbol symbol.Symbol
	look   symbol.Look
}

// lookOf is how a part's sign looks.
func (d *Drawing) lookOf(p *graph.Part) symbol.Look {
	l := symbol.LookOf(p, d.Lay.Stage)
	l.Pen = PenOldSign
	if p.New() {
		l.Pen = PenNewSign
	}
	l.Isolated = d.Net.Disconnected(p, d.In.Gone == nil && len(d.C.Units()) == 0)
	return l
}

// PortName is a port in words: "E1 element heater, outlet".
func (d *Drawing) PortName(ref graph.PortRef) string { return d.Names.Port(ref) }

// Facts are the lines below a part's name.
func (d *Drawing) Facts(p *graph.Part) []string {
	var out []string
	if p.Kind == graph.Union {
		for i := range d.Lay.Joints {
			if id, port := NutOf(&d.Lay.Joints[i]); d.Lay.Joints[i].Run == "" && id == p.ID && port == "" {
				out = append(out, "nut "+JointText([]*route.Joint{&d.Lay.Joints[i]}))
			}
		}
	}
	if p.Kind == graph.Tee && p.New() && d.onOld(p) {
		out = append(out, d.LevelText(d.Lay.Positions[p.ID+"."+graph.RunIn].Z))
	}
	_, l := d.Sign(p)
	switch {
	case p.Kind == graph.CheckValve && l.Spring:
		if pa := d.cracking(p); pa > 0 {
			out = append(out, quantity.Format(pa, quantity.Pressure, d.In.Units))
		}
	case l.Shut:
		out = append(out, "shut")
	case l.Throttle:
		out = append(out, "throttled")
	}
	if !p.Size.IsZero() && p.New() && p.Size != d.Common.Size && p.Kind != graph.HeatPump {
		out = append(out, p.Size.String())
	}
	return out
}

// onOld reports whether a part stands in old pipe.
func (d *Drawing) onOld(p *graph.Part) bool {
	for _, r := range d.Net.At(p) {
		if !r.New() {
			return true
		}
	}
	return false
}

// LevelText is a height over the datum, in words: "level +20 mm".
func (d *Drawing) LevelText(z float64) string {
	sign := "+"
	switch {
	case math.Abs(z) < 0.5:
		sign, z = "", 0
	case z < 0:
		sign, z = "-", -z
	}
	return "level " + sign + quantity.Format(z, quantity.Length, d.In.Units)
}

// cracking returns a spring check's pressure, Pa; 0 where nothing says it.
func (d *Drawing) cracking(p *graph.Part) float64 {
	v := d.Lay.Stage.Part(p.ID).Cracking
	if v.How == settle.Assumed {
		return 0
	}
	return v.V
}

// JointText names joints that stand at one place: "J8 J34".
func JointText(js []*route.Joint) string {
	var words []string
	for _, j := range js {
		words = append(words, tag.Joint(j.Number))
	}
	return strings.Join(words, " ")
}

// PipeText names pipe by spec and size.
func PipeText(p PipeOf) string { return strings.TrimSpace(fmt.Sprintf("%s %s", p.Spec, p.Size)) }

// LegText is a leg's length in words; of one cut by a match line that of the whole.
func (d *Drawing) LegText(m *Member) string {
	if m.CutA == "" && m.CutB == "" {
		return d.LengthText(m.Way().Len())
	}
	pts := d.Lay.Paths[m.Path].Points
	return "whole " + d.LengthText(pts[m.Last+1].Sub(pts[m.Leg]).Len())
}

// NutOf reads which part a nut belongs to, and which of its ports; "" for a plain union.
func NutOf(j *route.Joint) (part, port string) {
	if tail, ok := strings.CutPrefix(j.B, "tail of "); ok {
		k := strings.LastIndexByte(tail, '.')
		return tail[:max(k, 0)], tail[k+1:]
	}
	k := strings.LastIndexByte(j.A, '.')
	return j.A[:max(k, 0)], ""
}

// HoseCut is the length to which new hose is cut, which no leg shows; "" for other pipe.
func (d *Drawing) HoseCut(m *Member) string {
	for _, piece := range m.Pieces {
		if piece.Spec.Flexible() {
			return quantity.Format(piece.CutMM, quantity.Length, d.In.Units)
		}
	}
	return ""
}

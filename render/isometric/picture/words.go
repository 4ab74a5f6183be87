package picture

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

// pipeOf is a spec and a size.
type pipeOf struct {
	spec catalog.Spec
	Size catalog.Size
}

// commonPipe is what most of the new legs are made of.
func (d *Drawing) commonPipe() pipeOf {
	count := map[pipeOf]int{}
	var best pipeOf
	for i := range d.Lay.Paths {
		p := &d.Lay.Paths[i]
		if !p.Run.New() || len(p.Points) < 2 {
			continue
		}
		k := pipeOf{p.Run.Spec, p.Run.Size}
		count[k] += len(p.Points) - 1
		if count[k] > count[best] || best.Size.IsZero() {
			best = k
		}
	}
	return best
}

// lengthText is a length as it stands on a dimension line: mm without the unit, or feet and
// inches.
func (d *Drawing) lengthText(mm float64) string {
	return strings.TrimSuffix(quantity.Format(mm, quantity.Length, d.In.Units), " mm")
}

// sign returns a part's sign as it stands in a pipe.
func (d *Drawing) sign(p *graph.Part) (symbol.Symbol, symbol.Look) {
	l := symbol.Look{Pen: penOldSign, Spring: !d.Lay.Stage.Part(p.ID).IsSwing()}
	if p.New() {
		l.Pen = penNewSign
	}
	if p.Kind.IsHandValve() && p.Valve != nil {
		switch v := p.Valve; {
		case v.Kv > 0 && !v.PositionSet:
			l.Throttle = true
		case v.PositionSet && v.Position <= 0:
			l.Shut = true
		case v.PositionSet && v.Position < 1:
			l.Throttle = true
		}
	}
	l.HoseOut = p.Kind == graph.Barb && d.net.HoseOut(p)
	if p.Element != nil {
		l.Isolated = p.Element.Disconnected
	}
	return symbol.Of(p.Kind, l), l
}

// PortName is a port in words: "E1 element heater, out".
func (d *Drawing) PortName(ref graph.PortRef) string {
	return d.Names.Short(ref.Part) + ", " + ref.Port
}

// facts are the lines below a part's name.
func (d *Drawing) facts(p *graph.Part) []string {
	var out []string
	if p.Kind == graph.Union {
		for i := range d.Lay.Joints {
			if id, port := nutOf(&d.Lay.Joints[i]); d.Lay.Joints[i].Run == "" && id == p.ID && port == "" {
				out = append(out, "nut "+jointText([]*route.Joint{&d.Lay.Joints[i]}))
			}
		}
	}
	if p.Kind == graph.Tee && p.New() && d.onOld(p) {
		out = append(out, d.levelText(d.Lay.Places[p.ID+"."+graph.RunIn].Z))
	}
	_, l := d.sign(p)
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
	for _, r := range d.net.At(p) {
		if !r.New() {
			return true
		}
	}
	return false
}

// levelText is a height over the datum, in words: "level +20 mm".
func (d *Drawing) levelText(z float64) string {
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

// jointText names joints that stand at one place: "J8 J34".
func jointText(js []*route.Joint) string {
	var words []string
	for _, j := range js {
		words = append(words, tag.Joint(j.Number))
	}
	return strings.Join(words, " ")
}

// PipeText names pipe by spec and size.
func PipeText(p pipeOf) string { return strings.TrimSpace(fmt.Sprintf("%s %s", p.spec, p.Size)) }

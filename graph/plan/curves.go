package plan

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"dryfit/graph"
	"dryfit/graph/hydraulic"
	"dryfit/graph/hydraulic/laws"
	"dryfit/graph/hydraulic/spread"
	"dryfit/graph/plan/stage"
)

// CurveSet is one pump against the circuit: its head at every speed, the head the circuit
// asks of it before and after the work, and where the two meet. Flows m³/s, heads m.
type CurveSet struct {
	Pump    *graph.Part
	Unit    *graph.Part // whose line the pump feeds; nil where there is none
	Speeds  []SpeedCurve
	Systems []SystemCurve
	Duties  []Duty
	AsSaid  string // what they are of, as Plan.AsSaid

	points int // to a curve, while it is made
}

// SpeedCurve is a pump at one speed.
type SpeedCurve struct {
	Speed  string
	Points []hydraulic.SystemPoint
}

// SystemCurve is the circuit of one stage in the modes that set it alike but for the pump's
// speed. Low and High bound it where the ranges are known: the circuit that asks for most
// head, and for least, of nine in ten.
type SystemCurve struct {
	Stage     graph.Stage
	Modes     []string
	Points    []hydraulic.SystemPoint
	Low, High []hydraulic.SystemPoint // by flow: Low passes least at a head
}

// Duty is where the pump works in a mode.
type Duty struct {
	Stage       graph.Stage
	Mode, Speed string
	Flow, Head  float64
	Range       spread.Range // of the flow; all three the same where no ranges are known
}

// Points of each curve of a drawing, and how far above the pump's own head the circuit is followed.
const (
	curvePoints  = 60
	mostHeadUsed = 3
)

// Curves returns a set for the pump that feeds the unit (else for the pump on whose line
// heat belongs), and for every other pump with water through a heat pump. Where the work changes no way of the water,
// as where no place for the cut was found, there is one circuit and no before. The plan must hold
// the solutions (Flows); with Ranges the sets have bands.
func Curves(p *Plan) []CurveSet { return CurvesOf(p, curvePoints) }

// CurvesOf is Curves with so many points to a curve: few are enough for a small picture that
// is drawn often.
func CurvesOf(p *Plan, points int) []CurveSet {
	if p == nil || p.After == nil || p.After.Layout == nil {
		return nil
	}
	var out []CurveSet
	for _, pump := range p.heaterPumps() {
		set := CurveSet{Pump: pump.pump, Unit: pump.unit, AsSaid: p.AsSaid(), points: points}
		if p.Before != nil && p.Before != p.After && !graph.SameWater(p.Before.Circuit, p.After.Circuit) {
			set.stage(p.Before, graph.Before, p.Ranges)
		}
		set.stage(p.After, graph.After, p.Ranges)
		set.merge()
		if len(set.Duties) > 0 {
			out = append(out, set)
		}
	}
	return out
}

type unitPump struct{ pump, unit *graph.Part }

// heaterPumps lists the pumps that push water through a unit, else the one on whose line
// heat belongs.
func (p *Plan) heaterPumps() []unitPump {
	net := p.After.Layout.Stage.Net()
	var out []unitPump
	for _, b := range net.Branches() {
		for _, pump := range b.Feeds() {
			if !slices.ContainsFunc(out, func(q unitPump) bool { return q.pump == pump }) {
				out = append(out, unitPump{pump, b.Unit})
			}
		}
	}
	if len(out) == 0 {
		if q := net.HeaterPump(); q != nil {
			out = append(out, unitPump{pump: q})
		}
	}
	return out
}

// stage adds the curves and duty points of one stage.
func (s *CurveSet) stage(st *stage.Stage, stage graph.Stage, ranges *spread.Ranges) {
	groups := map[string]int{} // of modes that set the circuit alike
	var alike [][]driven
	for _, solved := range st.Solutions {
		part := solved.Part(s.Pump.ID)
		speed := solved.Mode.Speeds[s.Pump.ID]
		if part == nil || part.HeadM == 0 {
			continue
		}
		model, err := spread.Build(st.Layout, solved.Mode, stage)
		if err != nil {
			continue
		}
		curve := model.PumpCurve(s.Pump.ID)
		if curve == nil {
			continue
		}
		s.speed(speed, curve)
		duty := Duty{Stage: stage, Mode: solved.Mode.Name, Speed: speed, Flow: part.Flow, Head: part.HeadM,
			Range: spread.Range{Low: part.Flow, Likely: part.Flow, High: part.Flow}}
		known := false
		if r := ranges.Of(duty.Mode, stage); r != nil {
			for i := range solved.Parts {
				if solved.Parts[i].Part.ID == s.Pump.ID && i < len(r.Parts) {
					duty.Range, known = r.Parts[i], true
				}
			}
		}
		s.Duties = append(s.Duties, duty)
		key := setting(solved.Mode, s.Pump.ID)
		i, ok := groups[key]
		if !ok {
			i = len(alike)
			groups[key] = i
			alike = append(alike, nil)
		}
		alike[i] = append(alike[i], driven{duty, known, model, curve})
	}
	for _, modes := range alike {
		s.Systems = append(s.Systems, s.system(modes))
	}
}

// driven is a circuit with its pump at one speed.
type driven struct {
	duty  Duty
	known bool // its range
	model *hydraulic.Model
	curve *laws.PumpCurve
}

// system is the curve of a circuit, followed with the speed that moves most: it leads furthest.
func (s *CurveSet) system(modes []driven) SystemCurve {
	out := SystemCurve{Stage: modes[0].duty.Stage}
	for _, m := range modes {
		out.Modes = append(out.Modes, m.duty.Mode)
	}
	slices.SortStableFunc(modes, func(a, b driven) int { return cmp.Compare(b.duty.Flow, a.duty.Flow) })
	for _, m := range modes {
		out.Points = m.model.SystemCurve(s.Pump.ID, mostHeadUsed, s.points)
		if len(out.Points) == 0 {
			continue
		}
		if m.known && m.duty.Range.High > m.duty.Range.Low {
			out.Low, out.High = bounds(out.Points, m.duty, m.curve)
		}
		break
	}
	return out
}

// merge joins curves of one stage that no eye could tell apart: a pump that runs on a circuit
// of its own makes modes, but no other curve here.
func (s *CurveSet) merge() {
	var out []SystemCurve
	for _, c := range s.Systems {
		i := slices.IndexFunc(out, func(o SystemCurve) bool { return o.Stage == c.Stage && same(o.Points, c.Points) })
		if i < 0 {
			out = append(out, c)
			continue
		}
		out[i].Modes = append(out[i].Modes, c.Modes...)
	}
	s.Systems = out
}

// same reports whether two curves of as many points differ by less than half a per cent.
func same(a, b []hydraulic.SystemPoint) bool {
	return slices.EqualFunc(a, b, func(p, q hydraulic.SystemPoint) bool {
		return math.Abs(p.Flow-q.Flow) <= 0.005*p.Flow && math.Abs(p.Head-q.Head) <= 0.005*p.Head
	})
}

// bounds returns the curve of the circuit scaled in flow and head so that it passes the
// duty points at the ends of the range of the flow, which are taken to lie on the pump's
// likely curve.
func bounds(points []hydraulic.SystemPoint, d Duty, pump *laws.PumpCurve) (low, high []hydraulic.SystemPoint) {
	through := func(q float64) []hydraulic.SystemPoint {
		h, _ := pump.Head(q)
		if q <= 0 || h <= 0 {
			return nil
		}
		var out []hydraulic.SystemPoint
		for _, p := range points {
			out = append(out, hydraulic.SystemPoint{Flow: p.Flow * q / d.Flow, Head: p.Head * h / d.Head})
		}
		return out
	}
	low, high = through(d.Range.Low), through(d.Range.High)
	if low == nil || high == nil {
		return nil, nil
	}
	return low, high
}

// speed adds the pump's curve at a speed, once.
func (s *CurveSet) speed(name string, c *laws.PumpCurve) {
	if slices.ContainsFunc(s.Speeds, func(v SpeedCurve) bool { return v.Speed == name }) {
		return
	}
	out := SpeedCurve{Speed: name}
	for i := range s.points + 1 {
		q := c.Last() * float64(i) / float64(s.points)
		h, _ := c.Head(q)
		out.Points = append(out.Points, hydraulic.SystemPoint{Flow: q, Head: h})
	}
	s.Speeds = append(s.Speeds, out)
}

// setting names what a mode sets beside the speed of one pump.
func setting(m graph.Mode, pump string) string {
	var words []string
	for id, v := range m.Speeds {
		if id != pump {
			words = append(words, id+"="+v)
		}
	}
	for id, v := range m.Positions {
		words = append(words, fmt.Sprintf("%s=%g", id, float64(v)))
	}
	slices.Sort(words)
	return fmt.Sprintf("%s jets=%g dirty=%t", strings.Join(words, " "), m.JetsOpen, m.Dirty)
}

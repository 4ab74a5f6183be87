package laws

import (
	"fmt"

	"dryfit/graph/hydraulic/formula"
	"dryfit/graph/hydraulic/network"
)

// PumpCurve is the head of a pump over its flow: through the points by shape-preserving
// cubics (see formula.Pchip). Between no flow and a first point that is not at no flow, the
// curve is a parabola that starts level and meets the first point with its slope; where the
// curve rises there, it is level. Past the last point it goes on in a straight line that
// falls, which serves the solver alone: an answer there is refused.
type PumpCurve struct {
	q, h     []float64
	curve    *formula.Pchip
	start    float64 // head at no flow
	past     float64 // slope past the last point
	rises    bool
	maxAfter []float64 // greatest head of the points from i on
	minUpTo  []float64 // least head of the points up to i, no flow included
}

// NewPumpCurve returns the curve through at least two points with rising flow (m³/s) and
// heads (m). Of one that is given by its two ends alone, the head at no flow and the flow at no
// head, see between.
func NewPumpCurve(q, h []float64) (*PumpCurve, error) {
	if len(q) < 2 || len(q) != len(h) {
		return nil, fmt.Errorf("a pump curve needs two points, it has %d", len(q))
	}
	for i := range q {
		if !(q[i] >= 0) || h[i]-h[i] != 0 || q[i]-q[i] != 0 || i > 0 && !(q[i] > q[i-1]) {
			return nil, fmt.Errorf("the flows of a pump curve must rise: point %d does not", i+1)
		}
	}
	if len(q) == 2 && q[0] == 0 && h[0] > 0 && h[1] == 0 {
		q, h = between(q[1], h[0])
	}
	c := &PumpCurve{q: q, h: h, curve: formula.NewPchip(q, h)}
	d := c.curve.Slopes()
	n := len(q)
	c.start = h[0] - min(d[0], 0)*q[0]/2
	c.past = min(d[n-1], -h[n-1]/q[n-1], -c.start/q[n-1]/10)
	c.maxAfter, c.minUpTo = make([]float64, n), make([]float64, n)
	for i := range q {
		c.maxAfter[n-1-i] = h[n-1-i]
		if i > 0 {
			c.maxAfter[n-1-i] = max(h[n-1-i], c.maxAfter[n-i])
		}
		c.minUpTo[i] = min(c.start, h[0], h[i])
		if i > 0 {
			c.minUpTo[i] = min(c.minUpTo[i-1], h[i])
			c.rises = c.rises || h[i] > h[i-1]
		}
	}
	return c, nil
}

// between is a curve of which the sheet says only its ends, as those of small pumps and of the boxes
// of plug-in tubs do: the greatest flow (m³/s) and head (m). No pump falls in a straight line from
// one to the other, which would give it a seventh too little water in its middle: a parabola that
// starts level. Common practice, no source: curves of volute pumps bend by the power 1.5 to 2.6.
func between(most, shutOff float64) (q, h []float64) {
	for _, x := range []float64{0, 0.25, 0.5, 0.7, 0.85, 1} {
		q, h = append(q, most*x), append(h, shutOff*(1-x*x))
	}
	return q, h
}

// Head returns the head in m and its slope at a flow of 0 or more, m³/s.
func (c *PumpCurve) Head(q float64) (head, slope float64) {
	n := len(c.q)
	switch {
	case q >= c.q[n-1]:
		return c.h[n-1] + c.past*(q-c.q[n-1]), c.past
	case q < c.q[0]:
		m := min(c.curve.Slopes()[0], 0)
		return c.start + m*q*q/(2*c.q[0]), m * q / c.q[0]
	}
	return c.curve.At(q)
}

// Last returns the flow of the curve's last point, m³/s.
func (c *PumpCurve) Last() float64 { return c.q[len(c.q)-1] }

// First returns the flow of the curve's first point, m³/s.
func (c *PumpCurve) First() float64 { return c.q[0] }

// ShutOff returns the head at no flow, m.
func (c *PumpCurve) ShutOff() float64 { return c.start }

// Greatest returns the highest head of the curve, m: the shut-off head, or where the curve
// rises its highest point.
func (c *PumpCurve) Greatest() float64 { return max(c.start, c.maxAfter[0]) }

// Rises reports whether the head rises with the flow anywhere.
func (c *PumpCurve) Rises() bool { return c.rises }

// of is the curve with wide times its flows and times its heads.
func (c *PumpCurve) of(wide, times float64) *PumpCurve {
	q, h := make([]float64, len(c.q)), make([]float64, len(c.q))
	for i := range c.q {
		q[i], h[i] = wide*c.q[i], times*c.h[i]
	}
	out, err := NewPumpCurve(q, h)
	if err != nil {
		return c // a ratio of 0 or so
	}
	return out
}

// highest is the greatest head at this flow or any above it: a curve that does not rise.
func (c *PumpCurve) highest(q float64) (head, slope float64) {
	head, slope = c.Head(q)
	for i, x := range c.q {
		if x > q {
			if c.maxAfter[i] > head {
				return c.maxAfter[i], 0
			}
			break
		}
	}
	return head, min(slope, 0)
}

// lowest is the least head at this flow or any below it.
func (c *PumpCurve) lowest(q float64) (head, slope float64) {
	head, slope = c.Head(q)
	least := c.start
	for i, x := range c.q {
		if x > q {
			break
		}
		least = c.minUpTo[i]
	}
	if least < head {
		return least, 0
	}
	return head, min(slope, 0)
}

// Best returns the flow of the most water power on the curve, m³/s, and the head there, m:
// what a pump is chosen for. It is the best of a hundred steps.
func (c *PumpCurve) Best() (flow, head float64) {
	most := 0.0
	for i := 1; i <= 100; i++ {
		q := c.Last() * float64(i) / 100
		if h, _ := c.Head(q); q*h > most {
			flow, head, most = q, h, q*h
		}
	}
	return flow, head
}

// PumpLaw is a running pump: minus its head. Another pump of its family has times the head
// at wide times the flow. It implements network.Law.
type PumpLaw struct {
	Curve *PumpCurve
	Times float64 // of the head
	Wide  float64 // of the flow
}

// Own is the curve of the pump itself: that of its family, with its own head and flow.
func (l *PumpLaw) Own() *PumpCurve {
	if l.Times == 1 && l.Wide == 1 {
		return l.Curve
	}
	return l.Curve.of(l.Wide, l.Times)
}

// Last returns the flow of the last point of the curve, m³/s.
func (l *PumpLaw) Last() float64 { return l.Wide * l.Curve.Last() }

func (l *PumpLaw) of(head func(q float64) (h, slope float64), q float64) (float64, float64) {
	h, s := head(q / l.Wide)
	return -l.Times * h, -l.Times * s / l.Wide
}

// Loss returns the head in m and its slope at a flow in m³/s.
func (l *PumpLaw) Loss(q float64) (head, slope float64) { return l.of(l.Curve.Head, q) }

// RisingPump is a pump whose curve rises before it falls; it implements network.Bounded.
type RisingPump struct{ PumpLaw }

// Least returns the law that never gives less head than the pump, so loses least.
func (l *RisingPump) Least() network.Law { return (*HighestPump)(l) }

// Greatest returns the law that never gives more head than the pump.
func (l *RisingPump) Greatest() network.Law { return (*LowestPump)(l) }

// HighestPump is the pump by its greatest head at a flow or any above it: a curve that does not rise.
type HighestPump RisingPump

// Loss returns the head in m and its slope at a flow in m³/s.
func (l *HighestPump) Loss(q float64) (head, slope float64) { return l.of(l.Curve.highest, q) }

// LowestPump is the pump by its least head at a flow or any below it.
type LowestPump RisingPump

// Loss returns the head in m and its slope at a flow in m³/s.
func (l *LowestPump) Loss(q float64) (head, slope float64) { return l.of(l.Curve.lowest, q) }

package symbol

import (
	"math"

	"dryfit/graph"
	"dryfit/render/scene"
)

// Half the length and height of a valve's bow-tie: 3M by 1.5M, drawn a little higher so
// that it is clear at arm's length.
const (
	valveW = 1.5 * M
	valveH = 0.95 * M
)

// bow is the valve's body: two triangles tip to tip. Source: ISO 10628-2 (from memory).
func bow(l Look, fill bool) []scene.Item {
	if fill {
		return []scene.Item{
			solid(l.Pen, -valveW, -valveH, 0, 0, -valveW, valveH),
			solid(l.Pen, valveW, -valveH, 0, 0, valveW, valveH),
		}
	}
	return []scene.Item{
		area(l.Pen, -valveW, -valveH, 0, 0, -valveW, valveH),
		area(l.Pen, valveW, -valveH, 0, 0, valveW, valveH),
	}
}

// handValve draws gate, ball and butterfly valves; filled black where normally shut, with
// an arrow across where set in between.
func handValve(kind graph.Kind, l Look) Symbol {
	s := Symbol{In: -valveW, Out: valveW}
	switch kind {
	case graph.GateValve:
		s.Legend = "gate valve"
		s.Items = append(bow(l, l.Shut), path(l.Pen, 0, -0.8*M, 0, 0.8*M))
	case graph.BallValve:
		s.Legend = "ball valve"
		ball := scene.Outline(l.Pen)
		if l.Shut {
			ball = scene.Solid(l.Pen)
		}
		s.Items = append(bow(l, l.Shut), scene.Circle(at(0, 0), 0.5*M, ball))
	default:
		s.Legend = "butterfly valve"
		st := area(0, -valveW, -valveH, valveW, -valveH, valveW, valveH, -valveW, valveH)
		if l.Shut {
			st.Style.FillGrey = 0.6
		}
		s.Items = []scene.Item{st,
			path(l.Pen, -valveW, -valveH, -valveW, valveH), path(l.Pen, valveW, -valveH, valveW, valveH),
			path(l.Pen, -valveW, valveH, valveW, -valveH),
			scene.Circle(at(0, 0), 0.3*M, scene.Solid(l.Pen)),
		}
	}
	switch {
	case l.Shut:
		s.Legend += ", shut"
	case l.Throttle:
		s.Legend += ", throttled"
		s.Items = append(s.Items, path(0.25, -1.1*M, 1.4*M, 1.1*M, -1.4*M),
			scene.Arrow(at(1.25*M, -1.6*M), at(2.2, -2.8), 1.8, 1.3, scene.Filled(0)))
	default:
		s.Legend += ", open"
	}
	return s
}

// check: bow-tie with the downstream triangle filled, an arrow beside it, and a zigzag of
// the spring. Source: ISO style (from memory); the arrow is added for the fitter.
func check(l Look) Symbol {
	s := Symbol{In: -valveW, Out: valveW, Legend: "swing check valve"}
	s.Items = []scene.Item{
		area(l.Pen, -valveW, -valveH, 0, 0, -valveW, valveH),
		solid(l.Pen, valveW, -valveH, 0, 0, valveW, valveH),
	}
	top := -valveH - 1.1
	if l.Spring {
		s.Legend = "spring check valve"
		const x0, pitch, amp = 0.2, 0.7, 0.9
		y := -valveH - 1.1
		xy := []float64{x0, y}
		for i := range 6 {
			xy = append(xy, x0+pitch*(float64(i)+0.5), y+amp*math.Pow(-1, float64(i)))
		}
		xy = append(xy, x0+6*pitch, y)
		s.Items = append(s.Items, path(0.3, xy...))
		top = -valveH - 3.3
	}
	s.Items = append(s.Items, path(0.25, -1.2*M, top, 0.6*M, top),
		scene.Arrow(at(1.2*M, top), at(1, 0), 1.9, 1.4, scene.Filled(0)))
	return s
}

// diverter: a bow-tie with a third triangle below, all tips in one point. Source: ISO
// 10628-2, three-way valve (from memory).
func diverter(l Look) Symbol {
	s := Symbol{In: -valveW, Out: valveW, Legend: "diverter valve"}
	s.Items = append(bow(l, false), area(l.Pen, -valveH, valveW, 0, 0, valveH, valveW),
		scene.Circle(at(0, 0), 0.35*M, scene.Solid(l.Pen)))
	return s
}

// drain: a stub with a valve and an arrow out of it; drawn for water to the right, it is
// turned down on the sheet.
func drain(l Look) Symbol {
	s := Symbol{In: -valveW, Out: valveW, Legend: "drain valve, shut"}
	s.Items = append(bow(l, true), path(l.Pen, valveW, 0, valveW+0.8, 0),
		scene.Arrow(at(valveW+2.8, 0), at(1, 0), 2, 2, scene.Filled(0)))
	return s
}

// bleed: a small valve with an open outlet; turned up on the sheet.
func bleed(l Look) Symbol {
	s := Symbol{In: -valveW, Out: valveW, Legend: "air bleed, shut"}
	s.Items = append(bow(l, true), path(l.Pen, valveW, 0, valveW+1.5, 0),
		path(l.Pen, valveW+1.5, -0.6*M, valveW+1.5, 0.6*M))
	return s
}

// airControl: a throttled bow-tie with an open end that draws air (own shape).
func airControl(l Look) Symbol {
	s := Symbol{In: -valveW, Out: valveW, Legend: "air control"}
	s.Items = append(bow(l, false), path(0.25, -1.1*M, 1.2*M, 1.1*M, -1.2*M),
		scene.Arrow(at(1.25*M, -1.35*M), at(1, -1.1), 1.8, 1.3, scene.Filled(0)),
		path(l.Pen, valveW+1.5, -0.7*M, valveW+0.3, 0, valveW+1.5, 0.7*M))
	return s
}

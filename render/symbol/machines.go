package symbol

import "dryfit/render/scene"

// pump: a circle d 4M with two lines from the ends of its vertical diameter to the point of
// discharge. Source: ISO 10628-2 / ISO 14617-9 (from memory).
func pump(l Look) Symbol {
	const r = 2 * M
	return Symbol{In: -r, Out: r, Legend: "pump", Items: []scene.Item{
		scene.Circle(at(0, 0), r, scene.Outline(l.Pen)),
		path(l.Pen, 0, -r, r, 0, 0, r),
	}}
}

// blower: as the pump with the triangle filled (own shape, after the compressor's).
func blower(l Look) Symbol {
	const r = 2 * M
	return Symbol{In: -r, Out: r, Legend: "air blower", Items: []scene.Item{
		scene.Circle(at(0, 0), r, scene.Outline(l.Pen)),
		solid(l.Pen, 0, -r, r, 0, 0, r),
	}}
}

// heatPump: a heat exchanger (circle with a zigzag through it) and a fan (circle with
// crossing blades) in a box 11M by 6M. Source: ISO 14617 for both; the box is common.
func heatPump(l Look) Symbol {
	const w, h = 5.6 * M, 3 * M
	const cx, r = -2.5 * M, 2 * M
	const fx, fr = 2.6 * M, 2 * M
	s := Symbol{In: -w, Out: w, Legend: "heat pump (the unit)", Items: []scene.Item{
		area(l.Pen, -w, -h, w, -h, w, h, -w, h),
		scene.Circle(at(cx, 0), r, scene.Outline(l.Pen)),
		path(l.Pen, -w, 0, cx-1.3*M, 0, cx-0.65*M, -1.3*M, cx+0.65*M, 1.3*M, cx+1.3*M, 0, w, 0),
		scene.Circle(at(fx, 0), fr, scene.Outline(l.Pen)), // the water passes behind the fan
	}}
	for _, v := range [][2]float64{{1, 0}, {-1, 0}, {0, 1}, {0, -1}} {
		long, wide := 0.85*fr, 0.3*fr
		s.Items = append(s.Items, solid(0.18, fx, 0,
			fx+v[0]*long+v[1]*wide, v[1]*long+v[0]*wide, fx+v[0]*long-v[1]*wide, v[1]*long-v[0]*wide))
	}
	return s
}

// element: a rectangle 6M by 2M with a zigzag resistor; crossed out where it is isolated.
// Source: ISO 14617 (from memory).
func element(l Look) Symbol {
	const w, h = 3.2 * M, 1.3 * M
	s := Symbol{In: -w, Out: w, Legend: "element heater", Items: []scene.Item{
		area(l.Pen, -w, -h, w, -h, w, h, -w, h),
		path(l.Pen, -w, 0, -1.8*M, 0, -1.5*M, -0.7*M, -0.9*M, 0.7*M, -0.3*M, -0.7*M, 0.3*M, 0.7*M, 0.9*M, -0.7*M, 1.5*M, 0.7*M, 1.8*M, 0, w, 0),
	}}
	if l.Isolated {
		s.Legend = "element, disconnected"
		s.Items = append(s.Items, path(l.Pen, -w, h, w, -h), path(l.Pen, -w, -h, w, h))
	}
	return s
}

// filter: a rectangle with a dashed line square to the flow. Source: ISO 10628-2 (from memory).
func filter(l Look) Symbol {
	const w, h = 1.7 * M, 2.2 * M
	return Symbol{In: -w, Out: w, Legend: "filter", Items: []scene.Item{
		area(l.Pen, -w, -h, w, -h, w, h, -w, h),
		scene.Line(at(0, -h), at(0, h), scene.Dashed(l.Pen, 1.4, 0.9)),
	}}
}

// strainer: as the filter with the dashed line slanting.
func strainer(l Look) Symbol {
	const w, h = 1.7 * M, 1.5 * M
	return Symbol{In: -w, Out: w, Legend: "strainer", Items: []scene.Item{
		area(l.Pen, -w, -h, w, -h, w, h, -w, h),
		scene.Line(at(-w, -h), at(w, h), scene.Dashed(l.Pen, 1.4, 0.9)),
	}}
}

// feeder: a vessel with a drop in it (own shape).
func feeder(l Look) Symbol {
	const w, h = 1.7 * M, 2 * M
	drop := scene.Shape{Style: scene.Filled(0), Paths: []scene.SubPath{{Start: at(0, -1.2*M), Closed: true, Segments: []scene.Segment{
		{Curve: true, C1: at(0.3*M, -0.4*M), C2: at(0.8*M, 0), To: at(0.7*M, 0.5*M)},
		{Curve: true, C1: at(0.6*M, 1.2*M), C2: at(-0.6*M, 1.2*M), To: at(-0.7*M, 0.5*M)},
		{Curve: true, C1: at(-0.8*M, 0), C2: at(-0.3*M, -0.4*M), To: at(0, -1.2*M)},
	}}}}
	return Symbol{In: -w, Out: w, Legend: "chemical feeder", Items: []scene.Item{
		area(l.Pen, -w, -h, w, -h, w, h, -w, h), drop,
	}}
}

// saltCell: a box with plates of both poles (own shape, after an electrolytic cell).
func saltCell(l Look) Symbol {
	const w, h = 2.2 * M, 1.5 * M
	s := Symbol{In: -w, Out: w, Legend: "salt cell", Items: []scene.Item{
		area(l.Pen, -w, -h, w, -h, w, h, -w, h)}}
	for i := range 4 {
		x := (float64(i) - 1.5) * 0.9 * M
		if i%2 == 0 {
			s.Items = append(s.Items, path(l.Pen, x, -h, x, 0.8*M))
		} else {
			s.Items = append(s.Items, path(l.Pen, x, -0.8*M, x, h))
		}
	}
	return s
}

// injector: two tapers nose to nose with a line into the throat. Source: common sign of a
// venturi (from memory).
func injector(l Look) Symbol {
	const w, h, t = 2.4 * M, 1.2 * M, 0.35 * M
	return Symbol{In: -w, Out: w, Legend: "ozone injector", Items: []scene.Item{
		area(l.Pen, -w, -h, 0, -t, w, -h, w, h, 0, t, -w, h),
		scene.Arrow(at(0, -t), at(0, 1), 2, 1.6, scene.Filled(0)),
		path(l.Pen, 0, -t-1, 0, -1.7*M),
	}}
}

// exchanger: a circle with a zigzag through it, and the other source's pipes above it.
// Source: ISO 10628-2 / ISO 14617 (from memory).
func exchanger(l Look) Symbol {
	const r = 2 * M
	return Symbol{In: -r, Out: r, Legend: "other heat exchanger", Items: []scene.Item{
		path(l.Pen, -0.8*M, -1.4*r, -0.8*M, -0.8*r), path(l.Pen, 0.8*M, -1.4*r, 0.8*M, -0.8*r),
		scene.Circle(at(0, 0), r, scene.Outline(l.Pen)),
		path(l.Pen, -r, 0, -1.3*M, 0, -0.65*M, -1.3*M, 0.65*M, 1.3*M, 1.3*M, 0, r, 0),
	}}
}

// uvChamber: a chamber with a lamp in it: a circle with a cross (own shape, after the sign of
// a lamp).
func uvChamber(l Look) Symbol {
	const w, h, r, d = 2.6 * M, 1.3 * M, 0.9 * M, 0.636 * M // d: r over the square root of two
	return Symbol{In: -w, Out: w, Legend: "UV chamber", Items: []scene.Item{
		area(l.Pen, -w, -h, w, -h, w, h, -w, h),
		scene.Circle(at(0, 0), r, scene.Outline(l.Pen)),
		path(l.Pen, -d, -d, d, d), path(l.Pen, -d, d, d, -d),
	}}
}

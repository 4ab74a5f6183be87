package symbol

import "dryfit/render/scene"

// tee: a joint dot, five times as wide as the line. Source: ISO 6412-1 (from memory).
func tee(l Look) Symbol {
	return Symbol{Legend: "tee", Items: []scene.Item{scene.Circle(at(0, 0), 2.5*max(l.Pen, 0.35), scene.Filled(0))}}
}

// union: three short bars across the pipe, the middle one longer. Source: ISO 10628-2 and
// common practice (from memory).
func union(l Look) Symbol {
	const w = 1.1
	white := area(0, -w, -1, w, -1, w, 1, -w, 1)
	return Symbol{In: -w, Out: w, Legend: "union", Items: []scene.Item{white,
		path(l.Pen, -w, -1.9, -w, 1.9), path(l.Pen, 0, -2.5, 0, 2.5), path(l.Pen, w, -1.9, w, 1.9)}}
}

// coupling: a short sleeve on the pipe.
func coupling(l Look) Symbol {
	const w, h = 1.6, 1.2
	if l.Thread {
		return threadAdaptor(l)
	}
	return Symbol{In: -w, Out: w, Legend: "coupling", Items: []scene.Item{
		area(l.Pen, -w, -h, w, -h, w, h, -w, h), path(l.Pen, 0, -h, 0, h)}}
}

// threadAdaptor: a sleeve with the slanting lines of a thread (own shape).
func threadAdaptor(l Look) Symbol {
	const w, h, lean = 1.6, 1.2, 0.35
	s := Symbol{In: -w, Out: w, Legend: "thread adaptor", Items: []scene.Item{area(l.Pen, -w, -h, w, -h, w, h, -w, h)}}
	for _, x := range []float64{-0.75, 0, 0.75} {
		s.Items = append(s.Items, path(0.25, x-lean, h, x+lean, -h))
	}
	return s
}

// slipCoupling: a longer sleeve with an arrow both ways: it slides.
func slipCoupling(l Look) Symbol {
	const w, h = 2.6, 1.4
	return Symbol{In: -w, Out: w, Legend: "slip coupling", Items: []scene.Item{
		area(l.Pen, -w, -h, w, -h, w, h, -w, h), path(0.25, -1.4, 0, 1.4, 0),
		scene.Arrow(at(2.1, 0), at(1, 0), 1.3, 1.4, scene.Filled(0)),
		scene.Arrow(at(-2.1, 0), at(-1, 0), 1.3, 1.4, scene.Filled(0))}}
}

// reducer: a trapezium, the small end at the small pipe. Source: ISO 10628-2 (from memory).
func reducer(l Look) Symbol {
	const w = 1.8
	if l.Widens {
		return Symbol{In: -w, Out: w, Legend: "reducer", Items: []scene.Item{area(l.Pen, -w, -0.9, w, -2, w, 2, -w, 0.9)}}
	}
	return Symbol{In: -w, Out: w, Legend: "reducer", Items: []scene.Item{area(l.Pen, -w, -2, w, -0.9, w, 0.9, -w, 2)}}
}

// transition: a sleeve whose metric half is filled (own shape).
func transition(l Look) Symbol {
	const w, h = 2.2, 1.5
	metric := w
	if l.MetricIn {
		metric = -w
	}
	return Symbol{In: -w, Out: w, Legend: "inch to metric (filled)", Items: []scene.Item{
		area(l.Pen, -w, -h, w, -h, w, h, -w, h), solid(l.Pen, metric, -h, 0, -h, 0, h, metric, h)}}
}

// barb: the teeth of a hose tail, its narrow end in the hose (own shape).
func barb(l Look) Symbol {
	xy := []float64{-2.2, -0.8, -0.8, -1.7, -0.8, -0.8, 0.7, -1.7, 0.7, -0.8, 2.2, -1.7, 2.2, 1.7, 0.7, 0.8, 0.7, 1.7, -0.8, 0.8, -0.8, 1.7, -2.2, 0.8}
	if l.HoseOut {
		for i := 0; i < len(xy); i += 2 {
			xy[i] = -xy[i]
		}
	}
	return Symbol{In: -2.2, Out: 2.2, Legend: "hose barb", Items: []scene.Item{area(l.Pen, xy...)}}
}

// capEnd: a bar across the end of the pipe with a second one behind it.
func capEnd(l Look) Symbol {
	return Symbol{In: -0.8, Out: 0.8, Legend: "cap", Items: []scene.Item{
		path(max(l.Pen, 0.5), 0, -1.8, 0, 1.8), path(l.Pen, -0.8, 0, 0, 0), path(l.Pen, 1.0, -1.1, 1.0, 1.1)}}
}

// instrument: letters in a circle on a leader, the pipe passing below. Source: ISA-5.1 (from
// memory).
func instrument(letters, legend string, l Look) Symbol {
	const r, y = 1.5 * M, -3.1 * M
	return Symbol{In: -1.2, Out: 1.2, Legend: legend, Items: []scene.Item{
		path(max(l.Pen, 0.35), -1.2, 0, 1.2, 0),
		path(l.Pen, 0, 0, 0, y+r),
		scene.Circle(at(0, y), r, scene.Outline(l.Pen)),
		scene.Text{At: at(0, y), Text: letters, SizeMM: 2.9, Anchor: scene.Centre, Middle: true},
	}}
}

// gauge: letters in a circle at the end of its pipe. Source: ISA-5.1, pressure indicator
// (from memory).
func gauge(l Look) Symbol {
	const r = 1.5 * M
	return Symbol{In: -r, Out: r, Legend: "pressure gauge", Items: []scene.Item{
		scene.Circle(at(0, 0), r, scene.Outline(l.Pen)),
		scene.Text{At: at(0, 0), Text: "PI", SizeMM: 2.9, Anchor: scene.Centre, Middle: true},
	}}
}

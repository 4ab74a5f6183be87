package pipework

import (
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/description/field"
	"dryfit/graph/description/located"
	"dryfit/graph/description/schema"
)

// lossForm is one of the forms in which a loss may be given, whole: its keys, how it is read and
// written, and what the schema says of it.
type lossForm struct {
	keys    []string // those that make the form come first, at most two
	needs   int      // how many of them it can't do without, for the schema
	example string
	shapes  func() []schema.Shape // of the keys
	read    func(r *field.Reader, v located.Value, l *graph.Loss)
	write   func(l *graph.Loss) string // "" where the loss has another form; nil: it is kept as another form
}

func (f *lossForm) main() []string { return f.keys[:min(2, len(f.keys))] }

// The exponent of a loss is from that of a bed of sand, which is linear, to a little over
// the square.
const (
	leastExponent = 1
	mostExponent  = 2.2
)

// anExample is how a loss is written that nobody knows in another form.
const anExample = `{ flow = "10 m3/h", drop = "6 kPa" }`

const kExample = `{ k = 3.1, bore = "52.5 mm" }`

// lossForms are the forms in which a loss may be given, in the order in which they are offered.
var lossForms = []lossForm{
	{
		keys: []string{"flow", "drop", "exponent"}, needs: 2, example: anExample,
		shapes: func() []schema.Shape {
			return []schema.Shape{schema.Quantity(), schema.Quantity(), schema.Number(leastExponent, mostExponent)}
		},
		read: readLossAt, write: lossAtText,
	},
	{
		keys: []string{"points"}, needs: 1, example: `{ points = [["5 m3/h", "2 kPa"], ["10 m3/h", "7 kPa"]] }`,
		shapes: func() []schema.Shape { return []schema.Shape{curveShape(1)} },
		read:   readLossPoints, write: lossPointsText,
	},
	{
		keys: []string{"k", "bore"}, needs: 1, example: kExample,
		shapes: func() []schema.Shape {
			return []schema.Shape{schema.Number(0, field.MostK), schema.Quantity()}
		},
		read: readLossK, write: lossKText,
	},
	{
		keys: []string{"kv"}, needs: 1, example: `{ kv = "31 m3/h" }`,
		shapes: func() []schema.Shape { return []schema.Shape{schema.Quantity()} },
		read:   readLossKv("kv", field.ValveKv), write: lossKvText,
	},
	{
		keys: []string{"cv"}, needs: 1, example: `{ cv = "36 gpm" }`,
		shapes: func() []schema.Shape { return []schema.Shape{schema.Quantity()} },
		read:   readLossKv("cv", field.ValveCv),
	},
}

// readLossAt reads a drop at one flow, with its exponent if it says one.
func readLossAt(r *field.Reader, v located.Value, l *graph.Loss) {
	if p, ok := readLossPoint(r, v, "a loss"); ok {
		l.Points = []graph.LossPoint{p}
	}
	if c, ok := v.In("exponent"); ok {
		l.Exponent, _ = r.Number(c, leastExponent, mostExponent)
	}
}

func lossAtText(l *graph.Loss) string {
	if len(l.Points) != 1 {
		return ""
	}
	text := pointText(&l.Points[0])
	if l.Exponent != 0 {
		text = strings.TrimSuffix(text, " }") + ", exponent = " + quantity.Trim(l.Exponent) + " }"
	}
	return text
}

// readLossPoints reads drops at several flows.
func readLossPoints(r *field.Reader, v located.Value, l *graph.Loss) {
	c, _ := v.In("points")
	for _, p := range readCurve(r, c, field.Flow, field.Drop, 1, false) {
		l.Points = append(l.Points, graph.LossPoint{Flow: p.Flow, Drop: p.Head})
	}
}

func lossPointsText(l *graph.Loss) string {
	if len(l.Points) < 2 {
		return ""
	}
	var c []graph.CurvePoint
	for _, p := range l.Points {
		c = append(c, graph.CurvePoint{Flow: p.Flow, Head: p.Drop})
	}
	return "{ points = " + curveText(c) + " }"
}

// readLossK reads a coefficient and the bore it stands on, if it says one.
func readLossK(r *field.Reader, v located.Value, l *graph.Loss) {
	k, ok := v.In("k")
	if !ok {
		r.Fail(v, "write "+kExample, "a loss with a bore has no k")
		return
	}
	l.K, _ = r.Number(k, 0, field.MostK)
	l.HasK = true
	if b, ok := v.In("bore"); ok {
		if q, ok := r.Quantity(b, field.BoreWidth); ok {
			l.BoreMM = q.Value
		}
	}
}

func lossKText(l *graph.Loss) string {
	switch {
	case !l.HasK:
		return ""
	case l.BoreMM != 0:
		return "{ k = " + quantity.Trim(l.K) + ", bore = " + field.ExactText(l.BoreMM, quantity.Length) + " }"
	}
	return "{ k = " + quantity.Trim(l.K) + " }"
}

// readLossKv reads what passes at a drop of 1 bar, or of 1 psi; both are kept as a Kv.
func readLossKv(key string, limit field.Limit) func(*field.Reader, located.Value, *graph.Loss) {
	return func(r *field.Reader, v located.Value, l *graph.Loss) {
		c, _ := v.In(key)
		if q, ok := r.Quantity(c, limit); ok {
			l.Kv = q.Value
		}
	}
}

func lossKvText(l *graph.Loss) string {
	if l.Kv <= 0 {
		return ""
	}
	return "{ kv = " + field.ExactText(l.Kv, quantity.Kv) + " }"
}

// readLossPoint reads { flow = …, drop = … }.
func readLossPoint(r *field.Reader, v located.Value, what string) (graph.LossPoint, bool) {
	var p graph.LossPoint
	before := len(r.Found)
	if c, ok := v.In("flow"); ok {
		q, _ := r.Quantity(c, field.Flow)
		p.Flow = q.Value
	} else {
		r.Missing(v, what, "flow", `the flow at which the drop holds: flow = "10 m3/h"`)
	}
	if c, ok := v.In("drop"); ok {
		q, _ := r.Quantity(c, field.Drop)
		p.Drop = asDrop(q)
	} else {
		r.Missing(v, what, "drop", `the drop at that flow: drop = "6 kPa"`)
	}
	return p, len(r.Found) == before
}

func pointText(p *graph.LossPoint) string {
	return "{ flow = " + field.ExactText(p.Flow, quantity.Flow) + ", drop = " + field.DropText(p.Drop) + " }"
}

package pipework

import (
	"fmt"
	"slices"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/description/field"
	"dryfit/graph/description/located"
	"dryfit/graph/description/schema"
)

type lossForm struct {
	keys    []string // those that make the form come first, at most two
	example string
}

func (f *lossForm) main() []string { return f.keys[:min(2, len(f.keys))] }

// The exponent of a loss is from that of a bed of sand, which is linear, to a little over
// the square.
const (
	leastExponent = 1
	mostExponent  = 2.2
)

// lossForms are the forms in which a loss may be given, by the keys of each.
var lossForms = []lossForm{
	{[]string{"flow", "drop", "exponent"}, `{ flow = "10 m3/h", drop = "6 kPa" }`},
	{[]string{"points"}, `{ points = [["5 m3/h", "2 kPa"], ["10 m3/h", "7 kPa"]] }`},
	{[]string{"k", "bore"}, `{ k = 3.1, bore = "52.5 mm" }`},
	{[]string{"kv"}, `{ kv = "31 m3/h" }`},
	{[]string{"cv"}, `{ cv = "36 gpm" }`},
}

// lossField is a loss in one of its forms, or "none".
func lossField() field.Field[graph.Part] {
	return field.Field[graph.Part]{
		Key:   "loss",
		Shape: lossShape,
		Read: func(r *field.Reader, v located.Value, into *graph.Part) {
			if l := readLoss(r, v, into.Kind == graph.Tub); l != nil {
				into.Loss = l
			}
		},
		Write: func(from *graph.Part) string { return LossText(from.Loss) },
	}
}

// lossShape is a loss in one of lossForms, or "none".
func lossShape() schema.Shape {
	of := map[string]schema.Shape{"flow": schema.Quantity(), "drop": schema.Quantity(), "exponent": schema.Number(leastExponent, mostExponent),
		"points": curveShape(1), "k": schema.Number(0, field.MostK), "bore": schema.Quantity(), "kv": schema.Quantity(), "cv": schema.Quantity()}
	forms := []schema.Shape{schema.Word("none")}
	for _, f := range lossForms {
		var keys schema.Shape
		for _, k := range f.keys {
			keys = keys.With(k, field.KeyShape(of[k], "loss", k))
		}
		required := f.keys[:1]
		if f.keys[0] == "flow" {
			required = f.main()
		}
		forms = append(forms, schema.Table(keys, required))
	}
	return schema.Either(forms...)
}

// curveShape is a list of pairs.
func curveShape(least int) schema.Shape {
	return schema.List(schema.Exactly(schema.Quantity(), 2), least)
}

// readLoss reads a loss; nil where it has a mistake. A tub's may only be "none".
func readLoss(r *field.Reader, v located.Value, tub bool) *graph.Loss {
	l := &graph.Loss{Pos: r.KeyPos(v)}
	if s, ok := v.V.(string); ok {
		switch {
		case s == "none":
			l.None = true
			return l
		case r.Blank(v, lossForms[0].example):
		default:
			r.Fail(v, `write "none", or `+lossForms[0].example, "a loss can't be %s", located.Said(s))
		}
		return nil
	}
	if _, ok := v.V.(map[string]any); !ok {
		r.WrongType(v, "a table", lossForms[0].example)
		return nil
	}
	if tub {
		r.Fail(v, `loss = "none" leaves out the entrances and exits at its ports`, "a tub's loss can only be \"none\"")
		return nil
	}
	form := formOfLoss(r, v)
	if form < 0 {
		return nil
	}
	before := len(r.Found)
	switch form {
	case 0:
		if p, ok := readLossPoint(r, v, "a loss"); ok {
			l.Points = []graph.LossPoint{p}
		}
		if c, ok := v.In("exponent"); ok {
			l.Exponent, _ = r.Number(c, leastExponent, mostExponent)
		}
	case 1:
		c, _ := v.In("points")
		for _, p := range readCurve(r, c, field.Flow, field.Drop, 1) {
			l.Points = append(l.Points, graph.LossPoint{Flow: p.Flow, Drop: p.Head})
		}
	case 2:
		readLossK(r, v, l)
	default:
		for _, kv := range []struct {
			key string
			l   field.Limit
		}{{"kv", field.ValveKv}, {"cv", field.ValveCv}} {
			if c, ok := v.In(kv.key); ok {
				if q, ok := r.Quantity(c, kv.l); ok {
					l.Kv = q.Value
				}
			}
		}
	}
	if len(r.Found) > before {
		return nil
	}
	return l
}

// formOfLoss returns which form the loss is given in; -1 where it is none, or two at once.
func formOfLoss(r *field.Reader, v located.Value) int {
	form, all := -1, []string(nil)
	for i, f := range lossForms {
		all = append(all, f.keys...)
		for _, k := range f.keys {
			c, ok := v.In(k)
			switch {
			case !ok:
			case form >= 0 && form != i && k == "exponent":
				r.Add(r.KeyPos(c), exponentHint(lossForms[form].keys[0]), "an exponent goes with the drop at one flow; this loss is given by %s", lossForms[form].keys[0])
				return -1
			case form >= 0 && form != i && onlyExponent(v):
				c, _ = v.In("exponent")
				r.Add(r.KeyPos(c), exponentHint(f.keys[0]), "an exponent goes with the drop at one flow; this loss is given by %s", f.keys[0])
				return -1
			case form >= 0 && form != i:
				r.Add(r.KeyPos(c), "keep the form that is known best, such as "+lossForms[form].example,
					"a loss in two forms: %s and %s", strings.Join(lossForms[form].main(), " with "), strings.Join(f.main(), " with "))
				return -1
			default:
				form = i
			}
		}
	}
	before := len(r.Found)
	for _, k := range v.Keys() {
		if !slices.Contains(all, k) {
			c, _ := v.In(k)
			r.UnknownKey(c, "a loss", all)
		}
	}
	if form < 0 && len(r.Found) == before {
		r.Fail(v, "write "+lossForms[0].example, "this loss says nothing")
	}
	if len(r.Found) > before {
		return -1
	}
	return form
}

// onlyExponent reports whether of the keys of a drop at one flow there is the exponent alone.
func onlyExponent(v located.Value) bool {
	_, flow := v.In("flow")
	_, drop := v.In("drop")
	return !flow && !drop
}

// exponentHint says why a form of loss, by its first key, takes no exponent.
func exponentHint(key string) string {
	if key == "points" {
		return "leave exponent out: the points say the shape themselves; or give one of them as flow and drop and keep it"
	}
	return "leave exponent out: a " + key + " loses as the square of the flow; or write " + `{ flow = "10 m3/h", drop = "6 kPa", exponent = 1.6 }`
}

func readLossK(r *field.Reader, v located.Value, l *graph.Loss) {
	k, ok := v.In("k")
	if !ok {
		r.Fail(v, "write "+lossForms[2].example, "a loss with a bore has no k")
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

// asDrop keeps whether a drop was given as a pressure or a head.
func asDrop(q quantity.Quantity) graph.Drop {
	return graph.Drop{Value: q.Value, IsHead: q.Dimension == quantity.Head}
}

// readCurve reads a list of pairs, flow rising, of at least so many points.
func readCurve(r *field.Reader, v located.Value, x, y field.Limit, least int) []graph.CurvePoint {
	example := fmt.Sprintf(`[[%q, %q], …]`, x.Example(), y.Example())
	items, ok := v.Items()
	if !ok {
		if !r.Blank(v, "points: "+example) {
			r.WrongType(v, "a list of points", example)
		}
		return nil
	}
	var out []graph.CurvePoint
	for _, item := range items {
		pair, ok := item.Items()
		if !ok || len(pair) != 2 {
			r.Fail(item, "write "+example, "a point of %s is a flow and what belongs to it", located.Said(v.Key))
			continue
		}
		a, okA := r.Quantity(pair[0], x)
		b, okB := r.Quantity(pair[1], y)
		if !okA || !okB {
			continue
		}
		if n := len(out); n > 0 && a.Value <= out[n-1].Flow {
			r.Fail(pair[0], "write the points in the order of their flows, each once", "the flows of %s must rise: %s comes after a flow as large", located.Said(v.Key), a.Text)
			continue
		}
		out = append(out, graph.CurvePoint{Flow: a.Value, Head: asDrop(b)})
	}
	if len(items) < least {
		r.Fail(v, "write "+example, "%s has %s; it needs at least %d", located.Said(v.Key), Counted(len(items), "point"), least)
	}
	return out
}

// Counted says how many there are of something: "1 point", "2 points".
func Counted(n int, word string) string {
	if n == 1 {
		return "1 " + word
	}
	return fmt.Sprintf("%d %ss", n, word)
}

func curveText(points []graph.CurvePoint) string {
	var out []string
	for _, p := range points {
		out = append(out, "["+field.ExactText(p.Flow, quantity.Flow)+", "+field.DropText(p.Head)+"]")
	}
	return field.List(out)
}

// LossText writes a loss in the form it has; "" for none.
func LossText(l *graph.Loss) string {
	switch {
	case l == nil:
		return ""
	case l.None:
		return field.Quote("none")
	case len(l.Points) == 1:
		text := pointText(&l.Points[0])
		if l.Exponent != 0 {
			text = strings.TrimSuffix(text, " }") + ", exponent = " + quantity.Trim(l.Exponent) + " }"
		}
		return text
	case len(l.Points) > 1:
		var c []graph.CurvePoint
		for _, p := range l.Points {
			c = append(c, graph.CurvePoint{Flow: p.Flow, Head: p.Drop})
		}
		return "{ points = " + curveText(c) + " }"
	case l.HasK && l.BoreMM != 0:
		return "{ k = " + quantity.Trim(l.K) + ", bore = " + field.ExactText(l.BoreMM, quantity.Length) + " }"
	case l.HasK:
		return "{ k = " + quantity.Trim(l.K) + " }"
	}
	return "{ kv = " + field.ExactText(l.Kv, quantity.Kv) + " }"
}

func pointText(p *graph.LossPoint) string {
	return "{ flow = " + field.ExactText(p.Flow, quantity.Flow) + ", drop = " + field.DropText(p.Drop) + " }"
}

package pipework

import (
	"fmt"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/description/field"
	"dryfit/graph/description/located"
	"dryfit/graph/description/schema"
)

// curveShape is a list of pairs.
func curveShape(least int) schema.Shape {
	return schema.List(schema.Exactly(schema.Quantity(), 2), least)
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
		r.Fail(v, "write "+example, "%s has %s; it needs at least %d", located.Said(v.Key), quantity.Counted(len(items), "point"), least)
	}
	return out
}

func curveText(points []graph.CurvePoint) string {
	var out []string
	for _, p := range points {
		out = append(out, "["+field.ExactText(p.Flow, quantity.Flow)+", "+field.DropText(p.Head)+"]")
	}
	return field.List(out)
}

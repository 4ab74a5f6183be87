package pipework

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

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

// readCurve reads a list of pairs, flow rising, of at least so many points; falls where what belongs to a
// flow is less at a larger one, as of a pump's head.
func readCurve(r *field.Reader, v located.Value, x, y field.Limit, least int, falls bool) []graph.CurvePoint {
	example := fmt.Sprintf(`[[%q, %q], …]`, x.Example(), y.Example())
	items, ok := v.Items()
	if !ok {
		if !r.Blank(v, "points: "+example) {
			r.WrongType(v, "a list of points", example)
		}
		return nil
	}
	if crossed(r, v, items, x, y) {
		return nil
	}
	var out []graph.CurvePoint
	var points []curveItem // of out
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
		out = append(out, graph.CurvePoint{Flow: a.Value, Head: asDrop(b)})
		points = append(points, curveItem{pair[0], a.Text, b.Text})
	}
	out = risingFlows(r, v, out, points, falls)
	if len(items) < least {
		r.Fail(v, "write "+example, "%s has %s; it needs at least %d", located.Said(v.Key), quantity.Counted(len(items), "point"), least)
	}
	return out
}

// curveItem is a point of a curve as it was written.
type curveItem struct {
	at         located.Value
	flow, head string
}

// crossed reports a curve each of whose points is written the wrong way round, what belongs to the flow
// first: one mistake, told once.
func crossed(r *field.Reader, v located.Value, items []located.Value, x, y field.Limit) bool {
	var right []string
	for _, item := range items {
		pair, ok := item.Items()
		if !ok || len(pair) != 2 {
			return false
		}
		a, _ := pair[0].V.(string)
		b, _ := pair[1].V.(string)
		if x.Parses(a) || !x.Parses(b) || !y.Parses(a) {
			return false
		}
		right = append(right, "["+field.Quote(b)+", "+field.Quote(a)+"]")
	}
	if len(right) == 0 {
		return false
	}
	r.Fail(v, "write the flow first: "+firstOf(right), "the points of %s have their flow behind what belongs to it", located.Said(v.Key))
	return true
}

// firstOf is a list of points as it is written, its first few where it is long.
func firstOf(points []string) string {
	const enough = 4
	if len(points) > enough {
		return "[" + strings.Join(points[:enough], ", ") + ", …]"
	}
	return "[" + strings.Join(points, ", ") + "]"
}

// risingFlows finds the first flow that is no larger than the one before it, and returns what can be read as
// a curve all the same. A curve may be written from its other end, with its heads beside the wrong flows,
// or have one point that is mistyped.
func risingFlows(r *field.Reader, v located.Value, curve []graph.CurvePoint, points []curveItem, falling bool) []graph.CurvePoint {
	at, falls := 0, len(curve) > 1
	for i := len(curve) - 1; i > 0; i-- {
		if curve[i].Flow <= curve[i-1].Flow {
			at = i
		}
		falls = falls && curve[i].Flow < curve[i-1].Flow
	}
	if at == 0 {
		return curve
	}
	if falls && (len(curve) > 2 || curve[len(curve)-1].Flow == 0) { // no other unit makes more of no flow
		var back, beside []string
		for i := range points {
			p := points[len(points)-1-i]
			back = append(back, "["+field.Quote(p.flow)+", "+field.Quote(p.head)+"]")
			beside = append(beside, "["+field.Quote(p.flow)+", "+field.Quote(points[i].head)+"]")
		}
		hint := "write the points from the other end: " + firstOf(back)
		if falling && headsFall(curve) {
			hint = "flows and heads both fall, and a pump gives most head at no flow: are the heads beside the wrong flows? they would be " + firstOf(beside)
		}
		r.Fail(points[at].at, hint, "the flows of %s fall, from %s to %s", located.Said(v.Key), points[0].flow, points[len(points)-1].flow)
		return nil
	}
	if curve[at].Flow == curve[at-1].Flow {
		r.Fail(points[at].at, "leave one of the two out, or mend its flow", "the flow %s is there twice in %s", points[at].flow, located.Said(v.Key))
		return slices.Delete(slices.Clone(curve), at, at+1)
	}
	odd := oddFlow(curve)
	if odd < 0 {
		odd = at
	}
	r.Fail(points[odd].at, "write the points in the order of their flows, each once; is a unit wrong?",
		"the flows of %s must rise: %s comes before %s", located.Said(v.Key), points[at-1].flow, points[at].flow)
	return slices.Delete(slices.Clone(curve), odd, odd+1)
}

// oddFlow returns the one point without which the flows rise; -1 where none is, or more than one.
func oddFlow(curve []graph.CurvePoint) int {
	odd := -1
	for i := range curve {
		rest := slices.Delete(slices.Clone(curve), i, i+1)
		if slices.IsSortedFunc(rest, func(a, b graph.CurvePoint) int { return cmp.Compare(a.Flow, b.Flow) }) {
			if odd >= 0 {
				return -1
			}
			odd = i
		}
	}
	return odd
}

// headsFall reports whether the heads fall from each point to the next, in the same measure.
func headsFall(curve []graph.CurvePoint) bool {
	for i := 1; i < len(curve); i++ {
		if curve[i].Head.IsHead != curve[0].Head.IsHead || curve[i].Head.Value >= curve[i-1].Head.Value {
			return false
		}
	}
	return true
}

func curveText(points []graph.CurvePoint) string {
	var out []string
	for _, p := range points {
		out = append(out, "["+field.ExactText(p.Flow, quantity.Flow)+", "+field.DropText(p.Head)+"]")
	}
	return field.List(out)
}

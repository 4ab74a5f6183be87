package takeoff

import (
	"fmt"
	"slices"
	"strings"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/settle"
)

// words turns a kind or style into words: "elbow-90" is "elbow 90".
func words(kind string) string { return strings.ReplaceAll(kind, "-", " ") }

// sizes writes the size of a part with two: "2 x 1-1/2 in", "1-1/2 in x 50 mm".
func sizes(a, b catalog.Size) string {
	switch {
	case b.IsZero() || a == b:
		return a.String()
	case a.IsZero():
		return b.String()
	case a.Metric != b.Metric:
		return a.String() + " x " + b.String()
	}
	first, _, _ := strings.Cut(a.String(), " in")
	first, _, _ = strings.Cut(first, " mm")
	return first + " x " + b.String()
}

// endsOf says what the ends of a part are, and of which series: "socket, inch",
// "spigot/socket, metric", "socket, inch and metric".
func endsOf(row *catalog.Row, spec catalog.Spec, size catalog.Size) string {
	if row.Ends == "" {
		return ""
	}
	first, second, two := strings.Cut(row.Ends, "/")
	ends := row.Ends
	if two && first == second {
		ends = first
	}
	series := seriesOf(spec, size)
	if !row.Size2.IsZero() && row.Size.Metric != row.Size2.Metric {
		series = "inch and metric"
	}
	if series == "" {
		return ends
	}
	return ends + ", " + series
}

func seriesOf(spec catalog.Spec, size catalog.Size) string {
	switch {
	case size.IsZero() && spec == "":
		return ""
	case size.Metric || size.IsZero() && spec.Family() == catalog.Metric:
		return "metric"
	}
	return "inch"
}

// fittingName is a fitting as one asks for it: "elbow 90, socket, inch, 1-1/2 in, pvc-sch40".
func fittingName(kind, style, ends, size string, spec catalog.Spec) string {
	if style != "" {
		kind = style
	}
	return join(words(kind), ends, size, string(spec))
}

func join(fields ...string) string {
	var out []string
	for _, f := range fields {
		if f != "" && !slices.Contains(out, f) { // hose is named once
			out = append(out, f)
		}
	}
	return strings.Join(out, ", ")
}

// partName is a part as one asks for it.
func (b *biller) partName(fit *settle.Part, size, ends string) string {
	p := fit.Part
	what := p.Kind.Word()
	if fit.Row.V.Style != "" && p.Kind != graph.Pump { // of a pump that is what it is for: "pool"
		what = words(fit.Row.V.Style)
	}
	switch {
	case p.Kind == graph.CheckValve:
		what = b.say(checkName(fit))
	case p.Kind == graph.Filter && p.Filter != nil && p.Filter.Media != "":
		what = p.Filter.Media + " filter"
	case p.Kind == graph.JetGroup && p.Jets != nil && p.Jets.Count > 0:
		what = fmt.Sprintf("jet group of %d", p.Jets.Count)
	case fit.Reducing():
		what = "reducing tee"
	case p.Type != "" && (fit.Row.V.Style == "" || p.Kind == graph.Pump) && (fit.Row.V.Own || p.Kind != graph.Tee && !settle.InLine(p.Kind)):
		what += " (" + p.Type + ")" // a fitting of the catalogue is told whole by its kind, size and spec
	}
	switch {
	case p.Kind == graph.HeatPump && size != "":
		return join(what, "ports "+size)
	case isEquipment(p.Kind) && p.Size.IsZero():
		return join(what, ends) // it has no size of its own
	}
	if ends == what+", "+seriesOf(fit.Spec.V, fit.Size.V) { // "union, union, inch"
		ends = seriesOf(fit.Spec.V, fit.Size.V)
	}
	return join(what, ends, size, string(fit.Spec.V))
}

// checkName says which spring: "spring check, opens at 2 psi".
func checkName(p *settle.Part) quantity.Text {
	opens := quantity.Pressure.Of(p.Cracking.V)
	switch {
	case p.IsSwing():
		return "swing check"
	case p.Type != "" && p.Cracking.V > 0:
		return quantity.Say("spring check, opens at %s (%s)", opens, p.Type)
	case p.Cracking.How == settle.Given || p.Cracking.V > 0 && p.Cracking.How != settle.Assumed:
		return quantity.Say("spring check, opens at %s", opens)
	}
	return "spring check"
}

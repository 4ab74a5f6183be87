package description

import (
	"strings"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
)

// rowField is one key of [[catalog.KIND]] as it is written; the catalogue reads them.
type rowField struct {
	key   string
	write func(r *catalog.Row) string
}

// rowFields are the keys of a row, by the names the catalogue knows them.
var rowFields = []rowField{
	rowText("name", func(r *catalog.Row) string { return r.Name }),
	rowText("style", func(r *catalog.Row) string { return r.Style }),
	rowText("spec", func(r *catalog.Row) string { return string(r.Spec) }),
	{"size", func(r *catalog.Row) string { return sizeText(r.Size) }},
	rowText("spec2", func(r *catalog.Row) string { return string(r.Spec2) }),
	{"size2", func(r *catalog.Row) string { return sizeText(r.Size2) }},
	rowAmount("outside", quantity.Length, func(r *catalog.Row) float64 { return r.OutsideMM }),
	rowAmount("wall", quantity.Length, func(r *catalog.Row) float64 { return r.WallMM }),
	rowAmount("bore", quantity.Length, func(r *catalog.Row) float64 { return r.BoreMM }),
	rowAmount("bore-least-wall", quantity.Length, func(r *catalog.Row) float64 { return r.BoreMinWallMM }),
	rowAmount("roughness", quantity.Length, func(r *catalog.Row) float64 { return r.RoughnessMM }),
	rowAmount("take-off", quantity.Length, func(r *catalog.Row) float64 { return r.TakeOffMM }),
	rowAmount("branch-take-off", quantity.Length, func(r *catalog.Row) float64 { return r.BranchTakeOffMM }),
	rowAmount("length", quantity.Length, func(r *catalog.Row) float64 { return r.LengthMM }),
	rowAmount("socket", quantity.Length, func(r *catalog.Row) float64 { return r.SocketMM }),
	rowAmount("overall", quantity.Length, func(r *catalog.Row) float64 { return r.OverallMM }),
	rowAmount("tol-minus", quantity.Length, func(r *catalog.Row) float64 { return r.TolMinusMM }),
	rowAmount("tol-plus", quantity.Length, func(r *catalog.Row) float64 { return r.TolPlusMM }),
	rowTruth("measure", func(r *catalog.Row) bool { return r.Measure }),
	rowText("ends", func(r *catalog.Row) string { return r.Ends }),
	rowNumber("l-over-d", func(r *catalog.Row) float64 { return r.LoverD }),
	rowNumber("l-over-d-branch", func(r *catalog.Row) float64 { return r.LoverDBranch }),
	rowNumber("k", func(r *catalog.Row) float64 { return r.K }),
	rowNumber("k-low", func(r *catalog.Row) float64 { return r.KLow }),
	rowNumber("k-high", func(r *catalog.Row) float64 { return r.KHigh }),
	rowAmount("kv", quantity.Kv, func(r *catalog.Row) float64 { return r.Kv }),
	rowAmount("loss-flow", quantity.Flow, func(r *catalog.Row) float64 { return r.LossFlow }),
	rowAmount("loss-drop", quantity.Pressure, func(r *catalog.Row) float64 { return r.LossDropPa }),
	rowAmount("loss-low", quantity.Pressure, func(r *catalog.Row) float64 { return r.LossLowPa }),
	rowAmount("loss-high", quantity.Pressure, func(r *catalog.Row) float64 { return r.LossHighPa }),
	rowNumber("exponent", func(r *catalog.Row) float64 { return r.Exponent }),
	rowText("sized", func(r *catalog.Row) string { return r.Sized }),
	rowNumber("head-share", func(r *catalog.Row) float64 { return r.HeadShare }),
	rowNumber("head-share-low", func(r *catalog.Row) float64 { return r.HeadShareLow }),
	rowNumber("head-share-high", func(r *catalog.Row) float64 { return r.HeadShareHigh }),
	rowAmount("cracking", quantity.Pressure, func(r *catalog.Row) float64 { return r.CrackingPa }),
	rowAmount("cracking-low", quantity.Pressure, func(r *catalog.Row) float64 { return r.CrackingLowPa }),
	rowAmount("cracking-high", quantity.Pressure, func(r *catalog.Row) float64 { return r.CrackingHighPa }),
	{"opening", func(r *catalog.Row) string { return rowPairs(r.Opening, percent, percent) }},
	rowAmount("rating", quantity.Pressure, func(r *catalog.Row) float64 { return r.RatingPa }),
	{"curve", func(r *catalog.Row) string { return rowCurve(r.Curve) }},
	{"speeds", rowSpeeds},
	rowAmount("least", quantity.Flow, func(r *catalog.Row) float64 { return r.Least }),
	rowAmount("rated", quantity.Flow, func(r *catalog.Row) float64 { return r.Rated }),
	rowAmount("most", quantity.Flow, func(r *catalog.Row) float64 { return r.Most }),
	rowAmount("power", quantity.Power, func(r *catalog.Row) float64 { return r.PowerW }),
	rowNumber("dirty-factor", func(r *catalog.Row) float64 { return r.DirtyFactor }),
	rowNumber("clips", func(r *catalog.Row) float64 { return r.Clips }),
	rowNumber("ways", func(r *catalog.Row) float64 { return float64(r.Ways) }),
	rowTruth("default", func(r *catalog.Row) bool { return r.Default }),
	rowNumber("spread", func(r *catalog.Row) float64 { return r.SpreadPct }),
	{"stock", func(r *catalog.Row) string {
		var out []string
		for _, mm := range r.StockMM {
			out = append(out, exactText(mm, quantity.Length))
		}
		return list(out)
	}},
	rowText("source", func(r *catalog.Row) string { return r.Source }),
	rowText("tag", func(r *catalog.Row) string { return r.Tag }),
	rowText("note", func(r *catalog.Row) string { return r.Note }),
}

func rowText(key string, of func(*catalog.Row) string) rowField {
	return rowField{key, func(r *catalog.Row) string {
		if s := of(r); s != "" {
			return quote(s)
		}
		return ""
	}}
}

func rowAmount(key string, d quantity.Dimension, of func(*catalog.Row) float64) rowField {
	return rowField{key, func(r *catalog.Row) string {
		if x := of(r); x != 0 {
			return exactText(x, d)
		}
		return ""
	}}
}

func rowNumber(key string, of func(*catalog.Row) float64) rowField {
	return rowField{key, func(r *catalog.Row) string {
		if x := of(r); x != 0 {
			return quantity.Trim(x)
		}
		return ""
	}}
}

func rowTruth(key string, of func(*catalog.Row) bool) rowField {
	return rowField{key, func(r *catalog.Row) string {
		if of(r) {
			return "true"
		}
		return ""
	}}
}

func rowPairs(pairs [][2]float64, first, second func(float64) string) string {
	var out []string
	for _, p := range pairs {
		out = append(out, "["+first(p[0])+", "+second(p[1])+"]")
	}
	return list(out)
}

func rowCurve(points [][2]float64) string {
	return rowPairs(points,
		func(q float64) string { return exactText(q, quantity.Flow) },
		func(h float64) string { return exactText(h, quantity.Head) })
}

func rowSpeeds(r *catalog.Row) string {
	var out []string
	for _, s := range r.Speeds {
		one := "{ name = " + quote(s.Name)
		if s.PowerW != 0 {
			one += ", power = " + exactText(s.PowerW, quantity.Power)
		}
		if s.Ratio != 0 {
			out = append(out, one+", ratio = "+quantity.Trim(s.Ratio)+" }")
			continue
		}
		out = append(out, one+", curve = "+rowCurve(s.Curve)+" }")
	}
	return list(out)
}

// writeRows writes the user's own rows, so that the description stands alone.
func writeRows(b *strings.Builder, c *catalog.Catalog) {
	if c == nil {
		return
	}
	for _, row := range c.Rows() {
		if !row.Own {
			continue
		}
		b.WriteString("\n[[catalog." + key(row.Kind) + "]]\n")
		for _, f := range rowFields {
			if s := f.write(&row); s != "" {
				b.WriteString(f.key + " = " + s + "\n")
			}
		}
	}
}

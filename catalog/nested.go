package catalog

import (
	"errors"
	"fmt"
	"maps"
	"slices"

	"dryfit/catalog/quantity"
)

// lossColumns are the keys of a loss.
var lossColumns = []column{
	amountOf("flow", func(r *Row) *float64 { return &r.LossFlow }, quantity.Flow),
	pressureOf("drop", headDrop, func(r *Row) *float64 { return &r.LossDropPa }),
	pressureOf("low", headDropLow, func(r *Row) *float64 { return &r.LossLowPa }),
	pressureOf("high", headDropHigh, func(r *Row) *float64 { return &r.LossHighPa }),
	numberOf("exponent", func(r *Row) *float64 { return &r.Exponent }),
	numberOf("k", func(r *Row) *float64 { return &r.K }),
	lengthOf("bore", func(r *Row) *float64 { return &r.BoreMM }),
	amountOf("kv", func(r *Row) *float64 { return &r.Kv }, quantity.Kv),
	amountOf("cv", func(r *Row) *float64 { return &r.Kv }, quantity.Cv),
}

// speedKeys are the keys of a speed of a pump, ratingKeys those of a point of a unit's table.
var (
	speedKeys  = []string{"name", "power", "curve", "ratio"}
	ratingKeys = []string{"air", "water", "output", "input"}
)

// NestedKeys returns the keys of the tables that a key of a row holds; nil for one that holds none.
func NestedKeys(column string) []string {
	switch column {
	case "speeds":
		return slices.Clone(speedKeys)
	case "ratings":
		return slices.Clone(ratingKeys)
	case "loss":
		var names []string
		for _, c := range lossColumns {
			names = append(names, c.name)
		}
		return names
	}
	return nil
}

// setLoss reads a loss in the forms of a description: one point of a sheet, a coefficient,
// or a Kv or Cv.
func setLoss(r *Row, v any) error {
	t, ok := v.(map[string]any)
	if !ok {
		return errors.New(`write a table such as { flow = "10 m3/h", drop = "6 kPa" }`)
	}
	for _, key := range slices.Sorted(maps.Keys(t)) {
		i := slices.IndexFunc(lossColumns, func(c column) bool { return c.name == key })
		if i < 0 {
			return unknown("key of a loss", key, NestedKeys("loss"))
		}
		if err := lossColumns[i].set(r, t[key]); err != nil {
			return fmt.Errorf("%s: %w", key, err)
		}
	}
	if (t["flow"] == nil) != (t["drop"] == nil) {
		return errors.New("a point of a data sheet needs both flow and drop")
	}
	return nil
}

// curveColumn is the curve of a pump of one speed.
var curveColumn = column{name: "curve", form: points, set: func(r *Row, v any) (err error) {
	r.Curve, r.Pressed, err = curve(v)
	return err
}, get: func(r *Row) any { return pairsOf(r.Curve, quantity.Flow, quantity.Head) },
	fill: func(r, below *Row) { r.Curve, r.Pressed = below.Curve, below.Pressed }}

// speedsColumn is the speeds of a pump that has several.
var speedsColumn = column{name: "speeds", form: table, set: setSpeeds, get: func(r *Row) any {
	if len(r.Speeds) == 0 {
		return nil
	}
	var out []any
	for i := range r.Speeds {
		out = append(out, r.Speeds[i].table())
	}
	return out
}, fill: filling(func(r *Row) *[]SpeedRow { return &r.Speeds })}

// table says a speed again.
func (s *SpeedRow) table() Table {
	t := Table{{"name", s.Name}}
	if s.PowerW != 0 {
		t = append(t, Table{{"power", quantity.Exact(s.PowerW, quantity.Power)}}...)
	}
	if s.Ratio != 0 {
		return append(t, Table{{"ratio", s.Ratio}}...)
	}
	return append(t, Table{{"curve", pairsOf(s.Curve, quantity.Flow, quantity.Head)}}...)
}

// setSpeeds reads the speeds of a pump. A ratio makes the curve from that of the first speed
// that has one, by the affinity laws: flow as the speed, head as its square.
func setSpeeds(r *Row, v any) error {
	r.Speeds = nil
	list := tables(v)
	if len(list) == 0 {
		return errors.New("write at least one table with a name and a curve")
	}
	ratios := make([]float64, len(list))
	var base [][2]float64
	var pressed []int
	for i, item := range list {
		s, ratio, err := speed(item)
		if err != nil {
			return fmt.Errorf("speed %d: %w", i+1, err)
		}
		if base == nil {
			base, pressed = s.Curve, s.Pressed
		}
		ratios[i] = ratio
		r.Speeds = append(r.Speeds, s)
	}
	for i, ratio := range ratios {
		if ratio == 0 {
			continue
		}
		if base == nil {
			return errors.New("no speed has a curve")
		}
		r.Speeds[i].Ratio, r.Speeds[i].Pressed = ratio, pressed
		for _, p := range base {
			r.Speeds[i].Curve = append(r.Speeds[i].Curve, [2]float64{ratio * p[0], ratio * ratio * p[1]})
		}
	}
	return nil
}

// speed reads one speed; ratio is 0 where it has its own curve.
func speed(t map[string]any) (s SpeedRow, ratio float64, err error) {
	for _, key := range slices.Sorted(maps.Keys(t)) {
		switch key {
		case "name":
			s.Name, _ = t[key].(string)
		case "power":
			var q quantity.Quantity
			q, err = amountIn(t[key], quantity.Power)
			s.PowerW = Draws(q)
		case "curve":
			s.Curve, s.Pressed, err = curve(t[key])
		case "ratio":
			ratio, err = bare(t[key])
		default:
			err = unknown("key of a speed", key, speedKeys)
		}
		if err != nil {
			return s, 0, err
		}
	}
	switch {
	case s.Name == "" || len(s.Name) > longestWords:
		return s, 0, errors.New("it has no name, or an overlong one")
	case (t["curve"] != nil) == (t["ratio"] != nil):
		return s, 0, errors.New("it needs a curve, or a ratio of another speed's")
	case t["curve"] != nil && len(s.Curve) < 2:
		return s, 0, errors.New("its curve has fewer than two points")
	case t["ratio"] != nil && (ratio <= 0 || ratio > 2):
		return s, 0, errors.New("a ratio is above 0 and at most 2")
	}
	return s, ratio, nil
}

// tables returns the tables of an array, however TOML decoded it; nil for anything else.
func tables(v any) []map[string]any {
	switch v := v.(type) {
	case map[string]any:
		return []map[string]any{v}
	case []map[string]any:
		return v
	case []any:
		var out []map[string]any
		for _, item := range v {
			t, ok := item.(map[string]any)
			if !ok {
				return nil
			}
			out = append(out, t)
		}
		return out
	}
	return nil
}

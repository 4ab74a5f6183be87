package catalog

import (
	"errors"
	"fmt"

	"dryfit/catalog/quantity"
)

// temperature reads a temperature, which may be below zero.
func temperature(v any) (float64, error) {
	s, err := textOf(v, quantity.Temperature)
	if err != nil {
		return 0, err
	}
	q, err := quantity.Parse(s, quantity.Temperature)
	return q.Value, err
}

// temperatureOf is a temperature of which zero is a value.
func temperatureOf(name string, field func(*Row) **float64) column {
	return column{name: name, form: amount, dim: quantity.Temperature, set: func(r *Row, v any) error {
		t, err := temperature(v)
		if err == nil {
			*field(r) = &t
		}
		return err
	}, get: func(r *Row) any {
		if t := *field(r); t != nil {
			return quantity.Exact(*t, quantity.Temperature)
		}
		return nil
	}, num: func(r *Row) float64 {
		if t := *field(r); t != nil {
			return *t
		}
		return 0
	}, fill: filling(field)}
}

// ratingsColumn is what a heat pump gives.
var ratingsColumn = column{name: "ratings", form: points, set: setRatings, get: func(r *Row) any {
	if len(r.Ratings) == 0 {
		return nil
	}
	var out []any
	for _, x := range r.Ratings {
		out = append(out, []any{quantity.Exact(x.AirC, quantity.Temperature), quantity.Exact(x.WaterC, quantity.Temperature),
			quantity.Exact(x.OutputW, quantity.Power), quantity.Exact(x.InputW, quantity.Power)})
	}
	return out
}, fill: filling(func(r *Row) *[]RatingRow { return &r.Ratings })}

// ratingOf is a point of a heat pump's table as four values in a row, or as a table that names them, as
// on a part.
func ratingOf(item any) (four []any, ok bool) {
	if named, is := item.(map[string]any); is {
		for _, key := range ratingKeys {
			v, said := named[key]
			if !said {
				return nil, false
			}
			four = append(four, v)
		}
		return four, len(named) == len(four)
	}
	four, ok = item.([]any)
	return four, ok
}

// setRatings reads what a heat pump gives: air, water, output and input, a list or a table for each point.
func setRatings(r *Row, v any) error {
	r.Ratings = nil
	items, ok := v.([]any)
	if !ok || len(items) == 0 {
		return errors.New(`write lists such as ["7 °C", "38 °C", "5.8 kW", "1.9 kW"]: air, water, output, input`)
	}
	for i, item := range items {
		four, ok := ratingOf(item)
		if !ok || len(four) != 4 {
			return fmt.Errorf("rating %d: write air, water, output and input", i+1)
		}
		var one RatingRow
		var err error
		for k, to := range []*float64{&one.AirC, &one.WaterC, &one.OutputW, &one.InputW} {
			if k < 2 {
				*to, err = temperature(four[k])
			} else {
				var q quantity.Quantity
				q, err = amountIn(four[k], quantity.Power)
				*to = q.Value
			}
			if err != nil {
				return fmt.Errorf("rating %d: %w", i+1, err)
			}
		}
		if one.OutputW <= 0 || one.InputW <= 0 {
			return fmt.Errorf("rating %d: output and input are above 0", i+1)
		}
		r.Ratings = append(r.Ratings, one)
	}
	return nil
}

package catalog

import (
	"errors"
	"fmt"
	"math"

	"dryfit/catalog/quantity"
)

// conventionalHead is the pressure of one metre of water, Pa, where a rating or a drop is
// given as a head and nobody says of what water (see Catalog.InWater): 1000 kg/m³ by standard
// gravity. Source: NIST SP 811 appendix B, conventional metre of water.
const conventionalHead = 9806.65

// textOf returns the text of a quantity; a bare number is an error that names the units.
func textOf(v any, want ...quantity.Dimension) (string, error) {
	switch v := v.(type) {
	case string:
		return v, nil
	case int64:
		_, err := quantity.Parse(fmt.Sprint(v), want...)
		return "", err
	case float64:
		_, err := quantity.Parse(quantity.Trim(v), want...)
		return "", err
	}
	return "", fmt.Errorf("write the %s as a text with a unit, such as %q", want[0], want[0].Example())
}

// amountIn reads a quantity that may not be negative.
func amountIn(v any, want ...quantity.Dimension) (quantity.Quantity, error) {
	s, err := textOf(v, want...)
	if err != nil {
		return quantity.Quantity{}, err
	}
	q, err := quantity.Parse(s, want...)
	if err == nil && q.Value < 0 {
		err = fmt.Errorf("%q is negative", s)
	}
	return q, err
}

// pressure reads a pressure; head tells that it was given as a head of water.
func pressure(v any) (pa float64, head bool, err error) {
	q, err := amountIn(v, quantity.Pressure, quantity.Head)
	if err != nil {
		return 0, false, err
	}
	if q.Dimension == quantity.Head {
		return q.Value * conventionalHead, true, nil
	}
	return q.Value, false, nil
}

// mostNumber is the largest bare number a row may hold.
const mostNumber = 1e6

// bare reads a number without unit that may not be negative.
func bare(v any) (float64, error) {
	var n float64
	switch v := v.(type) {
	case int64:
		n = float64(v)
	case float64:
		n = v
	default:
		return 0, errors.New("write a bare number, without quotes or unit")
	}
	switch {
	case math.IsNaN(n) || math.IsInf(n, 0) || n > mostNumber:
		return 0, errors.New("the number is beyond all measure")
	case n < 0:
		return 0, fmt.Errorf("%s is negative", quantity.Trim(n))
	}
	return n, nil
}

// mostPoints is how many points a curve or list in a row may have.
const mostPoints = 200

func list(v any) ([]any, error) {
	l, ok := v.([]any)
	if !ok {
		return nil, errors.New("write a list in square brackets")
	}
	if len(l) > mostPoints {
		return nil, fmt.Errorf("the list has %d entries; at most %d are read", len(l), mostPoints)
	}
	return l, nil
}

// pairs reads a list of pairs of values.
func pairs(v any, example string, first, second func(any) (float64, error)) ([][2]float64, error) {
	l, err := list(v)
	if err != nil {
		return nil, err
	}
	var out [][2]float64
	for _, item := range l {
		two, ok := item.([]any)
		if !ok || len(two) != 2 {
			return nil, errors.New("write pairs such as " + example)
		}
		var p [2]float64
		if p[0], err = first(two[0]); err != nil {
			return nil, err
		}
		if p[1], err = second(two[1]); err != nil {
			return nil, err
		}
		if n := len(out); n > 0 && p[0] <= out[n-1][0] {
			return nil, fmt.Errorf("the first values of the pairs must rise: %v does not", two[0])
		}
		out = append(out, p)
	}
	return out, nil
}

// curve reads the points of a pump's curve: flow in m³/s and head in m. A pressure counts
// as a head at 9806.65 Pa a metre until it is known of what water; pressed are the points
// given so.
func curve(v any) (points [][2]float64, pressed []int, err error) {
	at := 0
	points, err = pairs(v, `["8 m3/h", "2.8 m"]`, flow, func(v any) (float64, error) {
		q, err := amountIn(v, quantity.Head, quantity.Pressure)
		if at++; q.Dimension == quantity.Pressure {
			pressed = append(pressed, at-1)
			return q.Value / conventionalHead, err
		}
		return q.Value, err
	})
	return points, pressed, err
}

func flow(v any) (float64, error) {
	q, err := amountIn(v, quantity.Flow)
	return q.Value, err
}

func share(v any) (float64, error) {
	q, err := amountIn(v, quantity.Share)
	if err == nil && q.Value > 1 {
		err = fmt.Errorf("%q is more than all", q.Text)
	}
	return q.Value, err
}

// openingOf reads how much of the full-open Kv a hand valve has at each share it is open.
func openingOf(name string, field func(*Row) *[][2]float64) column {
	return column{name: name, form: points, set: func(r *Row, v any) (err error) {
		*field(r), err = pairs(v, `["50 %", "20 %"]`, share, share)
		return err
	}, get: func(r *Row) any { return pairsOf(*field(r), quantity.Share, quantity.Share) }, fill: filling(field)}
}

// pairsOf says pairs again as a list of lists of texts; nil where there are none.
func pairsOf(points [][2]float64, first, second quantity.Dimension) any {
	if len(points) == 0 {
		return nil
	}
	out := make([]any, len(points))
	for i, p := range points {
		out[i] = []any{quantity.Exact(p[0], first), quantity.Exact(p[1], second)}
	}
	return out
}

// lengthsOf reads the lengths pipe is sold in.
func lengthsOf(name string, field func(*Row) *[]float64) column {
	return column{name: name, form: points, set: func(r *Row, v any) error {
		l, err := list(v)
		if err != nil {
			return err
		}
		*field(r) = nil
		for _, item := range l {
			q, err := amountIn(item, quantity.Length)
			if err != nil {
				return err
			}
			if q.Value == 0 {
				return fmt.Errorf("%q is no length of pipe", q.Text)
			}
			*field(r) = append(*field(r), q.Value)
		}
		return nil
	}, get: func(r *Row) any {
		if len(*field(r)) == 0 {
			return nil
		}
		var out []any
		for _, mm := range *field(r) {
			out = append(out, quantity.Exact(mm, quantity.Length))
		}
		return out
	}, fill: filling(field)}
}

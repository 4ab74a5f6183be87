package takeoff

import (
	"slices"

	"dryfit/graph"
)

// price puts prices and the merchant's codes to the new work: by a part's id before the name
// of its row, before the item's name, before its kind. Pipe keeps the price of its stock. A
// line of several parts of which some have a price of their own is divided.
func (b *biller) price() {
	var out []line
	for _, l := range b.lines {
		out = append(out, b.divide(l)...)
	}
	b.lines = out
	for i := range b.lines {
		l := &b.lines[i]
		if !l.New || l.Price != "" {
			continue
		}
		if p := b.priceOf(l); p != nil {
			l.Price, l.Code = p.Price, p.Code
		}
	}
}

// divide takes the parts out of a line that have a price of their own.
func (b *biller) divide(l line) []line {
	var out []line
	rest := l
	rest.ids, rest.Where = nil, slices.Clone(l.Where)
	for _, id := range l.ids {
		if p := b.priced(id); p != nil && l.New && l.Quantity > 1 {
			one := l
			one.ids, one.Where, one.Quantity, one.Spare = []string{id}, places(id), 1, 0
			one.Price, one.Code = p.Price, p.Code
			out = append(out, one)
			rest.Quantity--
			rest.Where = slices.DeleteFunc(rest.Where, func(where Place) bool { return where == Place{At: id} })
			continue
		}
		rest.ids = append(rest.ids, id)
	}
	switch {
	case len(out) == 0:
		return []line{l}
	case rest.Quantity > 0:
		out = append(out, rest)
	default:
		out[0].Spare = l.Spare
	}
	return out
}

// priced returns the last price for an item, or nil.
func (b *biller) priced(item string) *graph.Price {
	for i := len(b.c.Prices) - 1; i >= 0; i-- {
		if p := &b.c.Prices[i]; p.Item == item && item != "" {
			return p
		}
	}
	return nil
}

func (b *biller) priceOf(l *line) *graph.Price {
	for _, id := range l.ids {
		if p := b.priced(id); p != nil {
			return p
		}
	}
	for _, name := range []string{l.row, l.Name, l.Kind} {
		if p := b.priced(name); p != nil {
			return p
		}
	}
	return nil
}

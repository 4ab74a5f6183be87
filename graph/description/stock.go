package description

import (
	"slices"
	"strconv"
	"strings"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/description/field"
	"dryfit/graph/description/located"
	"dryfit/graph/description/schema"
)

// stockFields are the keys of [[stock]].
var stockFields = []field.Field[graph.Stock]{
	field.Needed(field.Spec("spec", func(s *graph.Stock) *catalog.Spec { return &s.Spec }), `its spec, such as spec = "pvc-sch40"`),
	field.Needed(field.Size("size", func(s *graph.Stock) *catalog.Size { return &s.Size }), `its size, such as size = "2 in"`),
	field.Needed(field.Qty("length", field.StockLength, func(s *graph.Stock) *float64 { return &s.LengthMM }), `how long a bar is, such as length = "3 m"`),
	priceField("price", func(s *graph.Stock) *string { return &s.Price }),
	field.Count("count", 1, field.MostBars, func(s *graph.Stock) *int { return &s.Count }),
	field.Bool("offcut", func(s *graph.Stock) *bool { return &s.Offcut }),
}

func readStock(r *field.Reader, v located.Value) {
	s := graph.Stock{Pos: r.KeyPos(v)}
	field.ReadTable(r, v, "[[stock]]", stockFields, &s)
	r.SizeInCatalog(v, s.Spec, s.Size)
	r.Circuit.Stock = append(r.Circuit.Stock, s)
}

// priceField is an amount of money as decimal text.
func priceField[T any](name string, at func(*T) *string) field.Field[T] {
	return field.Field[T]{
		Key:   name,
		Shape: priceShape,
		Read: func(r *field.Reader, v located.Value, into *T) {
			if s, ok := readPrice(r, v); ok {
				*at(into) = s
			}
		},
		Write: func(from *T) string {
			if s := *at(from); s != "" {
				return field.Quote(s)
			}
			return ""
		},
	}
}

// priceShape is decimal text.
func priceShape() schema.Shape { return schema.Matching(`^[0-9]+(\.[0-9]+)?$`) }

// readPrice reads decimal text such as "14.20".
func readPrice(r *field.Reader, v located.Value) (string, bool) {
	const write = `the amount in quotes, with a point and without the currency: "14.20"`
	switch x := v.V.(type) {
	case string:
		switch {
		case r.Blank(v, write):
			return "", false
		case decimal(x):
			return x, true
		case len(x) > 0 && x[0] == '-' && decimal(x[1:]):
			r.Fail(v, "write it without the minus", "a price can't be negative: %s", located.Said(x))
		case decimal(strings.Replace(x, ",", ".", 1)):
			r.Fail(v, "write "+field.Quote(strings.Replace(x, ",", ".", 1)), "%s has a decimal comma", located.Said(x))
		default:
			r.Fail(v, "write "+write, "%s is no amount of money", located.Said(x))
		}
		return "", false
	case int64:
		r.Fail(v, "write "+write, "%s is a bare number", located.Said(v.Key))
	case float64:
		r.Fail(v, "write it in quotes, so that it stays exact: "+field.Quote(money(x)), "%s is a bare number", located.Said(v.Key))
	default:
		r.WrongType(v, "an amount of money in quotes", write)
	}
	return "", false
}

// money writes a bare number as an amount, with two decimals where it needs no more.
func money(x float64) string {
	if quantity.Round(x, 2) == x {
		return strconv.FormatFloat(x, 'f', 2, 64)
	}
	return quantity.Trim(x)
}

// decimal reports whether the text is digits, with a point and digits after it or without.
func decimal(s string) bool {
	const longest = 15
	digits, points := 0, 0
	for i, c := range s {
		switch {
		case c >= '0' && c <= '9':
			digits++
		case c == '.' && points == 0 && i > 0 && i < len(s)-1:
			points++
		default:
			return false
		}
	}
	return digits > 0 && digits <= longest
}

// priceFields are the keys of an entry of [prices] written as a table.
var priceFields = []field.Field[graph.Price]{
	field.Needed(priceField("price", func(p *graph.Price) *string { return &p.Price }), `price = "14.20"`),
	field.Text("code", `the merchant's code`, func(p *graph.Price) *string { return &p.Code }),
}

// offerFields are the keys of [prices] that price no part but the whole.
var offerFields = []field.Field[graph.Offer]{
	field.Amount("margin", field.Share, func(o *graph.Offer) *graph.Amount { return &o.Margin }),
	field.Amount("tax", field.Share, func(o *graph.Offer) *graph.Amount { return &o.Tax }),
}

func readPrices(r *field.Reader, v located.Value) {
	for _, item := range v.Keys() {
		c, _ := v.In(item)
		if i := slices.IndexFunc(offerFields, func(f field.Field[graph.Offer]) bool { return f.Key == item }); i >= 0 {
			offerFields[i].Read(r, c, &r.Circuit.Offer)
			continue
		}
		if s, ok := c.V.(string); ok && strings.Contains(s, "%") && !r.HasPrice(item) {
			r.UnknownKey(c, "[prices]", field.KeysOf(offerFields))
			continue
		}
		p := graph.Price{Item: item, Pos: r.KeyPos(c)}
		if _, table := c.V.(map[string]any); table {
			field.ReadTable(r, c, "the price of "+located.Said(item), priceFields, &p)
		} else if s, ok := readPrice(r, c); ok {
			p.Price = s
		}
		r.Circuit.Prices = append(r.Circuit.Prices, p)
	}
}

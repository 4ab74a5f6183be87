package takeoff

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"dryfit/catalog/quantity"
	"dryfit/graph/takeoff/stock"
)

// ParseStock reads a length of stock as it is typed: "3000 mm @ 9.60", "5 m" without a
// price, "1740 mm @ 0 x 1" for one offcut in the van. The price is of one bar; a count after
// x limits how many there are. A price of 0 means that it is in the van.
func ParseStock(text string) (stock.Supply, error) {
	teach := func(format string, args ...any) error {
		return fmt.Errorf("stock %q: %s; write a length and its price, like %q, or %q for one offcut in the van",
			text, fmt.Sprintf(format, args...), "3000 mm @ 9.60", "1740 mm @ 0 x 1")
	}
	length, rest, priced := strings.Cut(text, "@")
	if !priced {
		if at := strings.LastIndex(text, " x "); at >= 0 {
			length, rest = text[:at], text[at:]
		}
	}
	q, err := quantity.Parse(strings.TrimSpace(length), quantity.Length)
	if err != nil {
		return stock.Supply{}, fmt.Errorf("stock %q: %w", text, err)
	}
	if !stock.Plannable(q.Value) {
		return stock.Supply{}, teach("a bar is longer than 0 and at most %g m", stock.MostLengthMM/1000)
	}
	if point, comma := readingsOf(strings.TrimSpace(length)); point.ok() && comma.ok() && point.mm != comma.mm {
		return stock.Supply{}, fmt.Errorf("stock %q can be read two ways, as %s or as %s: write one of these", text, point.text, comma.text)
	}
	out := stock.Supply{LengthMM: q.Value}
	price, count, counted := strings.Cut(rest, "x")
	if counted {
		n, err := strconv.Atoi(strings.TrimSpace(count))
		if err != nil || n < 1 || n > mostPieces {
			return stock.Supply{}, teach("%q is not a count from 1 to %d", strings.TrimSpace(count), mostPieces)
		}
		out.Count = n
	}
	if priced {
		out.Price, err = parsePrice(strings.TrimSpace(price))
		if err != nil {
			return stock.Supply{}, teach("%v", err)
		}
		out.Offcut = out.Price.Decimal.IsZero()
		if out.Offcut && !counted {
			return stock.Supply{}, teach("of what costs nothing say how many there are: %q", strings.TrimSpace(text)+" x 1")
		}
	}
	return out, nil
}

// mostPrice is more than any bar costs, in any currency.
const mostPrice = 1_000_000

// parsePrice reads a price: decimal digits with a point, at most four behind it.
func parsePrice(text string) (decimal.NullDecimal, error) {
	if text == "" {
		return decimal.NullDecimal{}, errors.New("the price is missing")
	}
	if strings.Contains(text, ",") {
		return decimal.NullDecimal{}, fmt.Errorf("write the price %q with a point: %q", text, strings.ReplaceAll(text, ",", "."))
	}
	whole, frac, _ := strings.Cut(text, ".")
	if whole == "" || !digits(whole) || !digits(frac) || len(whole) > 7 || len(frac) > 4 {
		return decimal.NullDecimal{}, fmt.Errorf("%q is not a price", text)
	}
	d, err := decimal.NewFromString(text)
	if err != nil || d.GreaterThan(decimal.NewFromInt(mostPrice)) {
		return decimal.NullDecimal{}, fmt.Errorf("%q is not a price", text)
	}
	return decimal.NewNullDecimal(d), nil
}

func digits(s string) bool {
	for i := range len(s) {
		if s[i] < '0' || s[i] > '9' {
			return false
		}
	}
	return true
}

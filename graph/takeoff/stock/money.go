package stock

import "github.com/shopspring/decimal"

// Money writes an amount with the two decimals most currencies have, more where it has more.
func Money(d decimal.Decimal) string {
	if d.Exponent() >= -2 {
		return d.StringFixed(2)
	}
	return d.String()
}

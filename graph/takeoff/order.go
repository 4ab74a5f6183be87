package takeoff

import (
	"strings"

	"github.com/shopspring/decimal"
)

// Order is what has to be bought for the new work, group by group.
type Order struct {
	Lines   []OrderLine
	Known   decimal.Decimal // sum of the lines that have a price
	Unknown int             // lines without one
}

// OrderLine is one thing to buy.
type OrderLine struct {
	Group    string
	Item     *Item
	Quantity decimal.Decimal     // with the spares
	Each     decimal.NullDecimal // the price of one
	Sum      decimal.NullDecimal
}

// orderGroups are what is bought together, in the order of the list.
var orderGroups = []string{"the unit", "valves and unions", "fittings", "pipe", insulating, UsedUp}

// What is used up as the work goes on, and what goes on it last.
const (
	UsedUp     = "cement and small things"
	insulating = "insulation and clips"
)

// VanGroups are the groups in the order in which a van is loaded: what is large and wanted late goes
// in first, what is used up at every joint lies at the door. Common practice, no source.
func VanGroups() []string {
	return []string{"pipe", "the unit", insulating, "valves and unions", "fittings", UsedUp}
}

// NewOrder gathers the lines of a bill that are new and bought by the piece, bar or tin. A
// price is that of one; a line without a price is counted and adds nothing.
func NewOrder(b *Bill) Order {
	var o Order
	if b == nil {
		return o
	}
	for _, group := range orderGroups {
		for i := range b.Items {
			it := &b.Items[i]
			if !it.New || it.Removed || it.Net() || it.Group() != group {
				continue
			}
			line := OrderLine{Group: group, Item: it, Quantity: decimal.NewFromFloat(it.Quantity + it.Spare).Round(2)}
			if price, err := decimal.NewFromString(it.Price); err == nil && it.Price != "" {
				line.Each, line.Sum = decimal.NewNullDecimal(price), decimal.NewNullDecimal(price.Mul(line.Quantity))
				o.Known = o.Known.Add(line.Sum.Decimal)
			} else {
				o.Unknown++
			}
			o.Lines = append(o.Lines, line)
		}
	}
	return o
}

// Net reports whether the line tells a length that comes out of bars on another line.
func (i *Item) Net() bool { return i.Unit == "m" && strings.Contains(i.Name, "net length") }

// Group is what the line is bought and carried with, by its kind: a name is the merchant's, or the
// user's own.
func (i *Item) Group() string {
	switch i.Kind {
	case "heat-pump":
		return "the unit"
	case "union", "air-bleed":
		return "valves and unions"
	case "pipe":
		return "pipe"
	case "insulation", "pipe-clip", "hose-clip", "wall-sleeve", "valve-support":
		return insulating
	case "cement", "primer", "tape", "o-ring", "":
		return UsedUp
	}
	if strings.HasSuffix(i.Kind, "-valve") {
		return "valves and unions"
	}
	return "fittings"
}

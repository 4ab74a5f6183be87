package quote

import (
	"fmt"
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"dryfit/catalog/quantity"
	"dryfit/graph/plan"
	"dryfit/graph/takeoff"
	"dryfit/render/table"
)

// Price is what a job costs, step by step. Amounts have two decimals.
type Price struct {
	Groups   []Group
	Material decimal.Decimal
	Labour   decimal.NullDecimal // [tariff] work; not valid: not said
	Margin   decimal.Decimal
	Net      decimal.Decimal
	Tax      decimal.Decimal
	TaxSaid  bool
	Total    decimal.Decimal
	Spares   decimal.Decimal // of the material: what is beyond the parts that are built in
	Missing  []quantity.Text // what has no price, a line for each group
	Keys     []string        // what would price it: the names under [prices], each once
}

// Group is what one kind of things costs.
type Group struct {
	Name string
	Sum  decimal.Decimal
	Open []quantity.Text // what of it has no price
}

// notPriced stands where a price will be.
const notPriced = "not priced yet"

// words is a group's sum as it stands in the offer, and how much of it is open.
func (g Group) words() string {
	switch open := len(g.Open); {
	case open == 0:
		return g.Sum.StringFixed(2)
	case g.Sum.IsZero():
		return notPriced
	case open == 1:
		return g.Sum.StringFixed(2) + ", 1 line open"
	default:
		return fmt.Sprintf("%s, %d lines open", g.Sum.StringFixed(2), open)
	}
}

// PriceOf adds a plan's prices up:
//
//	net = (material + labour)·(1 + margin),   total = net·(1 + tax)
//
// each rounded to two decimals as it is printed.
func PriceOf(p *plan.Plan) Price {
	var out Price
	order := takeoff.NewOrder(p.Bill)
	for _, l := range order.Lines {
		if n := len(out.Groups); n == 0 || out.Groups[n-1].Name != table.ForOwner(l.Group) {
			out.Groups = append(out.Groups, Group{Name: table.ForOwner(l.Group)})
		}
		g := &out.Groups[len(out.Groups)-1]
		if !l.Sum.Valid {
			if key := l.Item.Kind; key != "" && !slices.Contains(out.Keys, key) {
				out.Keys = append(out.Keys, key)
			}
			g.Open = append(g.Open, quantity.Say("%s (%s)", named(l.Item), amountOf(&l)))
			continue
		}
		g.Sum = g.Sum.Add(l.Sum.Decimal.Round(2))
		if spare := decimal.NewFromFloat(l.Item.Spare); spare.IsPositive() && l.Quantity.IsPositive() {
			out.Spares = out.Spares.Add(l.Sum.Decimal.Mul(spare).Div(l.Quantity).Round(2))
		}
	}
	for _, g := range out.Groups {
		if len(g.Open) > 0 {
			out.Missing = append(out.Missing, quantity.Say("%s: %s", g.Name, quantity.Join(g.Open, ", ")))
		}
		out.Material = out.Material.Add(g.Sum)
	}
	sum := out.Material
	if t := p.Circuit.Tariff; t != nil && t.Work != "" {
		if work, err := decimal.NewFromString(t.Work); err == nil {
			out.Labour = decimal.NewNullDecimal(work.Round(2))
			sum = sum.Add(out.Labour.Decimal)
		}
	}
	if !out.Labour.Valid {
		out.Missing = append(out.Missing, "the labour of fitter and electrician")
	}
	out.Margin = sum.Mul(decimal.NewFromFloat(p.Circuit.Offer.Margin.Or(0))).Round(2)
	out.Net = sum.Add(out.Margin)
	out.TaxSaid = p.Circuit.Offer.Tax.Set
	out.Tax = out.Net.Mul(decimal.NewFromFloat(p.Circuit.Offer.Tax.Or(0))).Round(2)
	out.Total = out.Net.Add(out.Tax)
	return out
}

// amountOf is how much of it is ordered, and what of that is spare.
func amountOf(l *takeoff.OrderLine) quantity.Text {
	text := quantity.Say("%s", l.Quantity)
	switch one := decimal.NewFromInt(1); {
	case l.Item.Unit == "m":
		text = quantity.Say("%s", quantity.Long(1000*l.Item.Quantity))
	case l.Item.Unit != "pc" && l.Quantity.Equal(one):
		text += quantity.Text(" " + l.Item.Unit)
	case l.Item.Unit != "pc":
		text += quantity.Text(" " + l.Item.Unit + "s")
	}
	switch spare := decimal.NewFromFloat(l.Item.Spare); {
	case !spare.IsPositive():
	case l.Quantity.LessThanOrEqual(spare):
		text += ", spare"
	default:
		text += quantity.Say(", %s of them spare", spare)
	}
	return text
}

// named is an item as one asks for it over a counter, with its size: how it is joined and what
// it is made of stand in the parts list. Pipe says how long its bars are, for it is bought by that.
func named(i *takeoff.Item) string {
	name, rest, _ := strings.Cut(i.Name, ",")
	if i.Size != "" && !strings.Contains(name, i.Size) {
		name += " " + i.Size
	}
	if at := strings.Index(rest, " of "); at >= 0 && i.Kind == "pipe" {
		name += rest[strings.LastIndex(rest[:at], " "):]
	}
	return name
}

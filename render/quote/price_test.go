package quote

import (
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/plan"
	"dryfit/graph/takeoff"
)

func job() *plan.Plan {
	c := &graph.Circuit{Job: graph.Job{Name: "Invented", Currency: "EUR"}, Tariff: &graph.Tariff{Work: "500"},
		Offer: graph.Offer{Margin: graph.Given(0.10), Tax: graph.Given(0.20)}}
	return &plan.Plan{
		Asked: c, Circuit: c,
		Bill: &takeoff.Bill{Items: []takeoff.Item{
			{Name: "heat pump", Kind: "heat-pump", Quantity: 1, Unit: "pc", New: true, Price: "2000"},
			{Name: "tee", Kind: "tee", Size: "2 in", Quantity: 2, Spare: 1, Unit: "pc", New: true, Price: "4.25"},
			{Name: "union", Kind: "union", Size: "2 in", Quantity: 2, Unit: "pc", New: true},
		}},
	}
}

// By hand: 2000 + 3·4.25 = 2012.75; with labour 2512.75; margin 251.28; net 2764.03; tax
// 552.81; together 3316.84.
func TestPriceByHand(t *testing.T) {
	p := PriceOf(job())
	for what, c := range map[string]struct{ got, want string }{
		"material": {p.Material.StringFixed(2), "2012.75"}, "margin": {p.Margin.StringFixed(2), "251.28"},
		"net": {p.Net.StringFixed(2), "2764.03"}, "tax": {p.Tax.StringFixed(2), "552.81"}, "together": {p.Total.StringFixed(2), "3316.84"},
	} {
		if c.got != c.want {
			t.Errorf("%s %s, want %s", what, c.got, c.want)
		}
	}
	if got := p.Spares.StringFixed(2); got != "4.25" { // one tee more than is built in
		t.Errorf("spares %s", got)
	}
	if len(p.Keys) != 1 || p.Keys[0] != "union" {
		t.Errorf("to be priced: %q", p.Keys)
	}
	if len(p.Missing) != 1 || p.Missing[0] != "valves and unions: union 2 in (2)" {
		t.Errorf("missing %q", p.Missing)
	}
}

// What is ordered beyond what is built in is said to be spare, and more than one tin is tins.
func TestSparesAreMarked(t *testing.T) {
	in := job()
	in.Bill.Items = append(in.Bill.Items, takeoff.Item{Name: "coupling", Kind: "coupling", Size: "2 in", Spare: 4, Unit: "pc", New: true},
		takeoff.Item{Name: "solvent cement, tin", Kind: "cement", Quantity: 2, Spare: 1, Unit: "tin", New: true},
		takeoff.Item{Name: "primer", Kind: "primer", Quantity: 1, Unit: "tin", New: true})
	missing := quantity.Join(PriceOf(in).Missing, "; ").String()
	for _, want := range []string{"coupling 2 in (4, spare)", "solvent cement (3 tins, 1 of them spare)", "primer (1 tin)"} {
		if !strings.Contains(missing, want) {
			t.Errorf("%q is not in %q", want, missing)
		}
	}
	page, err := Offer(in, nil, quantity.MetricSystem).HTML()
	if err != nil || !strings.Contains(string(page), "spares for 4.25") {
		t.Errorf("the offer says nothing of its spares: %v", err)
	}
}

// What nobody gave is named and adds nothing.
func TestNothingIsInvented(t *testing.T) {
	in := job()
	in.Circuit.Tariff, in.Circuit.Offer = nil, graph.Offer{}
	p := PriceOf(in)
	if !p.Total.Equal(decimal.RequireFromString("2012.75")) || p.Labour.Valid || p.TaxSaid {
		t.Errorf("%+v", p)
	}
	if !strings.Contains(quantity.Join(p.Missing, "; ").String(), "labour") {
		t.Errorf("missing %q says nothing of the labour", p.Missing)
	}
	page, err := Offer(in, job(), quantity.MetricSystem).HTML()
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"Not in the price", "Tax is not said", "2012.75", "3316.84"} {
		if !strings.Contains(string(page), want) {
			t.Errorf("the offer lacks %q", want)
		}
	}
}

// Two choices of one job are told apart, and both sums say their currency.
func TestTwoChoicesAreToldApart(t *testing.T) {
	a, b := job(), job()
	a.Circuit.File, b.Circuit.File = "x/small.toml", "x/large.toml"
	head := ""
	for _, it := range price(a, b, quantity.MetricSystem).Items {
		if it.Block.Grid != nil {
			head = strings.Join(it.Block.Grid.Header, " | ")
		}
	}
	if want := "what | choice 1, small.toml, EUR | choice 2, large.toml, EUR"; head != want {
		t.Errorf("columns %q, want %q", head, want)
	}
	b.Circuit.Job.Name = "Larger unit"
	if got := choiceNames(a.Circuit, b.Circuit); got[0] != "Invented" || got[1] != "Larger unit" {
		t.Errorf("named %q", got)
	}
}

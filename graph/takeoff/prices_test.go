package takeoff

import (
	"slices"
	"testing"

	"dryfit/graph"
)

// A price by a part's id is that part's: two transitions the layout put in beside it, on the same
// line of the bill, have the kind's, and are still named where they stand.
func TestPriceOfOnePart(t *testing.T) {
	b := &biller{c: &graph.Circuit{Prices: []graph.Price{{Item: "t1", Price: "12.00"}, {Item: "transition", Price: "3.00"}}}}
	b.add(line{Item: Item{Name: "transition", Kind: "transition", Quantity: 1, New: true, Where: places("t1")}, ids: []string{"t1"}})
	b.add(line{Item: Item{Name: "transition", Kind: "transition", Quantity: 2, New: true, Where: places("at a.in", "at b.out")}})
	b.price()
	if len(b.lines) != 2 {
		t.Fatalf("%d lines: %+v", len(b.lines), b.lines)
	}
	one, rest := b.lines[0], b.lines[1]
	if one.Quantity != 1 || one.Price != "12.00" || !slices.Equal(Apart(one.Where), []string{"t1"}) {
		t.Errorf("the part: %+v", one.Item)
	}
	if rest.Quantity != 2 || rest.Price != "3.00" || !slices.Equal(Apart(rest.Where), []string{"at a.in", "at b.out"}) {
		t.Errorf("the others: %+v", rest.Item)
	}
}

// What a line is bought with goes by its kind: a coupling whose own row calls it a sleeve, or a feeder
// whose type has the word tape in it, is a fitting all the same.
func TestGroupsGoByKind(t *testing.T) {
	for _, c := range []struct{ kind, name, want string }{
		{"coupling", "repair sleeve, socket, inch, 2 in", "fittings"},
		{"feeder", "feeder (tape 3)", "fittings"},
		{"pipe", "pipe insulation of old, taken out", "pipe"},
		{"insulation", "pipe insulation, 2 in", "insulation and clips"},
		{"valve-support", "clip or bracket under a valve, 2 in", "insulation and clips"},
		{"hose-clip", "hose clip, 2 in", "insulation and clips"},
		{"o-ring", "O-ring for a union", "cement and small things"},
		{"check-valve", "spring check", "valves and unions"},
		{"heat-pump", "heat pump", "the unit"},
	} {
		if got := (&Item{Kind: c.kind, Name: c.name}).Group(); got != c.want {
			t.Errorf("%s, %q: with %s, want %s", c.kind, c.name, got, c.want)
		}
	}
}

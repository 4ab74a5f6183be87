package description

import (
	"strings"
	"testing"

	"dryfit/catalog/quantity"
)

// What is written under [prices] and belongs elsewhere is told its table and how it is written there, which
// then reads; what is nothing anywhere is told what can have a price.
func TestPricedElsewhereIsToldWhere(t *testing.T) {
	hint := func(text string) string {
		_, ds := Read("prices.toml", []byte(text))
		for _, d := range ds {
			if strings.Contains(d.Message.In(quantity.MetricSystem), "to have a price") {
				return d.Hint.In(quantity.MetricSystem)
			}
		}
		return ""
	}
	for item, table := range map[string]string{"currency": "[job]", "labour": "[tariff]", "work": "[tariff]", "electricity": "[tariff]"} {
		told := hint("[prices]\n" + item + " = \"1.50\"\n")
		_, written, found := strings.Cut(told, ": ")
		if !found || !strings.Contains(told, table) {
			t.Errorf("%s: %q, want %s", item, told, table)
			continue
		}
		_, ds := Read("there.toml", []byte(table+"\n"+written+"\n"))
		for _, d := range ds {
			if d.Pos.Line == 2 {
				t.Errorf("%s: told %q: %s", item, told, d.Message.In(quantity.MetricSystem))
			}
		}
	}
	if told := hint("[prices]\nballvalve = \"1.50\"\n"); !strings.Contains(told, "ball-valve") {
		t.Error(told)
	}
	told := hint("[[part]]\nid = \"shell\"\nkind = \"tub\"\nports = [\"a\"]\n[prices]\nwidget = \"1.50\"\n")
	if !strings.Contains(told, "ball-valve, ") || strings.Contains(told, "hand-room") || strings.Contains(told, "tub, ") || strings.Contains(told, "shell") {
		t.Errorf("nobody buys a tub here, or room for a hand: %s", told)
	}
}

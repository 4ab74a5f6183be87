package lead

import "testing"

// Whoever promises what follows from pipes that were found is told when later searches are short.
func TestSpentSaysThatSearchesAreShort(t *testing.T) {
	p := job()
	p.Known = &Known{steps: mostOfAll - 1}
	if p.Known.Spent() {
		t.Error("spent one step too early")
	}
	p.Known.keep(&p, answer{}, 1)
	if !p.Known.Spent() {
		t.Error("not spent at the bound")
	}
	before := p.Known.steps
	if _, _ = Find(p); p.Known.steps-before > shortSteps+longSteps {
		t.Errorf("a search after that took %d steps", p.Known.steps-before)
	}
}

package search

import "testing"

// A change is said with what comes of it, or without where that is not known exactly.
func TestWordMend(t *testing.T) {
	some := []help{writing("spring", `"a"`, "little", nil), leaving("bypass-size", "nothing", nil)}
	const change = `spring = "a" in [retrofit], together with leave out bypass-size in [retrofit]; it costs little, and nothing`
	if got := string(wordMend(some, "low: the unit gets 2", "if so")); got != change+"; low: the unit gets 2; if so" {
		t.Errorf("with flows: %s", got)
	}
	if got := string(wordMend(some, "", "")); got != change {
		t.Errorf("without: %s", got)
	}
}

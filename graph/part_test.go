package graph

import (
	"strings"
	"testing"
)

// A kind is said in words: without the hyphens of the description, letters that stand for words large.
func TestKindInWords(t *testing.T) {
	for k, want := range map[Kind]string{UVChamber: "UV chamber", GateValve: "gate valve", ThermometerPocket: "thermometer pocket", Tub: "tub"} {
		if got := k.Word(); got != want {
			t.Errorf("%s is said %q, want %q", k, got, want)
		}
	}
	for _, k := range Kinds() {
		if got := k.Word(); strings.Contains(got, "-") || !strings.EqualFold(got, strings.ReplaceAll(string(k), "-", " ")) {
			t.Errorf("%s is said %q", k, got)
		}
	}
}

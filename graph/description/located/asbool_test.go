package located

import (
	"strings"
	"testing"
)

// What says no in quotes is told to be false, what says yes true, and what says neither is told both: of
// what keeps people safe the wrong one would be written.
func TestTextMeantAsBoolIsToldWhatItSays(t *testing.T) {
	for text, want := range map[string]string{
		`"no"`: "write it without quotes: drain = false", `"False"`: "write it without quotes: drain = false", `" off"`: "write it without quotes: drain = false",
		`"yes"`: "write it without quotes: drain = true", `"TRUE"`: "write it without quotes: drain = true",
		`"perhaps"`: "write drain = true or drain = false, without quotes", `0`: "write drain = true or drain = false, without quotes", `["no"]`: "write drain = true or drain = false, without quotes",
	} {
		f := New("bool.toml", []byte("drain = "+text+"\n"))
		root, ok := f.Decode()
		if !ok {
			t.Fatal(f.Found)
		}
		v, _ := root.In("drain")
		if _, ok := f.Bool(v); ok || len(f.Found) != 1 || !strings.EqualFold(string(f.Found[0].Hint), want) {
			t.Errorf("%s: %v, want %q", text, f.Found, want)
		}
	}
}

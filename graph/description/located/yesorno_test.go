package located

import (
	"strings"
	"testing"
)

// Yes and no by another word are told the two that are read; any other bare word is told to go in quotes.
func TestYesAndNoAreToldTheirWords(t *testing.T) {
	for word, want := range map[string]string{
		"yes": "write true or false", "No": "write true or false", "TRUE": "write true or false", "off": "write true or false",
		"450mm": "in quotes", "yesterday": "in quotes", "none": "in quotes",
	} {
		f := New("words.toml", []byte("existing = "+word+"\n"))
		if _, ok := f.Decode(); ok || len(f.Found) != 1 || !strings.Contains(string(f.Found[0].Hint), want) {
			t.Errorf("%s: %v, want %q", word, f.Found, want)
		}
	}
}

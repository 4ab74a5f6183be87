package scene

import (
	"maps"
	"slices"
	"strings"
	"unicode"

	"golang.org/x/image/font/sfnt"
)

// joined are the scripts that are written from the right, or whose letters take another shape beside each
// other: set one by one from the left, as the writers of PDF and PNG set them, they are not what was written.
var joined = map[string]*unicode.RangeTable{
	"Arabic": unicode.Arabic, "Hebrew": unicode.Hebrew, "Syriac": unicode.Syriac, "Thaana": unicode.Thaana, "N'Ko": unicode.Nko, "Mongolian": unicode.Mongolian,
}

// Unjoined returns the scripts among the scenes' texts that only an SVG sets as they are written, by name.
func Unjoined(pages ...*Scene) []string { return UnjoinedIn(texts(pages)...) }

// UnjoinedIn is Unjoined of texts.
func UnjoinedIn(list ...string) []string {
	var out []string
	for _, name := range slices.Sorted(maps.Keys(joined)) {
		in := func(r rune) bool { return unicode.Is(joined[name], r) }
		if slices.ContainsFunc(list, func(text string) bool { return strings.ContainsFunc(text, in) }) {
			out = append(out, name)
		}
	}
	return out
}

// Missing returns the runes of the scenes' texts that the font lacks and that are drawn as
// a box, each once, in the order they come.
func Missing(pages ...*Scene) []rune { return MissingIn(texts(pages)...) }

// MissingIn is Missing of texts.
func MissingIn(list ...string) []rune {
	var out []rune
	seen := map[rune]bool{}
	var b sfnt.Buffer
	for _, text := range list {
		for _, r := range text {
			if r < 127 || seen[r] || r == missingRune {
				continue
			}
			seen[r] = true
			if shown(regular(), &b, r) == missingRune || shown(bold(), &b, r) == missingRune {
				out = append(out, r)
			}
		}
	}
	return out
}

// Scripts returns the scripts that runes are of, by their names in Unicode, in the order of the alphabet;
// signs of no script are "other signs", last.
func Scripts(runes []rune) []string {
	var out []string
	left := runes
	for _, name := range slices.Sorted(maps.Keys(unicode.Scripts)) {
		if name == "Common" || name == "Inherited" {
			continue
		}
		in := func(r rune) bool { return unicode.Is(unicode.Scripts[name], r) }
		if slices.ContainsFunc(left, in) {
			out = append(out, strings.ReplaceAll(name, "_", " "))
			left = slices.DeleteFunc(slices.Clone(left), in)
		}
	}
	if len(left) > 0 {
		out = append(out, "other signs")
	}
	return out
}

// Texts are all texts of a scene.
func (s *Scene) Texts() []string {
	var out []string
	for _, it := range s.Items {
		if t, ok := it.(Text); ok {
			out = append(out, t.Text)
		}
	}
	return out
}

func texts(pages []*Scene) []string {
	var out []string
	for _, s := range pages {
		out = append(out, s.Texts()...)
	}
	return out
}

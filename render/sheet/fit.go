package sheet

import (
	"strings"
	"unicode/utf8"

	"dryfit/catalog/quantity"
	"dryfit/render/scene"
)

// Fit returns the text, cut short with "…" where it is wider than width mm.
func Fit(text string, sizeMM, width float64, bold bool) string {
	if scene.TextWidth(text, sizeMM, bold) <= width {
		return text
	}
	runes := []rune(clip(text))
	n := longest(runes, "…", sizeMM, width, bold)
	return strings.TrimRight(string(runes[:n]), " ") + "…"
}

// longest returns how many of the runes fit in width mm with the tail behind them.
func longest(runes []rune, tail string, sizeMM, width float64, bold bool) int {
	lo, hi := 0, len(runes)
	for lo < hi {
		mid := (lo + hi + 1) / 2
		if scene.TextWidth(string(runes[:mid])+tail, sizeMM, bold) <= width {
			lo = mid
		} else {
			hi = mid - 1
		}
	}
	return lo
}

// clip bounds the work a text can cause: no line on paper holds more.
func clip(text string) string {
	const most = 2000
	if len(text) <= most {
		return text
	}
	cut := most
	for cut > 0 && !utf8.RuneStart(text[cut]) {
		cut--
	}
	return text[:cut]
}

// Shrink returns the text and the largest size down to least at which it fits in width mm;
// at least it is cut short.
func Shrink(text string, sizeMM, least, width float64, bold bool) (string, float64) {
	w := scene.TextWidth(clip(text), 1, bold)
	if w*sizeMM <= width {
		return text, sizeMM
	}
	if size := width / w; size >= least {
		return text, float64(int(size*20)) / 20 // steps of 0.05 mm
	}
	return Fit(text, least, width, bold), least
}

// wholes are what a line may end between: words, and amounts that fit on a line.
func wholes(text string, sizeMM, width float64, bold bool) []string {
	var out []string
	for _, w := range quantity.Unbroken(text) {
		if scene.TextWidth(clip(w), sizeMM, bold) > width {
			out = append(out, strings.Fields(w)...)
			continue
		}
		out = append(out, w)
	}
	return out
}

// Wrap returns the text in lines of at most width mm, broken at spaces but not within an amount ("7.0 m3/h");
// a word, or an amount, that is wider by itself is broken where it must.
func Wrap(text string, sizeMM, width float64, bold bool) []string {
	var lines []string
	cur := ""
	for _, word := range wholes(text, sizeMM, width, bold) {
		try := word
		if cur != "" {
			try = cur + " " + word
		}
		if scene.TextWidth(try, sizeMM, bold) <= width {
			cur = try
			continue
		}
		if cur != "" {
			lines = append(lines, cur)
		}
		cur = word
		for scene.TextWidth(clip(cur), sizeMM, bold) > width && utf8.RuneCountInString(clip(cur)) > 1 {
			part := []rune(clip(cur))
			line := string(part[:max(1, longest(part, "", sizeMM, width, bold))])
			lines = append(lines, line)
			cur = cur[len(line):]
		}
	}
	if cur != "" {
		lines = append(lines, cur)
	}
	return lines
}

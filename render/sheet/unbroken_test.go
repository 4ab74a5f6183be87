package sheet

import (
	"strings"
	"testing"

	"dryfit/render/scene"
)

// No line of a sheet ends within an amount, at whatever width an amount fits on one; where none does, words are
// broken at their spaces as ever, and nothing is lost.
func TestNoLineEndsWithinAnAmount(t *testing.T) {
	const text, em = "the heat pump gets 6.5 m3/h; its least is 7.0 m3/h (± 551 kWh), 9 ft 10-5/8 in from the tee", 3.0
	amounts := []string{"6.5 m3/h;", "7.0 m3/h", "(± 551 kWh),", "9 ft 10-5/8 in"}
	widest := 0.0
	for _, a := range amounts {
		widest = max(widest, scene.TextWidth(a, em, false))
	}
	for width := 10.0; width < 180; width += 0.5 {
		lines := Wrap(text, em, width, false)
		if got := strings.Join(lines, " "); width > widest && got != text {
			t.Fatalf("%.1f mm wide it reads %q", width, got)
		}
		for _, a := range amounts {
			if width > widest && !strings.Contains(strings.Join(lines, "\n"), a) {
				t.Errorf("%.1f mm wide %q is broken: %q", width, a, lines)
			}
		}
	}
}

package graph

import "testing"

// A speed that is a number stands behind the word.
func TestSpeedWords(t *testing.T) {
	for name, want := range map[string]string{"low": "low speed", "night": "night speed", "2": "speed 2"} {
		if got := SpeedWords(name); got != want {
			t.Errorf("%q: %q, want %q", name, got, want)
		}
	}
}

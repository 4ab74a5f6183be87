package graph

import "testing"

func TestA(t *testing.T) {
	for word, want := range map[string]string{
		"air bleed": "an air bleed", "element-heater": "an element-heater", "ozone-injector": "an ozone-injector",
		"tee": "a tee", "union": "a union", "uv-chamber": "a uv-chamber", "heat-pump": "a heat-pump",
	} {
		if got := A(word); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

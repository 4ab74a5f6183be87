package retrofit

import "testing"

// What a tape is held to is said in words, and where there is no face to hold it to, that is
// said too.
func TestDatum(t *testing.T) {
	for _, c := range []struct {
		e    end
		want string
	}{
		{end{name: "filter.out", depth: 34.9}, "face of the filter.out"},
		{end{name: "bend 1 of hose", through: true, hose: true}, "middle of bend 1 of hose"},
		{end{name: "element.out", hose: true}, "end of the hose at element.out"},
		{end{name: "box.out"}, "end of the pipe inside box.out (the depth of its socket is not known: measure it, and take it off what the tape reads from its face)"},
	} {
		if got := c.e.datum(); got != c.want {
			t.Errorf("%+v: %q, want %q", c.e, got, c.want)
		}
	}
}

package draft

import "testing"

// What a tape is held to is said in words, and where there is no face to hold it to, that is
// said too.
func TestDatum(t *testing.T) {
	for _, c := range []struct {
		e    End
		want string
	}{
		{End{Name: "filter.out", Depth: 34.9}, "face of the filter.out"},
		{End{Name: "bend 1 of hose", through: true, Hose: true}, "middle of bend 1 of hose"},
		{End{Name: "element.out", Hose: true}, "end of the hose at element.out"},
		{End{Name: "box.out"}, "end of the pipe inside box.out (the depth of its socket is not known: measure it, and take it off what the tape reads from its face)"},
	} {
		if got := c.e.Datum(); got != c.want {
			t.Errorf("%+v: %q, want %q", c.e, got, c.want)
		}
	}
}

package located

import (
	"fmt"
	"testing"
)

// A table under a mistyped name joins the one that was meant, whole or not at all.
func TestTakenAs(t *testing.T) {
	for _, c := range []struct {
		text, want string
		ok         bool
	}{
		{"[watr]\na = 1\n", "map[water:map[a:1]]", true},
		{"[water]\na = 1\n[watr]\nb = 2\n", "map[water:map[a:1 b:2]]", true},
		{"[water.x]\na = 1\n[watr.x]\nb = 2\n", "map[water:map[x:map[a:1 b:2]]]", true},
		{"[[water]]\na = 1\n[[watr]]\na = 2\n", "map[water:[map[a:1] map[a:2]]]", true},
		{"[water]\na = 1\n[watr]\nb = 2\na = 3\n", "map[water:map[a:1] watr:map[a:3 b:2]]", false},
		{"[water.x]\na = 1\n[watr]\nb = 2\n[watr.x]\nc = 3\na = 4\n", "map[water:map[x:map[a:1]] watr:map[b:2 x:map[a:4 c:3]]]", false},
		{"[water]\na = 1\n[[watr]]\nb = 2\n", "map[water:map[a:1] watr:[map[b:2]]]", false},
	} {
		top, ok := New("x.toml", []byte(c.text)).Decode()
		if !ok {
			t.Fatalf("%q is not read", c.text)
		}
		if got := top.TakenAs("watr", "water"); got != c.ok {
			t.Errorf("%q: %v, want %v", c.text, got, c.ok)
		}
		if got := fmt.Sprint(top.V); got != c.want {
			t.Errorf("%q: %s, want %s", c.text, got, c.want)
		}
	}
}

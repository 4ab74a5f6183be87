package retrofit

import (
	"strconv"

	"dryfit/graph"
)

// names gives plain ids to new parts and runs that clash with none of the circuit's.
type names struct{ taken map[string]bool }

func newNames(c *graph.Circuit) *names {
	n := &names{taken: make(map[string]bool, len(c.Parts)+len(c.Runs)+32)}
	for _, p := range c.Parts {
		n.taken[p.ID] = true
	}
	for _, r := range c.Runs {
		n.taken[r.ID] = true
	}
	return n
}

// fresh returns the wanted id, with "-2", "-3", … where it is taken.
func (n *names) fresh(want string) string {
	id := want
	for i := 2; n.taken[id]; i++ {
		id = want + "-" + strconv.Itoa(i)
	}
	n.taken[id] = true
	return id
}

// numbered returns the first of "base-1", "base-2", … that is free.
func (n *names) numbered(base string) string {
	for i := 1; ; i++ {
		id := base + "-" + strconv.Itoa(i)
		if !n.taken[id] {
			n.taken[id] = true
			return id
		}
	}
}

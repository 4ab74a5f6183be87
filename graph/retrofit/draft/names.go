package draft

import (
	"strconv"

	"dryfit/graph"
)

// Names gives plain ids to new parts and runs that clash with none of the circuit's.
type Names struct{ taken map[string]bool }

func newNames(c *graph.Circuit) *Names {
	n := &Names{taken: make(map[string]bool, len(c.Parts)+len(c.Runs)+32)}
	for _, p := range c.Parts {
		n.taken[p.ID] = true
	}
	for _, r := range c.Runs {
		n.taken[r.ID] = true
	}
	return n
}

// Fresh returns the wanted id, with "-2", "-3", … where it is taken.
func (n *Names) Fresh(want string) string {
	id := want
	for i := 2; n.taken[id]; i++ {
		id = want + "-" + strconv.Itoa(i)
	}
	n.taken[id] = true
	return id
}

// Numbered returns the first of "base-1", "base-2", … that is free.
func (n *Names) Numbered(base string) string {
	for i := 1; ; i++ {
		id := base + "-" + strconv.Itoa(i)
		if !n.taken[id] {
			n.taken[id] = true
			return id
		}
	}
}

// Release gives an id back that nothing bears after all.
func (n *Names) Release(id string) { delete(n.taken, id) }

package live

import (
	"context"
	"encoding/json"
	"slices"
	"sync"

	"dryfit/graph/whatif"
)

// mostAnswers is how many answers about one text of the file are kept: those to the values that
// were asked for last. An answer is some 10 kB.
const mostAnswers = 64

// answers are those about one text of the file, by what was turned: equal questions, of whatever
// page, are worked out once.
type answers struct {
	mu    sync.Mutex
	known map[string]*answered
	order []string // of known, the oldest first
}

// answered is one answer, known once done is closed.
type answered struct {
	done chan struct{}
	out  told
	err  error
	gone bool // it was not worked out: its asker left
}

// of returns the answer to some values: the one that is there or on its way, else what find
// finds. Where whoever asked first has left, the next asks again.
func (a *answers) of(ctx context.Context, v whatif.Values, find func() (told, error)) (told, error) {
	name, err := json.Marshal(v) // in the order of the names
	if err != nil {
		return told{}, err
	}
	for {
		one, mine := a.claim(string(name))
		if mine {
			a.find(ctx, string(name), one, find)
			return one.out, one.err
		}
		select {
		case <-one.done:
			if !one.gone {
				return one.out, one.err
			}
		case <-ctx.Done():
			return told{}, ctx.Err()
		}
	}
}

// find works an answer out. What is given up, or ends in a panic, is not kept.
func (a *answers) find(ctx context.Context, name string, one *answered, find func() (told, error)) {
	one.gone = true
	defer close(one.done)
	defer func() {
		if one.gone {
			a.drop(name, one)
		}
	}()
	one.out, one.err = find()
	one.gone = ctx.Err() != nil
}

// claim returns the answer of a name; mine, where the caller is to find it.
func (a *answers) claim(name string) (one *answered, mine bool) {
	a.mu.Lock()
	defer a.mu.Unlock()
	if one, ok := a.known[name]; ok {
		return one, false
	}
	if len(a.order) == mostAnswers {
		delete(a.known, a.order[0])
		a.order = a.order[1:]
	}
	one = &answered{done: make(chan struct{})}
	if a.known == nil {
		a.known = map[string]*answered{}
	}
	a.known[name] = one
	a.order = append(a.order, name)
	return one, true
}

// drop forgets an answer.
func (a *answers) drop(name string, one *answered) {
	a.mu.Lock()
	defer a.mu.Unlock()
	if a.known[name] != one {
		return
	}
	delete(a.known, name)
	a.order = slices.DeleteFunc(a.order, func(other string) bool { return other == name })
}

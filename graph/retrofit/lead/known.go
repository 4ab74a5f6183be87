package lead

import (
	"fmt"
	"slices"
)

// Known is what problems with the same fittings have in common: worked out for the first of them;
// and the answers to those that took long, for a search among changes asks the same again and again.
// The zero value knows nothing yet. It is for one search at a time.
type Known struct {
	left    map[leftKey]*left
	answers map[string]answer // by all that the problem says
	steps   int               // that the searches took together
	cut     bool              // the last one, which found nothing, stopped at its bound
}

// Cut reports whether the last search found nothing and had not tried every way: it stopped at its
// bound of steps, so that there may be a pair all the same.
func (k *Known) Cut() bool { return k != nil && k.cut }

// spent is how many steps the searches took together.
func (k *Known) spent() int {
	if k == nil {
		return 0
	}
	return k.steps
}

// Spent reports whether the searches took as many steps together as all may: each further one is
// short.
func (k *Known) Spent() bool { return k.spent() >= mostOfAll }

// answer is what Find returned.
type answer struct {
	pair *Pair
	met  []string
	cut  bool // nothing was found, and not every way was tried
}

// of returns what was found for the same problem before.
func (k *Known) of(p *Problem) (answer, bool) {
	if k == nil || len(k.answers) == 0 {
		return answer{}, false
	}
	a, ok := k.answers[p.key()]
	return a.own(), ok
}

// keep counts the steps of a search, and keeps the answer of a long one.
func (k *Known) keep(p *Problem, a answer, steps int) {
	if k == nil {
		return
	}
	k.cut = a.cut
	if k.steps += steps; steps <= longSteps {
		return
	}
	if k.answers == nil {
		k.answers = map[string]answer{}
	}
	k.answers[p.key()] = a.own()
}

// own is the answer for one who may write into it.
func (a answer) own() answer {
	a.met = slices.Clone(a.met)
	if a.pair != nil {
		pair := *a.pair
		pair.To, pair.From, pair.Met = slices.Clone(pair.To), slices.Clone(pair.From), slices.Clone(pair.Met)
		a.pair = &pair
	}
	return a
}

// key is all that the problem says, and nothing of what is known of others.
func (p *Problem) key() string {
	q := *p
	to, from := q.To.Check, q.From.Check
	q.Known, q.To.Check, q.From.Check = nil, nil, nil
	return fmt.Sprint(q, to, from)
}

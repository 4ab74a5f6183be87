package settle

import (
	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/catalog/tables"
	"dryfit/graph"
)

// How says where a value comes from.
type How string

// The ways, the best first.
const (
	Given   How = "given"         // by the description, at Origin.Pos
	OwnRow  How = "own row"       // by a row of the user's
	Row     How = "catalogue row" // by a row of the catalogue, named by the user or that of its kind and size
	Derived How = "derived"       // from other values, Origin.Of
	Assumed How = "assumed"       // nothing said it: a generic row, or common practice
	AsRead  How = "fitted"        // by what was read on the tub, at Origin.Pos: it is not as described
)

// Origin is where a value comes from.
type Origin struct {
	How How
	Pos graph.Pos     // of a given value; of the key that names a row; of the first that was read
	Row string        // name of the row
	Of  []Key         // what it was derived from
	Why quantity.Text // of an assumption: whose it is; "" where Row says it
}

// Spread is how far a value may be off, as shares of it: -0.2 to 0.2. Values of one class
// are off together. Both bounds are 0 where it is taken as exact.
type Spread struct {
	tables.Span
	Class string // "" for a value that is off by itself
}

// Value is one settled number, or words. Zero is a value: Known tells whether there is one.
type Value struct {
	V     float64
	Dim   quantity.Dimension // of V, in its base unit; bare numbers have Bare
	Text  string             // of words, as a row's name or a pipe's size; V is 0 then
	Form  *Loss              // of a loss, whose words hang on the units
	Known bool
	Origin
	Spread
}

// Bare is the dimension of a number without a unit: a count, a loss coefficient.
const Bare quantity.Dimension = -1

// Words is the dimension of a value in words.
const Words quantity.Dimension = -2

// Key names a value: of which part or run ("water" for the water), and what it is.
type Key struct{ Of, What string }

// String returns "cracking pressure of bypass".
func (k Key) String() string { return k.What + " of " + k.Of }

// Pick is something chosen that is no number: a row, a spec, a size, words.
type Pick[T any] struct {
	V T
	Origin
}

// number returns a known value.
func number(v float64, dim quantity.Dimension, from Origin) Value {
	return Value{V: v, Dim: dim, Known: true, Origin: from}
}

// given is the origin of a key of a table.
func given(pos graph.Pos) Origin { return Origin{How: Given, Pos: pos} }

// ofKeys is the origin of what follows from others.
func ofKeys(of ...Key) Origin { return Origin{How: Derived, Of: of} }

// assumed is the origin of what nobody said.
func assumed(why quantity.Text) Origin { return Origin{How: Assumed, Why: why} }

// ofRow is the origin of what a row says. A generic row that nobody named is an assumption.
func ofRow(r *catalog.Row, pos graph.Pos, generic bool) Origin {
	o := Origin{How: Row, Row: r.Name, Pos: pos, Why: r.Source}
	switch {
	case r.Own:
		o.How = OwnRow
	case generic:
		o.How = Assumed
	}
	return o
}

// saysSo is the origin of what a row says in a column: of what a row of the user's left to the row it is
// laid over, that one's; an assumption where nobody named it.
func saysSo(of Pick[catalog.Row], column string) Origin { return lent(of, of.V.Owns(column)) }

// lent is the origin of what a row says, itself or by the row it is laid over.
func lent(of Pick[catalog.Row], itself bool) Origin {
	o := of.Origin
	if o.How != OwnRow || itself || of.V.Mine == nil {
		return o
	}
	if o.How, o.Why = Row, of.V.Below; o.Pos == (graph.Pos{}) {
		o.How = Assumed
	}
	return o
}

// spreadOf returns the spread of a class for a grade of knowledge.
func spreadOf(class string, known graph.Knowledge) Spread {
	span := tables.Spread(class, known.String())
	return Spread{Span: span}
}

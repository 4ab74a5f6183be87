package catalog

import "dryfit/catalog/quantity"

// Problem is something wrong with a row or with the text it was read from.
type Problem struct {
	Kind    string        // table [[catalog.KIND]] it is in
	Index   int           // which of the kind's tables or rows, from 0
	Row     string        // name of the row; "" where it has none yet
	Key     string        // key or column that is wrong; "" for the row as a whole
	Origin  string        // file (and line) the row came from
	Message quantity.Text // what is wrong
	Hint    string        // what would be right; may be ""
}

// String returns the problem in one line.
func (p Problem) String() string {
	text := ""
	switch {
	case p.Row != "":
		text = p.Row + ": "
	case p.Kind != "":
		text = p.Kind + ": "
	}
	if p.Key != "" {
		text += p.Key + ": "
	}
	text += p.Message.String()
	if p.Hint != "" {
		text += "; " + p.Hint
	}
	return text
}

package graph

import (
	"cmp"
	"fmt"
	"slices"

	"dryfit/catalog/quantity"
)

// Pos is a place in a description. Line and Column count from 1; Column counts
// characters, not bytes. The zero Pos means "no place known".
type Pos struct {
	File   string
	Line   int
	Column int
}

// IsValid reports whether the place is known.
func (p Pos) IsValid() bool { return p.Line > 0 }

// String returns "file:line:col", or just the file where the place is not known.
func (p Pos) String() string {
	if !p.IsValid() {
		return p.File
	}
	return fmt.Sprintf("%s:%d:%d", p.File, p.Line, p.Column)
}

// Severity says how much a finding matters.
type Severity int

// The severities, from the least to the most.
const (
	Note    Severity = iota // worth knowing
	Warning                 // works, but a fitter would want to know before he cuts
	Error                   // must be mended
)

// String returns "note", "warning" or "error".
func (s Severity) String() string {
	switch s {
	case Error:
		return "error"
	case Warning:
		return "warning"
	default:
		return "note"
	}
}

// Related points at the other half of a problem.
type Related struct {
	Pos     Pos
	Message quantity.Text
}

// Say words a finding: fmt.Sprintf, but the amounts among the arguments (quantity.Flow.Of(q))
// stay amounts until somebody prints the text in the units he wants.
func Say(form string, args ...any) quantity.Text { return quantity.Say(form, args...) }

// Diagnostic is one finding. The message says what is wrong with the number it has and
// the number it needs, without a capital or a full stop; the hint says what to do.
type Diagnostic struct {
	Pos      Pos
	Rule     string // name of the rule, or of the step that found it ("reading", "routing", "flow")
	Severity Severity
	Message  quantity.Text
	Hint     quantity.Text
	Related  []Related
	Mode     string   // its message speaks of, once; "" where it speaks of none, or of several
	Unit     string   // id of the unit it is about; "" where it is about none, or about all
	Of       []string // ids of the parts it is about, where a later step asks: none reads words
	Alters   []string // ids of the parts and runs its hint says to change, where the tool may have put them in itself
	Behind   []Pos    // where an error that stands at one of these says what it hangs on: it follows from that
	Tried    bool     // what its hint asks for was laid out, and mends it
	Blank    bool     // it speaks of a blank of a template that nobody has filled in yet
}

// SortDiagnostics returns the findings by place, then the heavier first, then rule and
// text, with exact repeats left out.
func SortDiagnostics(ds []Diagnostic) []Diagnostic {
	out := slices.Clone(ds)
	slices.SortStableFunc(out, compareDiagnostics)
	return slices.CompactFunc(out, func(a, b Diagnostic) bool { return compareDiagnostics(a, b) == 0 })
}

func compareDiagnostics(a, b Diagnostic) int {
	return cmp.Or(
		cmp.Compare(a.Pos.File, b.Pos.File),
		cmp.Compare(a.Pos.Line, b.Pos.Line),
		cmp.Compare(a.Pos.Column, b.Pos.Column),
		cmp.Compare(b.Severity, a.Severity),
		cmp.Compare(a.Rule, b.Rule),
		cmp.Compare(a.Message, b.Message),
		cmp.Compare(a.Hint, b.Hint),
	)
}

// Errors returns the findings that are errors, in their order.
func Errors(ds []Diagnostic) []Diagnostic {
	var out []Diagnostic
	for _, d := range ds {
		if d.Severity == Error {
			out = append(out, d)
		}
	}
	return out
}

// HasErrors reports whether any finding is an error.
func HasErrors(ds []Diagnostic) bool {
	return slices.ContainsFunc(ds, func(d Diagnostic) bool { return d.Severity == Error })
}

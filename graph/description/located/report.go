package located

import (
	"dryfit/catalog/quantity"
	"dryfit/graph"
)

// The voice of this package's messages: what is there and what is wrong with it, without a
// capital or a full stop; the hint says what to write instead.

// Rule is the step by which findings of this package are known.
const Rule = "reading"

// Add reports an error at a place; the finding returned may be added to at once.
func (f *File) Add(pos graph.Pos, hint, format string, args ...any) *graph.Diagnostic {
	f.Found = append(f.Found, graph.Diagnostic{
		Pos: pos, Rule: Rule, Severity: graph.Error,
		Message: graph.Say(format, args...), Hint: quantity.Text(hint),
	})
	return &f.Found[len(f.Found)-1]
}

// Fail reports an error at a value.
func (f *File) Fail(v Value, hint, format string, args ...any) *graph.Diagnostic {
	return f.Add(f.ValuePos(v), hint, format, args...)
}

// Related points at the other half of the last error.
func Related(d *graph.Diagnostic, pos graph.Pos, format string, args ...any) {
	d.Related = append(d.Related, graph.Related{Pos: pos, Message: graph.Say(format, args...)})
}

// Many reports whether more was found than is worth showing.
func (f *File) Many() bool { return len(f.Found) > mostFindings }

// Findings returns what was found, sorted, and cut short where a file is wrong all over.
func (f *File) Findings() []graph.Diagnostic {
	ds := graph.SortDiagnostics(f.Found)
	if more := len(ds) - mostFindings; more > 0 {
		ds = ds[:mostFindings]
		last := ds[mostFindings-1].Pos
		ds = append(ds, graph.Diagnostic{Pos: last, Rule: Rule, Severity: graph.Error,
			Message: graph.Say("and %d more errors below", more), Hint: "mend the first ones first"})
	}
	return ds
}

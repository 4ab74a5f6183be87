package rule

import (
	"fmt"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
)

// Table returns all rules as a table in Markdown: name, severity, what is asked, source.
func Table() string {
	var b strings.Builder
	b.WriteString("| Rule | Gives at most | Asks | Source |\n|---|---|---|---|\n")
	for _, r := range All() {
		fmt.Fprintf(&b, "| `%s` | %s | %s | %s |\n", r.Name, r.Severity, cell(r.Asks), cell(r.Source))
	}
	return b.String()
}

// cell keeps a text inside its cell.
func cell(s string) string { return strings.ReplaceAll(s, "|", "\\|") }

// Explain returns what one rule asks, why, and by what source, for the terminal; "" for a
// name no rule has.
func Explain(name string) quantity.Text {
	r := ByName(name)
	if r == nil {
		return ""
	}
	reads := map[Needs]string{
		NeedsCircuit: "the circuit as described",
		NeedsLayout:  "the circuit and where its pipes lie",
		NeedsFlow:    "the flows in every mode",
	}[r.Needs]
	return graph.Say("%s\n  asks:     %s\n  because:  %s\n  source:   %s\n  severity: %s at most\n  reads:    %s\n",
		r.Name, quantity.Prose(r.Asks), quantity.Prose(r.Why), quantity.Prose(r.Source), r.Severity, reads)
}

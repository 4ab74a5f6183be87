package live

import (
	"fmt"
	"slices"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
)

// oneFinding is what a rule holds against one place of the file, in whichever modes.
type oneFinding struct {
	graph.Diagnostic          // the first of them
	Lines            []string // what is wrong: once where it is the same in several modes
	Hints            []string // what to do, each once
}

// byMode gathers findings that speak of one mode each: those of a rule at a place that follow
// one another are one.
func byMode(ds []graph.Diagnostic, units quantity.System) []oneFinding {
	var out []oneFinding
	for i := 0; i < len(ds); {
		n := i + 1
		for n < len(ds) && ds[n].Mode != "" && ds[i].Mode != "" && ds[n].Rule == ds[i].Rule && ds[n].Pos == ds[i].Pos && ds[n].Severity == ds[i].Severity {
			n++
		}
		one := oneFinding{Diagnostic: ds[i], Lines: linesByMode(ds[i:n], units)}
		for k := i; k < n; k++ {
			if hint := ds[k].Hint.In(units); hint != "" && !slices.Contains(one.Hints, hint) {
				one.Hints = append(one.Hints, hint)
			}
		}
		out = append(out, one)
		i = n
	}
	return out
}

// linesByMode words findings, the modes of those with the same words together.
func linesByMode(ds []graph.Diagnostic, units quantity.System) []string {
	var words []string // with no mode in them
	modes := map[string][]string{}
	const here = "\x00"
	for i := range ds {
		of := fmt.Sprintf("mode %q", ds[i].Mode)
		w := ds[i].Message.In(units)
		if ds[i].Mode != "" {
			w = strings.Replace(w, of, here, 1)
		}
		if !slices.Contains(words, w) {
			words = append(words, w)
		}
		modes[w] = append(modes[w], fmt.Sprintf("%q", ds[i].Mode))
	}
	for i, w := range words {
		all := modes[w]
		name := "mode " + all[0]
		if last := len(all) - 1; last > 0 {
			name = "modes " + strings.Join(all[:last], ", ") + " and " + all[last]
		}
		words[i] = strings.Replace(w, here, name, 1)
	}
	return words
}

package graph

import (
	"fmt"
	"slices"
	"strings"

	"dryfit/catalog/quantity"
)

// Finding is what a rule holds against one position of a description, in whichever modes, in words
// for a person. What is for programs keeps each mode's Diagnostic apart.
type Finding struct {
	Diagnostic          // the first of them, with what is related to any of them
	Lines      []string // what is wrong: once where it is the same in several modes; never empty
	Hints      []string // what to do, each once
}

// ByMode gathers findings that speak of one mode each: those of a rule at a position that follow
// one another, as SortDiagnostics leaves them, are one.
func ByMode(ds []Diagnostic, units quantity.System) []Finding {
	var out []Finding
	for i := 0; i < len(ds); {
		n := i + 1
		for n < len(ds) && ds[n].Mode != "" && ds[i].Mode != "" && ds[n].Rule == ds[i].Rule && ds[n].Pos == ds[i].Pos && ds[n].Severity == ds[i].Severity {
			n++
		}
		one := Finding{Diagnostic: ds[i], Lines: linesByMode(ds[i:n], units)}
		one.Related = nil
		for k := i; k < n; k++ {
			if hint := ds[k].Hint.In(units); hint != "" && !slices.Contains(one.Hints, hint) {
				one.Hints = append(one.Hints, hint)
			}
			for _, r := range ds[k].Related {
				if !slices.Contains(one.Related, r) {
					one.Related = append(one.Related, r)
				}
			}
		}
		out = append(out, one)
		i = n
	}
	return out
}

// Counted returns how many findings of a severity a person is shown, blanks apart: those of a
// rule at a place count once, in however many modes.
func Counted(ds []Diagnostic, s Severity) int {
	n := 0
	for _, f := range ByMode(ds, quantity.MetricSystem) {
		if f.Severity == s && !f.Blank {
			n++
		}
	}
	return n
}

// Blanks returns how many blanks are left to be filled in, as far as they are errors.
func Blanks(ds []Diagnostic) int {
	n := 0
	for i := range ds {
		if ds[i].Blank && ds[i].Severity == Error {
			n++
		}
	}
	return n
}

// InShort says how many errors, blanks, warnings and notes there are; "" where there is nothing.
func InShort(ds []Diagnostic) string {
	var out []string
	say := func(n int, one, many string) {
		switch {
		case n == 1:
			out = append(out, "1 "+one)
		case n > 1:
			out = append(out, fmt.Sprintf("%d %s", n, many))
		}
	}
	say(Counted(ds, Error), "error", "errors")
	say(Blanks(ds), "blank to fill in", "blanks to fill in")
	say(Counted(ds, Warning), "warning", "warnings")
	say(Counted(ds, Note), "note", "notes")
	return strings.Join(out, ", ")
}

// linesByMode words findings, the modes of those with the same words together.
func linesByMode(ds []Diagnostic, units quantity.System) []string {
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
		if len(all) > 1 {
			name = "modes " + quantity.Listed(all, "and")
		}
		words[i] = strings.Replace(w, here, name, 1)
	}
	return words
}

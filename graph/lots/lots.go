// Package lots says for tests how much of what could be tried is tried: in the suite a few that
// between them show everything, with the flag -wide all there are, as CI does after it. Whoever
// imports it collects garbage seldom, too, and samples no allocations: tests that plan and draw much
// take a fifth less CPU for it. Only tests import it, and it imports nothing of the house.
package lots

import (
	"flag"
	"os"
	"runtime"
	"runtime/debug"
	"slices"
	"strings"
)

func init() {
	asked := func(flag string) bool {
		return slices.ContainsFunc(os.Args, func(a string) bool { return strings.HasPrefix(a, flag) })
	}
	if os.Getenv("GOGC") == "" && !asked("-test.bench=") { // what is measured is measured as users run it
		debug.SetGCPercent(1600)
		debug.SetMemoryLimit(1 << 30) // two are tested side by side
	}
	if !asked("-test.memprofile") { // a binary without tests keeps none either: nothing in it asks
		runtime.MemProfileRate = 0
	}
}

var wide = flag.Bool("wide", false, "try all there are, not the few that stand for them")

// All reports whether everything is tried.
func All() bool { return *wide }

// Of returns the seeds of what is drawn by lot, or the places in a list: all of 0 to all-1, or
// the few.
func Of(all int, few ...int) []int {
	if !*wide {
		return few
	}
	out := make([]int, all)
	for i := range out {
		out[i] = i
	}
	return out
}

// Named reports whether what has a name is tried: always with -wide, else where it is one of the few.
func Named(name string, few ...string) bool {
	return *wide || slices.Contains(few, name)
}

// Count returns how many are drawn of something.
func Count(all, few int) int {
	if *wide {
		return all
	}
	return few
}

// Command dryfit plans the fitting of a heat pump into hot tub pipework before anybody
// cuts a pipe. This package holds flags, files and exit codes, and nothing else: each verb
// reads its description, asks graph/plan for what it prints, and hands it to render.
//
// Exit codes: 0 done, no error finding; 1 the description has errors, or was printed but
// with an error finding; 2 wrong use, or a file that can't be read or written. Ended by a
// signal it leaves nothing half done and exits with 128 and the signal's number; serve, which
// has no other end, exits with 0.
package main

import (
	"io"
	"os"
	"runtime/debug"

	"dryfit/cmd/dryfit/world"
)

func main() {
	tidySeldom()
	w := world.New()
	w.MindSignals()
	os.Exit(w.End(run(os.Args[1:], w)))
}

// tidySeldom lets memory be tidied up a third as often as Go would: a command is soon over. Of very
// large circuits, from 400 MB on, it is tidied as it is needed.
func tidySeldom() {
	if os.Getenv("GOGC") == "" && os.Getenv("GOMEMLIMIT") == "" {
		debug.SetGCPercent(300)
		debug.SetMemoryLimit(400 << 20)
	}
}

// run carries out one command line and returns the exit code.
func run(args []string, w *world.World) int {
	if len(args) == 0 {
		io.WriteString(w.Stderr, usage())
		return world.WrongUse
	}
	name := args[0]
	switch {
	case isHelp(name):
		return help(args[1:], w)
	case name == completeWord:
		return printCandidates(args[1:], w)
	case name == "--version":
		name = "version"
	case name == papersWord:
		return makePapers(w)
	}
	v := findVerb(name)
	if v == nil {
		return world.Complain(w, unknownVerb(name))
	}
	return v.run(v, args[1:], w)
}

// The pictures of the README.
//
//go:generate go run . draw --view schematic --dpi 100 -o ../../testdata/pictures/schematic.png ../../testdata/two-speed.toml
//go:generate go run . draw --view isometric --dpi 100 -o ../../testdata/pictures/isometric.png ../../testdata/two-speed.toml
//go:generate go run . draw --view detail --dpi 100 -o ../../testdata/pictures/detail.png ../../testdata/two-speed.toml

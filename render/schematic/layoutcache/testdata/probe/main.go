// Probe starts the layout engine, lays out two boxes and prints what the guard said, one
// "key value" to a line. With PROBE=small it compiles one empty function in place of the engine,
// which takes half a second.
package main

import (
	"fmt"
	"os"

	"dryfit/render/schematic/engine"
	"dryfit/render/schematic/layoutcache"
	"dryfit/render/schematic/place"
)

// small is a module of WebAssembly with one function that does nothing: its head, one type, one
// function of it, and its code.
var small = []byte("\x00asm\x01\x00\x00\x00" + "\x01\x04\x01\x60\x00\x00" + "\x03\x02\x01\x00" + "\x0a\x04\x01\x02\x00\x0b")

func main() {
	s := layoutcache.Open() // the engine asks again and is told the same
	fmt.Println("folder", s.Folder)
	fmt.Println("why", s.Why)
	if os.Getenv("PROBE") == "small" {
		if err := engine.Compile(small); err != nil {
			fmt.Fprintln(os.Stderr, "compiling:", err)
			os.Exit(1)
		}
		fmt.Println("laid-out true")
		return
	}
	pts, err := place.Boxes([]place.Box{{W: 10, H: 5}, {W: 10, H: 5}}, []place.Edge{{From: 0, To: 1}}, 5, 5)
	if err != nil || len(pts) != 2 || pts[1].X <= pts[0].X {
		fmt.Fprintln(os.Stderr, "layout:", pts, err)
		os.Exit(1)
	}
	fmt.Println("laid-out true")
}

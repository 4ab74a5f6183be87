// Probe starts the layout engine, lays out two boxes and prints what the guard said, one
// "key value" to a line.
package main

import (
	"fmt"
	"os"

	"dryfit/render/schematic/layoutcache"
	"dryfit/render/schematic/place"
)

func main() {
	s := layoutcache.Open() // the engine asks again and is told the same
	fmt.Println("folder", s.Folder)
	fmt.Println("why", s.Why)
	pts, err := place.Boxes([]place.Box{{W: 10, H: 5}, {W: 10, H: 5}}, []place.Edge{{From: 0, To: 1}}, 5, 5)
	if err != nil || len(pts) != 2 || pts[1].X <= pts[0].X {
		fmt.Fprintln(os.Stderr, "layout:", pts, err)
		os.Exit(1)
	}
	fmt.Println("laid-out true")
}

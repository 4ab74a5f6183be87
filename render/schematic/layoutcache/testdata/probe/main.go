// Probe starts the layout library, lays out two boxes and prints what the guard did, one
// "key value" to a line.
package main

import (
	"fmt"
	"os"

	"dryfit/render/schematic/layoutcache"
	"dryfit/render/schematic/place"
)

func main() {
	s := layoutcache.Report()
	fmt.Println("folder", s.Folder)
	fmt.Println("why", s.Why)
	fmt.Println("tmpdir", os.Getenv("TMPDIR"))
	_, set := os.LookupEnv("TMPDIR")
	fmt.Println("tmpdir-set", set)
	pts, err := place.Boxes([]place.Box{{W: 10, H: 5}, {W: 10, H: 5}}, []place.Edge{{From: 0, To: 1}}, 5, 5)
	if err != nil || len(pts) != 2 || pts[1].X <= pts[0].X {
		fmt.Fprintln(os.Stderr, "layout:", pts, err)
		os.Exit(1)
	}
	fmt.Println("laid-out true")
}

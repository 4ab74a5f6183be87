// Probe has the layout engine compile one empty function in place of its own code, which takes half a
// second, and prints what the guard said, one "key value" to a line.
package main

import (
	"fmt"
	"os"

	"dryfit/render/schematic/engine"
	"dryfit/render/schematic/layoutcache"
)

// small is a module of WebAssembly with one function that does nothing: its head, one type, one
// function of it, and its code.
var small = []byte("\x00asm\x01\x00\x00\x00" + "\x01\x04\x01\x60\x00\x00" + "\x03\x02\x01\x00" + "\x0a\x04\x01\x02\x00\x0b")

func main() {
	s := layoutcache.Open() // the engine asks again and is told the same
	fmt.Println("folder", s.Folder)
	fmt.Println("why", s.Why)
	if err := engine.Compile(small); err != nil {
		fmt.Fprintln(os.Stderr, "compiling:", err)
		os.Exit(1)
	}
	fmt.Println("compiled true")
}

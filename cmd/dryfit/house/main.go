// Command house draws the packages of dryfit, floor by floor, with what they import, from their
// own source: the picture of DEVELOPERS.md.
package main

import (
	"fmt"
	"os"
	"path/filepath"

	"dryfit/render/scene"
)

//go:generate go run .

// root is the top folder and picture the file drawn, from this folder.
const root = "../../.."

var picture = filepath.Join(root, "testdata", "pictures", "house.svg")

func main() {
	svg, err := house()
	if err == nil {
		err = os.WriteFile(picture, svg, 0o644)
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, "house:", err)
		os.Exit(1)
	}
}

// house is the picture as it is now.
func house() ([]byte, error) {
	list, err := imports(root)
	if err != nil {
		return nil, err
	}
	s, err := draw(list)
	if err != nil {
		return nil, err
	}
	return scene.SVG(s), nil
}

package main

// The pictures of the README.
//
//go:generate go run . draw --view schematic --dpi 100 -o ../../testdata/pictures/schematic.png ../../testdata/two-speed.toml
//go:generate go run . draw --view isometric --dpi 100 -o ../../testdata/pictures/isometric.png ../../testdata/two-speed.toml
//go:generate go run . draw --view detail --dpi 100 -o ../../testdata/pictures/detail.png ../../testdata/two-speed.toml

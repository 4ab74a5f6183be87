package isometric

import "dryfit/render/scene"

// What labels and the legend need round the pipes, mm.
const (
	labelRoom  = 11.0
	legendRoom = 22.0
)

// Bounds of what is drawn and how, in members.
const (
	mostApart    = 120 // whose lines are moved out of each other's way
	mostOverview = 150 // that are labelled in an overview
)

// room is what the page has for the pipes alone, with labels round them, notes and legend.
func (d *drawing) room() scene.Box {
	w, h := d.in.Page.Format.Size(d.in.Page.Orientation)
	return scene.Box{MaxX: w - 34 - 2*labelRoom, MaxY: h - 48 - legendRoom - 2*labelRoom}
}

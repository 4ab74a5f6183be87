package members

import "dryfit/render/scene"

// What labels and the legend need round the pipes, mm.
const (
	LabelRoom  = 11.0
	legendRoom = 22.0
)

// Bounds of what is drawn and how, in members.
const (
	MostApart    = 120 // whose lines are moved out of each other's way
	MostOverview = 150 // that are labelled in an overview
)

// Room is what the page has for the pipes alone, with labels round them, notes and legend.
func (d *Drawing) Room() scene.Box {
	w, h := d.In.Page.Format.Size(d.In.Page.Orientation)
	return scene.Box{MaxX: w - 34 - 2*LabelRoom, MaxY: h - 48 - legendRoom - 2*LabelRoom}
}

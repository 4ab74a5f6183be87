package graph

// HottestC is the most the water of a tub may have, and so the most anything that heats it may be set to,
// °C. Source: EN 17125, IEC 60335-2-60 (from memory).
const HottestC = 40

// How set points stand to each other, K. Common practice, no source.
const (
	ElementBelowK     = 2 // an element that helps a unit stands so far below it at the least,
	MostElementBelowK = 3 // and so far as a rule
	ControllerAboveK  = 1 // a controller that keeps a unit's pump running stands so far above it at the least
)

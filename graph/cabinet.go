package graph

// Span is a box along the axes: two opposite corners, mm, counted from some port.
type Span [2]Vec

// Cabinet is [cabinet]: the room inside it, as measured. Nil in a Circuit where nobody
// described it.
type Cabinet struct {
	From   PortRef // the port of the old work the corners are counted from
	Corner Vec     // one corner, mm
	Far    Vec     // the opposite one
	Pos    Pos
	KeyPos map[string]Pos
}

package route

import "dryfit/graph"

// Link is what the order of assembly needs to know of a joint, beside the Joint itself.
type Link struct {
	A, B   string    // the rigid bodies it joins
	Into   graph.Vec // the way the spigot enters its socket, unit; zero: not known
	Spigot byte      // 'a' or 'b': the side that is the spigot
	Depth  float64   // insertion depth
	Flex   bool      // one side is hose or flexible pipe and can be bent aside
	Slip   bool      // a slip coupling can be slid over it from a park on bare pipe
	Open   bool      // a union nut
	Unit   bool      // at the unit
	Old    bool      // at the end of old pipe or at an old part
	Play   float64   // how far the old end can be drawn back, mm; 0 where nothing was said
	Aside  *bool     // the old end can be sprung aside; nil: not said
	Piece  int       // index of the piece; -1
	Part   string    // id of the part; ""
	Run    int       // index of the run; -1
}

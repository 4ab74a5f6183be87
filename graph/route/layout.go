package route

import (
	"fmt"

	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/settle"
)

// Layout is one stage of a circuit laid out in space: where every port stands, which
// fittings the legs need, and the straight pieces between them.
type Layout struct {
	Circuit   *graph.Circuit
	Stage     *settle.Stage        // what it is a layout of
	Paths     []Path               // one for each of Circuit.Runs, same order
	Positions map[string]graph.Vec // "part.port" -> mm from the circuit's datum; ports whose position follows from nothing are absent
	Pieces    []Piece              // every straight piece of the new work, numbered from 1 in order of runs and legs
	Joints    []Joint              // every joint of the new work, numbered from 1
	Closures  []Closure            // one for each loop of located runs
	Findings  []graph.Diagnostic
	Doubts    []Doubt // of the new pipe: what they name is told in Findings
	// Unmeasured are the new runs (indexes into Paths) known only by their length: no piece is
	// cut for them and their pipe is in no bar.
	Unmeasured []int
	Groups     map[string]int       // "part.port" -> number of the group it is tied to by legs and parts of known length; positions in two groups are drawn beside each other by guess
	Ways       map[string]graph.Vec // "part.port" -> way the pipe leaves the part there, unit; absent where no leg says

	inLine   map[string]InLinePart // new in-line parts by id, for the tolerance of loops
	links    []Link                // one for each of Joints
	assembly *Assembly             // worked out by Finish, so that joints are numbered in their order
	sequence *sequence             // how it was worked out
	levels   func() Levels         // worked out once, by whoever asks first
}

// Path is the path of a run by its id; nil where there is no layout, or no such run in it.
func (l *Layout) Path(run string) *Path {
	if l == nil {
		return nil
	}
	for i := range l.Paths {
		if l.Paths[i].Run.ID == run {
			return &l.Paths[i]
		}
	}
	return nil
}

// As is the layout of a circuit that lies as this one does: of the same parts and runs, with the
// same lengths, sizes and bodies. Its values are those of this one's stage.
func (l *Layout) As(c *graph.Circuit) *Layout {
	out := *l
	out.Circuit = c
	return &out
}

// Path is one run laid out.
type Path struct {
	Run      *graph.Run
	Pipe     catalog.Row // its pipe's row, overrides of the run laid over it; zero Row where none is known
	LengthMM float64     // along the axis, centre to centre
	Points   []graph.Vec // start, bends, end; from the datum if Located, else from the run's start; nil without legs
	Located  bool
	Fittings []Fitting // from start to end: what the user never wrote, and in a run known by length what he counted
	Pieces   []int     // indexes into Layout.Pieces
	Stops    []End     // what stands at each of Points, old work too; take-off and depth 0 where the pipe goes straight on
}

// Fitting is a fitting that legs, sizes, families or stock lengths ask for.
type Fitting struct {
	Kind     string      // catalogue kind: "elbow-90", "elbow-45", "elbow-22.5", "reducing-bush", "reducer", "transition", "coupling", …
	Row      catalog.Row // zero Row where the catalogue has none (a finding says so)
	Run      string
	Where    string       // in words: "bend 2 of return-line", "at unit.in"
	Nth      int          // of couplings of one leg, from 1; 0 of what stands alone
	Point    int          // index into the path's Points; 0 start, len-1 end; -1 not known
	At       graph.Vec    // place, where the path has points
	TurnDeg  float64      // angle of an elbow
	Count    int          // 1, or the count of a run known by length
	From, To catalog.Size // of a reducer or transition, in the run's direction
	New      bool
	// Near and Far are the faces of an adaptor between a part and its pipe, from the part
	// outwards; both zero where the path has no place, and for every other fitting.
	Near, Far graph.Vec
}

// Place is where the fitting stands, told from others like it: "in leg 1 of return-line, no. 2".
func (f *Fitting) Place() string {
	if f.Nth > 0 {
		return fmt.Sprintf("%s, no. %d", f.Where, f.Nth)
	}
	return f.Where
}

// Piece is one straight piece of pipe to cut.
type Piece struct {
	Number           int
	Run              *graph.Run
	Leg              int // from 1
	Spec             catalog.Spec
	Size             catalog.Size
	CutMM            float64
	CentreToCentreMM float64
	From, To         End
	Start, Finish    graph.Vec // ends of the cut piece, if the path is located
	Measure          bool      // CutMM hangs on a take-off nobody could read from a standard
	MeasureWhat      []string  // which parts to measure first
	OnSite           bool      // can't be cut before the unit stands: set by package plan
	OverMM           float64   // it is cut so much longer than CutMM, to be fitted in its place; 0: it is not
	FitJoint         int       // of a piece over length: number of the joint it is fitted at, the last of its loop but union nuts
}

// SawMM is how long a piece is sawn: with what it is left over length.
func (p *Piece) SawMM() float64 { return p.CutMM + p.OverMM }

// Signs are the signs beside its number: * where a part is measured first, + where it is cut on
// site.
func (p *Piece) Signs() string {
	signs := ""
	if p.Measure {
		signs = "*"
	}
	if p.OnSite {
		signs += "+"
	}
	return signs
}

// End is one end of a piece: what it goes into and how deep.
type End struct {
	Fitting               string // in words, as Fitting.Where or the part's id and port
	Kind                  string // catalogue kind or part kind
	Joint                 int    // number in Layout.Joints; 0: not a joint of the new work
	TakeOffMM             float64
	ShortMM               float64 // by how much of it the pipe is cut short of old pipe that a slip coupling joins it to
	DepthMM               float64 // insertion depth
	TolMinusMM, TolPlusMM float64 // of the take-off
	Measure               bool
}

// Joint is one socket (or union, barb, thread) where two things meet.
type Joint struct {
	Number  int
	Step    int    // place in the order of assembly, from 1; 0: no order was found
	Kind    string // "cement", "union", "barb", "thread", "slip"
	A, B    string // in words: "piece 3", "elbow at bend 2 of to-unit", "v1.in"
	Run     string
	At      graph.Vec
	Located bool
	Spec    catalog.Spec
	Size    catalog.Size

	BodyA, BodyB string    // the rigid bodies it joins: see Layout.BodyAt; "existing" for all that is there
	Spigot       byte      // 'a' or 'b': the side that goes into the other
	Into         graph.Vec // the way the spigot goes in, unit; zero where not known
	DepthMM      float64   // how far it goes in; 0 where two faces meet
	PlayMM       float64   // how far the old end in it can be drawn back; 0 where nothing was said
	Clips        int       // of a barb: hose clips on the tail
	Nut          bool      // a union nut: the faces meet and are drawn together
	Remains      bool      // B is what is left of old pipe or hose: "old hose of line"
}

// Closure is one loop of the layout and by how much it misses itself.
type Closure struct {
	Runs    []string
	ErrorMM graph.Vec // what is missing from the last end to the first
	Closed  bool      // within the limit
}

// TakenAsStraight reports whether a run of rigid pipe is cut as one straight piece because no more
// than its length is written. Hose and flexible pipe are as long as they are, however they bend.
func TakenAsStraight(r *graph.Run) bool {
	return len(r.Legs) == 0 && r.HasLength && r.LengthMM > 0 && len(r.Fittings) == 0 && !r.Spec.Flexible()
}

// Package scene is the display list: shapes and text on one page, written alike as SVG,
// PNG and PDF.
//
// Coordinates are mm from the page's top left corner, Y down. Colours are black and
// greys only, so that a print in black and white loses nothing.
package scene

// Scene is one page.
type Scene struct {
	Name              string // for titles and link targets
	WidthMM, HeightMM float64
	Items             []Item // drawn in order
}

// Item is a Shape or a Text.
type Item interface{ item() }

// Point is a place on the page, mm.
type Point struct{ X, Y float64 }

// Style says how a shape is drawn. The zero Style draws nothing.
type Style struct {
	StrokeMM float64   // line width; 0: no line
	Grey     float64   // of the line: 0 black to 1 white
	Dash     []float64 // mm on, off, …; nil: solid
	Fill     bool
	FillGrey float64 // 0 black to 1 white
}

// Shape is one or more sub-paths of straight and cubic segments.
type Shape struct {
	Style Style
	Paths []SubPath
	Name  string // what it stands for, for tests and SVG classes: "run:return-line", "symbol:unit"
}

// SubPath starts at Start and follows Segments; Closed joins the end to the start.
type SubPath struct {
	Start    Point
	Segments []Segment
	Closed   bool
}

// Segment is a straight line to To, or with Curve a cubic Bézier by C1 and C2.
type Segment struct {
	Curve      bool
	C1, C2, To Point
}

// Anchor says which point of a text its At is.
type Anchor int

// The anchors, all on the baseline unless Middle is set in Text.
const (
	Start Anchor = iota
	Centre
	End
)

// Text is one line of text.
type Text struct {
	At      Point
	Text    string
	SizeMM  float64 // height of the em; capitals are about 0.73 of it
	Bold    bool
	Grey    float64
	Anchor  Anchor
	Middle  bool    // At is the middle of the height of capitals, not the baseline
	TurnDeg float64 // counter-clockwise on the page
	SkewDeg float64 // slant along X, for text in an isometric plane
	Halo    bool    // a white edge under the letters
	Name    string
}

func (Shape) item() {}
func (Text) item()  {}

package takeoff

import (
	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/route"
	"dryfit/graph/takeoff/stock"
)

// Bill is everything to order and everything that is there already.
type Bill struct {
	Items                  []Item  // new work first, then existing; sorted by kind, size, item
	Method                 string  // the handbook method behind K and equivalent length, with its source
	Totals                 []Total // equivalent length per run, then of the unit's branch
	TotalEquivalentLengthM float64
}

// Item is one line of the bill.
type Item struct {
	Name              string // as the merchant says it: "elbow 90, socket, 1-1/2 in"
	Kind              string
	Spec              catalog.Spec
	Size              string // "2 x 1-1/2 in" for a reducing part
	Ends              string // "socket", "socket/thread", …; inch or metric said
	Quantity          float64
	Unit              string // "pc", "m", "bar", "ml"
	Spare             float64
	EquivalentLengthM float64 // of one, handbook, m of pipe of its size; of a tee: of its run; 0: none
	K                 float64 // of one, on the bore of its size; of a tee: of its run
	BranchLengthM     float64 // of a tee: equivalent length round its corner, to or from the branch
	BranchK           float64
	Set               []Setting // of hand valves: those of them that are neither open nor shut
	Source            string
	Own               bool // the row is the user's
	Removed           bool // was there and is taken out
	New               bool
	Measure           bool // measure the part first
	Where             []Place
	Price, Code       string

	sizeMM float64 // for sorting
}

// Setting is what a hand valve costs as it is set; its item has it as it is bought, open.
type Setting struct {
	Part              string
	Open              graph.Opening // 0: it is set by its Kv
	Kv                float64       // m³/h at the setting; 0: it is set by how far it is open
	K                 float64       // on the bore of its size
	EquivalentLengthM float64       // handbook, m of pipe of its size
}

// Total is an equivalent length summed.
type Total struct {
	Name             string // run id, or "unit's branch"
	PipeM, FittingsM float64
}

// CutList is the pieces and how they come out of the stock.
type CutList struct {
	Pieces     []route.Piece
	Plans      []StockPlan
	KerfMM     float64 // of the saw; what is not sawn loses none
	KerfSource string
}

// StockPlan is the bars of one spec and size.
type StockPlan struct {
	Spec          catalog.Spec
	Size          catalog.Size
	KerfMM        float64 // what each cut takes; 0 where it is not sawn
	Bars          []stock.Bar
	Cost          string  // decimal; "" where a price is missing (then bars are fewest, then shortest)
	CostLengthMM  float64 // total length of bars bought
	ProvedOptimal bool
	LowerBound    string          // decimal, same measure as Cost (or mm where prices are missing)
	Proof         quantity.Text   // in words
	Unplaced      []int           // pieces longer than any stock, or for which counted stock does not suffice
	Problems      []quantity.Text // what could not be planned and why, in words
	StockSource   string          // who says what is on sale
	Tight         []Tight         // bars without room for what is still to be measured
	Spares        []stock.Bar     // bought besides, for what may come out longer or be cut wrong
	Pos           graph.Pos       // where the description first names such stock; zero where it names none
}

// Unit is what a length of its stock is called: a bar, of what bends a coil.
func (p *StockPlan) Unit() string {
	if p.Spec.Flexible() {
		return "coil"
	}
	return "bar"
}

// Word is what one of its lengths is called: a coil of which there is but an offcut is a length.
func (p *StockPlan) Word(b stock.Bar) string {
	if b.Offcut && p.Spec.Flexible() {
		return "length"
	}
	return p.Unit()
}

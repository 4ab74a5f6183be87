package spread

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/catalog/tables"
	"dryfit/graph"
	"dryfit/graph/settle"
)

// Range is a value with what the spreads of the inputs make of it: nine in ten of the samples
// lie between Low and High, half of them below Middle. Likely is the case that is taken: the
// sample's middle is another where what is not listed only adds to a loss.
//
// A sample in which a pump runs past the last point of its curve is counted with what a
// straight line on from the curve makes of it. Where half or more of the outermost tenth of the
// samples are such, that end is open: Low or High is then the last value within the curve. A
// share of a tenth and not the one sample at the end, so that a millimetre more pipe does not
// open it.
type Range struct {
	Low, Likely, Middle, High float64
	Of                        int  // how many samples; 0: none were made
	PastLow, PastHigh         int  // how many of them are past a pump's curve, below Middle and from it on
	OpenLow, OpenHigh         bool // the end is past a pump's curve: it may be less than Low, more than High
}

// BeyondLow is the share of the samples that are past a pump's curve and below Middle, 0 to 1.
func (r *Range) BeyondLow() float64 { return float64(r.PastLow) / float64(max(r.Of, 1)) }

// BeyondHigh is the share of the samples that are past a pump's curve and not below Middle, 0 to 1.
func (r *Range) BeyondHigh() float64 { return float64(r.PastHigh) / float64(max(r.Of, 1)) }

// Ends words the ends of the range, each printed by say: "21.0", "over 22.0" where it is open.
func (r *Range) Ends(say func(float64) string) (low, high string) {
	low, high = say(r.Low), say(r.High)
	if r.OpenLow {
		low = "under " + low
	}
	if r.OpenHigh {
		high = "over " + high
	}
	return low, high
}

// Words prints the range: "21.0 to over 22.0, past the curve".
func (r *Range) Words(say func(float64) string) string {
	low, high := r.Ends(say)
	return low + " to " + high + r.pastWords()
}

// pastWords says behind the ends why one is open; "" where none is.
func (r *Range) pastWords() string {
	if r.OpenLow || r.OpenHigh {
		return ", past the curve"
	}
	return ""
}

// Between prints the range in a sentence: "between -9 and over -4, past the curve".
func (r *Range) Between(say func(float64) string, unit string) string {
	low, high := r.Ends(say)
	return "between " + low + " and " + high + unit + r.pastWords()
}

// Aside says, behind the range in a sentence, that the case that is told lies outside it, and where the middle of the samples
// is: what was read is held against every sample, and moves that case only where it can't be so. "" where it lies inside.
func (r *Range) Aside(say func(float64) string) string {
	if r.Of == 0 || !(r.Likely < r.Low && !r.OpenLow || r.Likely > r.High && !r.OpenHigh) {
		return ""
	}
	for _, end := range []float64{r.Low, r.High} {
		if say(r.Likely) == say(end) {
			return ""
		}
	}
	return ", their middle " + say(r.Middle) + ": what is told lies outside"
}

// Ranges is the network solved again over a fixed low-discrepancy sample of the spreads.
type Ranges struct {
	Samples, Unsolved int
	Points            []int // of the sample, those taken
	Unknowns          int   // how many were sampled
	Moved             int   // how many of them were moved each by itself, for MeasureFirst: all but in very large circuits
	// What was read on the tub as it stands; of how many points that were tried Points are those that
	// fit it (0: nothing was read, or nothing could be held against it), how often it was taken as √2
	// less exact so that enough did, and whether none does, so that Points are all of the sample.
	Read           []Read
	Tried, Coarser int
	Unfit          bool
	Fitted         bool   // the case that is taken is another than the one described
	AsItStands     bool   // nothing is new and nothing goes: what stands before stands after
	Unit           string // id of the unit whose flow they are about, where there are several; "" where it is the only one
	Modes          []ModeRanges
	Promises       []Promise
	Set            *Set        // what the flows are once a throttle is set by its reading; nil where none is
	MeasureFirst   []Influence // what matters most comes first; what moves nothing by a two-hundredth is left out
	Moves          []Influence // all that may be off, in the same order
}

// OneOf is the id in quotes of the unit whose flow it moves; "" where there is only one.
func (f *Influence) OneOf() string {
	if f.UnitID == "" {
		return ""
	}
	return strconv.Quote(f.UnitID)
}

// UnitIn is a unit, by its id, in a mode.
type UnitIn struct{ Unit, Mode string }

// ModeRanges holds the ranges of one stage in one mode. Parts and Runs are in the order of
// the solution's.
type ModeRanges struct {
	Mode       string
	Stage      graph.Stage
	Parts      []Range // flow, m³/s
	Drops      []Range // Pa
	Runs       []Range // flow, m³/s
	JetsChange Range   // share of today's flow through the jets, -1..; after stage only
	HasJets    bool
	Of, Past   int // how many samples were solved, and in how many of them a pump is past its curve
	// UnitFlow is the flow through the unit, m³/s, at each point of the sample that was taken, so
	// that what hangs on it may be worked out at the same points; NaN: no answer. After stage only.
	UnitFlow []float64
}

// PromiseKind says what a promise is about.
type PromiseKind string

// The promises. Those of the unit's least and most flow and of the pressures are judged; the
// others are told.
const (
	LeastFlow    PromiseKind = "least-flow"
	RatedFlow    PromiseKind = "rated-flow"
	MostFlow     PromiseKind = "most-flow"
	UnitPressure PromiseKind = "unit-pressure"
	PipePressure PromiseKind = "pipe-pressure"
	CheckState   PromiseKind = "check-state"
	JetsTenth    PromiseKind = "jets-tenth"
)

// Judged are the promises that may be accepted though too few of the samples keep them.
func Judged() []PromiseKind { return []PromiseKind{LeastFlow, MostFlow, UnitPressure, PipePressure} }

// Promise is something the job should keep, and in how many of the samples it does. That is
// a share of a sample of guesses, not a probability.
type Promise struct {
	Mode string
	Kind PromiseKind
	Part string        // id
	Text quantity.Text // "the unit gets at least its least flow, 2.9 m3/h"
	// Level is the id of the part or run that decides it and of which nothing says how far below
	// the water it lies, so that a spread is taken for it; "" where the level is known.
	Level    string
	Pump     string // id of the pump whose shut-off pressure is stood, of the promises of pressures
	Stands   bool   // it is of another unit's flow, which is there already and can be read
	Kept, Of int
	Share    float64 // Kept over Of
	// SetKept of SetOf samples keep it once the throttle in the unit's bypass is set by its reading;
	// both 0 where none is, or where that changes nothing of it.
	SetKept, SetOf int
	// SetExact of them would keep one of the unit's flow were that reading exact.
	SetExact int
	Accepted string // why the fitter takes it on, by [[accept]]; "" where it isn't
}

// How often a judged promise must be kept: below WarnBelow it is a warning, below
// MeasureFirstBelow something is to be measured before anything is cut. Choice of this
// program.
const (
	WarnBelow         = 0.95
	MeasureFirstBelow = 0.80
	// HarmfulGuess is the share of the unit's or the jets' flow a guess may move either way before it is
	// told as a finding of its own.
	HarmfulGuess = 0.10
)

// Judged reports whether a promise that is kept too seldom is a finding.
func (p *Promise) Judged() bool { return slices.Contains(Judged(), p.Kind) }

// Sure is the share of the samples that keep it once all is set as the papers say: as the throttle
// is set by its reading, where one is.
func (p *Promise) Sure() float64 {
	if p.SetOf > 0 {
		return float64(p.SetKept) / float64(p.SetOf)
	}
	return p.Share
}

// Coarse reports whether it is broken by how coarsely the throttle's reading reads more than by all
// else: an exact one would spare more than half of the breaches.
func (p *Promise) Coarse() bool { return p.SetOf > 0 && 2*(p.SetOf-p.SetExact) < p.SetOf-p.SetKept }

// Of100 is in how many of a hundred ways it is kept, rounded down: 94.9 is not 95.
func (p *Promise) Of100() string { return quantity.Trim(math.Floor(100*p.Sure() + 1e-9)) }

// Held says in how many of the ways the unknowns could lie it is kept.
func (p *Promise) Held() quantity.Text {
	return graph.Say("held in %s of 100 ways the unknowns could lie", p.Of100())
}

// Influence is how far one unknown moves the unit's flow, of several that of the one it moves most (or
// the jets', where there is no unit).
type Influence struct {
	What   string        // "jets' drop"
	Number settle.Number // what of it may be off; "" of the bore and the K of jets
	Part   string        // id of the part or run, "" for a whole class
	Mode   string
	Effect float64 // share of the likely value, half the width of what this input alone does
	// Untried tells that it was not moved by itself: in a very large circuit, and what it is of costs the
	// pumps less than what all those are of that were.
	Untried bool
	Moves   Moved // what it moves
	// What it does alone, in the mode in which each is moved most, as shares; 0 where there is none.
	Unit, Jets, Head float64
	UnitMode         string             // where it moves the unit's flow most
	Met              float64            // what it does to the jets' flow in the modes in which the work meets their water
	MetMode          string             // where it does so most
	UnitID           string             // of several units, whose flow it moves so; "" where there is only one
	UnitIn           map[UnitIn]float64 // what it does to the flow of each unit that is watched, in each mode
	Span             tables.Span        // how far it may be off
	Adds             bool               // Span is added to the number, not a share of it
	Taken            *float64           // by what was read: a factor on it, or what is added; nil: as described
	By               []graph.Pos        // where that was read
	Key              settle.Key         // of the settled value that was used; zero: Value says it
	Value            quantity.Text      // what was used
	Source           quantity.Text      // of what was used
	Reading          quantity.Text      // what would settle it
	Given            bool               // the description says it
	Guess            bool               // nobody gave it, or the description says it is assumed
	ToBeSet          bool               // what a valve of the new work is to be set to: nothing of it can be read before it is fitted
}

// Harm is by how much it moves the unit's flow or that of jets the work leaves not all of theirs,
// whichever is more, as a share; the pump's where there is neither.
func (f *Influence) Harm() float64 {
	if f.Moves == PumpsFlow {
		return f.Effect
	}
	return max(f.Unit, f.Met)
}

// Harmed names what Harm is about, the unit's flow or the jets', and the mode it is in.
func (f *Influence) Harmed() (what Moved, mode string) {
	if f.Moves == PumpsFlow {
		return PumpsFlow, f.Mode
	}
	if f.Met > f.Unit {
		return JetsFlow, f.MetMode
	}
	return UnitsFlow, f.UnitMode
}

// PastWords says in how many of the samples of the mode a pump is past its curve, and what is
// made of them; "" where it is in none.
func (m *ModeRanges) PastWords() string {
	if m == nil || m.Past == 0 {
		return ""
	}
	return fmt.Sprintf("in %d of %d samples a pump runs past the last point of its curve: they count by a straight line on from there; more of its curve, from its sheet, would say", m.Past, m.Of)
}

// Of returns the ranges of a mode in a stage, or nil; a nil Ranges has none. Where there is no work
// both stages are one.
func (r *Ranges) Of(mode string, stage graph.Stage) *ModeRanges {
	if r == nil {
		return nil
	}
	for i := range r.Modes {
		if r.Modes[i].Mode == mode && (r.AsItStands || r.Modes[i].Stage == stage) {
			return &r.Modes[i]
		}
	}
	return nil
}

// Said is what the unknown is of, with the id of its part in quotes, so that nobody takes it
// for a word and papers can put its name there: `the drop of "unit"`.
func (f *Influence) Said() string {
	if f.Part == "" {
		return f.What
	}
	if of, ok := strings.CutSuffix(f.What, " "+f.Part); ok {
		return fmt.Sprintf("%s %q", of, f.Part)
	}
	for _, before := range []string{" of ", " "} {
		if head, tail, ok := strings.Cut(f.What, before+f.Part+" "); ok {
			return fmt.Sprintf("%s%s%q %s", head, before, f.Part, tail)
		}
	}
	return f.What
}

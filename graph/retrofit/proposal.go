package retrofit

import (
	"math"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/retrofit/lead"
)

// Place is one stretch of existing straight pipe where a cut might go.
type Place struct {
	Run          string
	Leg          int     // from 1; 0 for a run known only by its length
	FromMM       float64 // first cut line, from the start of the leg (centre or stop it is measured from)
	ToMM         float64 // second cut line
	Datum        string  // what a tape is held to, in words: "face of the elbow-90 at bend 2 of return-line"
	DatumMM      float64 // from the start of the leg to there
	HeldMM       float64 // so far before DatumMM a tape is held: to the end of hose, which lies over its barb; past legs in one line with this one
	Far          string  // the same at the other end of the leg
	FarMM        float64 // from the end of the leg back to there
	FarHeldMM    float64 // HeldMM at the other end
	RoomMM       float64 // straight pipe there is, between the sockets at its ends
	NeededMM     float64 // what the assembly needs
	PlayMM       float64 // how far an end can be drawn back; 0 where nobody said
	Terms        []Term  // NeededMM term by term
	Doubts       []Doubt // parts of NeededMM whose lengths are guesses
	MeasureFirst bool    // known only by its length
	Kept         [2]bool // the leg's old end is renewed up to an adaptor that stays, at its start, at its end: nothing is sawn there
	StraightMM   float64 // straight pipe before the check, from the last pump or elbow; 0 without a check
	WantedMM     float64 // what a check wants of it
}

// Cuts returns the two cut lines as they are said and marked everywhere: from the datum, mm.
// Where an adaptor stays, the old pipe comes out as far as its face.
func (p Place) Cuts() (first, second float64) {
	tape, end := p.Tape()
	first, second = p.FromMM-tape, p.ToMM-tape
	if p.Kept[0] {
		first = 0
	}
	if p.Kept[1] {
		second = end - tape
	}
	return first, second
}

// Tape returns between which places a tape is held along the straight the leg is part of, mm from the start of
// the leg: what can be seen before it and behind it. The first is below 0 where legs in one line come before.
func (p Place) Tape() (from, to float64) {
	return p.DatumMM - p.HeldMM, p.LegMM() - p.FarMM + p.FarHeldMM
}

// LegMM is the length of the leg, end to end.
func (p Place) LegMM() float64 { return p.DatumMM + p.RoomMM + p.FarMM }

// Lies returns where along the leg the work lies, from socket to socket of what goes in: Terms
// follow one another from the first to the second.
func (p Place) Lies() (from, to float64) {
	if len(p.Terms) == 0 {
		return p.FromMM, p.ToMM
	}
	from = p.FromMM - p.Terms[0].MM
	return from, from + p.NeededMM
}

// FirstCuts returns between which places the first cut line lies for the work to stand on the straight pipe
// there is, mm from the start of the leg; the first is beyond the second where it has no room.
func (p Place) FirstCuts() (least, most float64) {
	depth := 0.0
	if len(p.Terms) > 0 {
		depth = p.Terms[0].MM
	}
	return p.DatumMM + depth, p.LegMM() - p.FarMM - p.NeededMM + depth
}

// TooShort reports whether the place lacks the length, so that nothing built there means
// anything.
func (p Place) TooShort() bool { return !p.MeasureFirst && p.RoomMM < p.NeededMM }

// Doubt is a part whose length nobody measured.
type Doubt struct {
	What   quantity.Text
	MM     float64 // stop to stop, as it is taken
	OverMM float64 // it may be longer by so much
}

// UncertainMM is by how much the work may need more than NeededMM, every guess off at once.
func (p Place) UncertainMM() float64 {
	sum := 0.0
	for _, d := range p.Doubts {
		sum += d.OverMM
	}
	return sum
}

// Deciding is the doubt that is the largest, where the place has less to spare than its lengths
// are uncertain: the part to measure before anything is cut.
func (p Place) Deciding() (d Doubt, ok bool) {
	if p.MeasureFirst || p.TooShort() || p.RoomMM-p.NeededMM >= p.UncertainMM()-0.05 {
		return d, false
	}
	for _, one := range p.Doubts {
		if one.OverMM > d.OverMM {
			d, ok = one, true
		}
	}
	return d, ok
}

// OnlyIf says what decides whether a place will do that has less to spare than its lengths are
// uncertain: "only if …"; "" of every other.
func (p Place) OnlyIf() quantity.Text {
	d, ok := p.Deciding()
	if !ok {
		return ""
	}
	length := quantity.Length.Of
	return graph.Say("only if the %s measures at most %s from stop to stop: it is taken as %s, and the lengths of the work may come to %s more", d.What,
		length(math.Floor(d.MM+p.RoomMM-p.NeededMM+1e-3)), length(d.MM), length(p.UncertainMM()))
}

// Term is one part of a sum of lengths.
type Term struct {
	What quantity.Text
	MM   float64
}

// Choice is what one proposal is built from.
type Choice struct {
	Bypass     string  // "spring", "valve", "none"; "parallel" beside a unit that has its bypass
	Spring     string  // catalogue row of the spring check; "" for the others
	ThrottleKv float64 // setting of the bypass valve, m³/h; 0: full open
	Shut       bool    // the bypass valve stays shut in use
}

// Proposal is the circuit as it would be with the unit fitted at one place.
type Proposal struct {
	Place         Place
	Second        *Place // of a second cut, where there are two; nil
	Choice        Choice
	Circuit       *graph.Circuit // complete: existing, removed and new; no Retrofit request left in it
	NewIDs        []string       // parts and runs it added, in the order of the water
	Element       string         // id of the bypass element; "" where it has none
	Marking       Marking
	SecondMarking *Marking    // of the second cut; nil
	Pos           graph.Pos   // of the cut in the request; zero: the tool chose it
	Strands       [2][]string // ids of the parts and runs of the pipe to the unit and of that from it

	Unled bool // no pipes lead to where the unit stands: those in the circuit only stand for them

	led *ledPipes // how the pipes were found; nil where they were not
}

// Marking tells where to mark the old pipe.
type Marking struct {
	Run                         string
	Leg                         int
	From                        string          // the face measured from, in words: "face of the elbow at bend 1 of return-line"
	FirstMM, SecondMM           float64         // from that face to the cut lines
	SlugMM                      float64         // to take out between the cut lines, kerf on the waste side
	DepthFirstMM, DepthSecondMM float64         // insertion depth marks on what stays
	KerfMM                      float64         // 0 on hose
	Hose                        bool            // it is hose that is cut, with shears or a knife
	Kept                        [2]bool         // an old adaptor stays there: the pipe comes out of it, and no line is sawn
	Keeps                       []quantity.Text // what stays, in words
}

// Led reports whether the pipes to the unit were found and others may be looked for.
func (p *Proposal) Led() bool { return p.led != nil && p.led.pair != nil && !p.led.settled }

// Refuse has another pair found the next time the place is built: the pipe to the unit, that
// from it, or this pair of both can't be had.
func (p *Proposal) Refuse(to, from bool) {
	var r lead.Refused
	if to {
		r.To = p.led.pair.To
	}
	if from {
		r.From = p.led.pair.From
	}
	*p.led = ledPipes{refused: append(p.led.refused, r)}
}

// Keep settles on what was found for a proposal: the place is built with it from now on.
// found is what Found returned of it.
func (p *Proposal) Keep(found Found) {
	if p.led != nil {
		*p.led = found.pipes
		p.led.settled = true
	}
}

// Found is a way of the pipes that was found, to be gone back to.
type Found struct{ pipes ledPipes }

// Found returns the way of the proposal's pipes.
func (p *Proposal) Found() Found {
	if p.led == nil {
		return Found{}
	}
	return Found{*p.led}
}

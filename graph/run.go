package graph

import (
	"math"
	"slices"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
)

// PortRef names one port of one part.
type PortRef struct {
	Part string
	Port string
	Pos  Pos
}

// String returns "part.port".
func (p PortRef) String() string { return p.Part + "." + p.Port }

// Same reports whether both name one port, wherever they stand in the description.
func (p PortRef) Same(other PortRef) bool { return p.Part == other.Part && p.Port == other.Port }

// Run is pipe from one port to another, with bends where its legs meet.
type Run struct {
	ID        string // as written, else "from>to"
	Named     bool   // the description gave the id
	From, To  PortRef
	Spec      catalog.Spec // as written or [pipe]'s default
	Size      catalog.Size // as written or [pipe]'s default
	Material  string       // as printed on it, one of Materials; "": as [pipe] says
	Existing  bool
	Removed   bool
	RemainsOf string // id of the existing run this is what is left of, after a cut; such a run is old pipe, in the after stage only
	Known     Knowledge

	AdaptorsKept []PortRef // ends of a new run at which the adaptor on the old part is there already and stays

	Legs      []Leg          // empty where nobody measured them
	LengthMM  float64        // along the axis; where Legs is empty
	HasLength bool           // length was written (it may be 0: two parts joined directly)
	Fittings  []FittingCount // with LengthMM: the bends that are there
	Faces     bool           // legs were measured from face to face (old pipe): take-offs and sockets are added

	BoreMM            float64 // overrides the catalogue; 0: not given
	RoughnessMM       float64 // overrides the catalogue; negative: not given
	K                 float64 // extra loss coefficient on the run's bore, -
	MeasuredOutsideMM float64 // by calliper; 0: not measured

	Surroundings // what holds for all legs unless a leg says otherwise
	Insulated    bool
	Outside      bool // runs outdoors: insulation wanted
	ThroughWall  bool // wants a wall sleeve

	InsulationMM Amount // thickness of the insulation round it
	BuriedMM     Amount // depth of its axis below the ground

	Pos    Pos
	KeyPos map[string]Pos
}

// FittingCount is a number of fittings of one kind in a run nobody measured leg by leg.
type FittingCount struct {
	Kind  string // catalogue kind: "elbow-90", "elbow-45", …
	Count int
	Pos   Pos
}

// Leg is one straight stretch, given by its components.
type Leg struct {
	By     Vec  // mm; more than one component: a straight diagonal
	Open   bool // as long as closing the loop needs: By is its way, of length 1; only in a request
	Beyond bool // an open leg that would have to be shorter than nothing, and was told so: the loop it is in can't close
	Surroundings
	Pos     Pos
	Written Written // as it stands in the description; "" where the tool made it
}

// RunName is what a run is called that nobody gave an id: by what it joins.
func RunName(from, to PortRef) string { return from.String() + ">" + to.String() }

// Said is what a run is called in a sentence: what is left of a run that was cut goes by the
// name of that, where nobody gave it one of its own.
func (r *Run) Said() string {
	if !r.Named && r.RemainsOf != "" {
		return r.RemainsOf
	}
	return r.ID
}

// Written is what somebody wrote, letter by letter.
type Written string

// Quoted names the leg as its writer did, so that it is found in the file; one that the tool
// made by its words.
func (l Leg) Quoted() quantity.Text {
	if l.Written != "" {
		return Say("\"%s\"", string(l.Written))
	}
	return Say("\"%s\"", l.Words())
}

// LengthMM returns the length along the leg; 0 for one that is open.
func (l Leg) LengthMM() float64 {
	if l.Open {
		return 0
	}
	return l.By.Len()
}

// LegsMM returns the length along all legs of a way.
func LegsMM(legs []Leg) float64 {
	sum := 0.0
	for _, l := range legs {
		sum += l.LengthMM()
	}
	return sum
}

// Reversed are the legs of a way from its other end.
func Reversed(legs []Leg) []Leg {
	out := make([]Leg, len(legs))
	for i, g := range legs {
		g.By = g.By.Scale(-1)
		out[len(legs)-1-i] = g
	}
	return out
}

// Words writes the leg as a description does: "right 450 mm", "right 300 mm up 180 mm", in
// inch where the text is printed in inch.
func (l Leg) Words() quantity.Text {
	var out []quantity.Text
	for _, c := range l.By.Components() {
		out = append(out, Say("%s %s", c.Word, quantity.Closely(c.By)))
	}
	return quantity.Join(out, " ")
}

// Longer returns the leg longer by at least so much, to a length a person would write in the
// units of the job: whole mm, or quarters of an inch.
func (l Leg) Longer(mm float64, units string) Leg {
	l.By = l.By.Unit().Scale(RoundUp(l.LengthMM()+mm, units))
	return l
}

// Grain is the step between lengths a person would write in the units of a job, mm: whole mm, or
// quarters of an inch.
func Grain(units string) float64 {
	if quantity.SystemOf(units) == quantity.InchSystem {
		return 25.4 / 4
	}
	return 1
}

// RoundUp returns the least length a person would write in the units of a job that is not below
// so many mm.
func RoundUp(mm float64, units string) float64 {
	grain := Grain(units)
	return math.Ceil(mm/grain-1e-9) * grain
}

// Surroundings says what the surroundings of pipe allow. Negative numbers mean "not given".
type Surroundings struct {
	ClearMM     float64 // free room around it
	PlayMM      float64 // how far its free end can be drawn back along its axis
	PushesAside *bool   // its free end can be pushed sideways
	Reachable   *bool   // nil: not said, taken as yes
}

// NothingSaid is of surroundings about which nothing was said.
func NothingSaid() Surroundings { return Surroundings{ClearMM: -1, PlayMM: -1} }

// Same reports whether the two say the same.
func (s Surroundings) Same(o Surroundings) bool {
	same := func(a, b *bool) bool { return a == b || a != nil && b != nil && *a == *b }
	return s.ClearMM == o.ClearMM && s.PlayMM == o.PlayMM && same(s.PushesAside, o.PushesAside) && same(s.Reachable, o.Reachable)
}

// Around returns the surroundings of a leg of the run, from 1: what the leg says before what is said
// of the run; those of the run where it has no such leg.
func (r *Run) Around(leg int) Surroundings {
	out := r.Surroundings
	if leg < 1 || leg > len(r.Legs) {
		return out
	}
	said := r.Legs[leg-1].Surroundings
	if said.ClearMM >= 0 {
		out.ClearMM = said.ClearMM
	}
	if said.PlayMM >= 0 {
		out.PlayMM = said.PlayMM
	}
	if said.PushesAside != nil {
		out.PushesAside = said.PushesAside
	}
	if said.Reachable != nil {
		out.Reachable = said.Reachable
	}
	return out
}

// Keeps reports whether the adaptor at one end of the run was there before and stays.
func (r *Run) Keeps(end PortRef) bool {
	return slices.ContainsFunc(r.AdaptorsKept, end.Same)
}

// Whole is the id of the old run this one is, or is left of.
func (r *Run) Whole() string {
	if r.RemainsOf != "" {
		return r.RemainsOf
	}
	return r.ID
}

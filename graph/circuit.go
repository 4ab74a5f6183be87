package graph

import (
	"path"
	"slices"
	"strings"

	"dryfit/catalog"
)

// Circuit is everything one description says, with every default left empty: package settle
// fills those, once for each stage. Parts and Runs keep the order of the file.
type Circuit struct {
	File     string
	Job      Job
	Water    Water
	Pipe     PipeDefault
	Site     Site
	Parts    []*Part
	Runs     []*Run
	Modes    []Mode // as written; see Circuit.AllModes for the ones that follow from the pumps
	Retrofit *Retrofit
	Cabinet  *Cabinet // nil: nobody described it
	Stock    []Stock
	Accepted []Accepted
	Readings []Reading // of what stands today
	Fit      *Fit      // what is described is taken to be by those; nil: nothing was read, or nobody has asked yet
	Prices   []Price
	Offer    Offer
	// What heat, money and the supply go by; nil or empty where the table is not there.
	HeatLoss *HeatLoss
	Cover    *Cover
	Shells   []Shell
	Use      *Use
	Climate  *Climate
	Tariff   *Tariff
	Supplies []Supply
	// Gone holds, in the circuit of the after stage, the runs that were taken out whose two
	// ends still stand: they say how far apart those ends are.
	Gone []*Run
	// HeatedAt is a part in the water that the unit is to heat, where its pipes or the request tell
	// and are not in this circuit themselves: before the work, or built in at a place. Else "".
	HeatedAt string
	// Catalog is the embedded catalogue with the description's own rows laid over it.
	Catalog *catalog.Catalog
}

// Titled is the job as its papers are headed: where nobody named it, after the file of its
// description, without the ending; what was read from no file ("<stdin>") stays without.
func (c *Circuit) Titled() Job {
	j := c.Job
	if j.Name == "" && c.File != "" && !strings.HasPrefix(c.File, "<") {
		file := path.Base(strings.ReplaceAll(c.File, "\\", "/"))
		j.Name = strings.TrimSuffix(file, path.Ext(file))
	}
	return j
}

// Job is the head of the sheet.
type Job struct {
	Name, Reference, PreparedBy, Revision string
	Date                                  string // as ISO 8601, from the description; never from a clock
	Notes                                 []string
	Units                                 string  // "metric" or "inch"; "" means metric
	KerfMM                                float64 // mm lost by each saw cut; 0 with KerfSet false: catalogue's
	KerfSet                               bool
	Currency                              string
	Photos                                []Photo // taken on site
	Pos                                   Pos
}

// Photo names a picture beside the description.
type Photo struct {
	File string // its path from the description's folder, with slashes
	Pos  Pos
}

// Water is what flows. Zero values mean "not given".
type Water struct {
	VolumeM3       float64
	TemperatureC   float64 // °C; TemperatureSet tells whether it was given
	TemperatureSet bool
	Density        float64 // kg/m³, overrides the equation
	Viscosity      float64 // Pa·s, overrides the equation
	Notes          string
	Pos            Pos
	KeyPos         map[string]Pos
}

// PipeDefault is what runs are made of unless they say otherwise.
type PipeDefault struct {
	Spec              catalog.Spec
	Size              catalog.Size
	MeasuredOutsideMM float64 // by calliper; 0: not measured
	Material          string  // as printed on the old pipe, one of Materials; "": not read
	Pos               Pos
	KeyPos            map[string]Pos
}

// Accepted is a promise of which the fitter knows that it hangs on what is not known, and
// takes it on for a reason.
type Accepted struct {
	Promise string // "least-flow", "most-flow"
	Mode    string // "" for every mode
	Reason  string
	Pos     Pos
}

// Stock is a length of pipe that can be bought or is in the van.
type Stock struct {
	Spec     catalog.Spec
	Size     catalog.Size
	LengthMM float64
	Price    string // decimal text, "" means not known
	Count    int    // 0: as many as wanted
	Offcut   bool   // in the van already
	Pos      Pos
}

// Price is what one part costs.
type Price struct {
	Item  string // a kind, a catalogue row's name, or a part's id
	Price string // decimal text
	Code  string // the merchant's code
	Pos   Pos
}

// Offer is what [prices] says of the whole: what is added to the sum for the customer.
type Offer struct {
	Margin, Tax Amount // shares of the sum, and of the sum with the margin
}

// Part returns the part with the id, or nil.
func (c *Circuit) Part(id string) *Part {
	for _, p := range c.Parts {
		if p.ID == id {
			return p
		}
	}
	return nil
}

// Run returns the run with the id, or nil.
func (c *Circuit) Run(id string) *Run {
	for _, r := range c.Runs {
		if r.ID == id {
			return r
		}
	}
	return nil
}

// Stage is one of the two states a description holds.
type Stage string

// The stages.
const (
	Before Stage = "before" // existing work, with what will be taken out
	After  Stage = "after"  // everything but what was taken out
)

// in reports whether a part with these marks stands in the stage.
func (s Stage) in(existing, removed, remains bool) bool {
	if s == Before {
		return existing && !remains
	}
	return !removed
}

// SameWater reports whether the water of two stages passes the same pipe: of the work nothing is joined to it,
// as where no place for the cut was found.
func SameWater(a, b *Circuit) bool {
	return slices.EqualFunc(a.Runs, b.Runs, func(a, b *Run) bool { return a.ID == b.ID })
}

// At returns the circuit of one stage. Parts and runs are shared, not copied: treat them
// as read-only. Runs whose ends are not in the stage are left out.
func (c *Circuit) At(s Stage) *Circuit {
	out := *c
	out.Parts, out.Runs, out.Gone = nil, nil, nil
	if s == Before && out.HeatedAt == "" {
		out.HeatedAt = c.oldBesideUnit()
	}
	have := make(map[string]bool, len(c.Parts))
	for _, p := range c.Parts {
		if s.in(p.Existing, p.Removed, false) {
			out.Parts = append(out.Parts, p)
			have[p.ID] = true
		}
	}
	for _, r := range c.Runs {
		if s.in(r.Existing, r.Removed, r.RemainsOf != "") && have[r.From.Part] && have[r.To.Part] {
			out.Runs = append(out.Runs, r)
		} else if s == After && r.Removed && have[r.From.Part] && have[r.To.Part] {
			out.Gone = append(out.Gone, r)
		}
	}
	return &out
}

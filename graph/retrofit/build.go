package retrofit

import (
	"slices"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/catalog/tables"
	"dryfit/graph"
	"dryfit/graph/retrofit/draft"
	"dryfit/graph/retrofit/lead"
	"dryfit/graph/route"
	"dryfit/graph/route/solid"
	"dryfit/graph/stream"
)

// Site is a circuit to fit a unit into, as it lies before the work. Building at many places
// of it costs the ways of its water once.
type Site struct {
	circuit *graph.Circuit
	lay     *route.Layout
	net     *stream.Net
	solids  *solid.Bodies // of what is there; nil until they are asked for
	led     map[ledKey]*ledPipes
	stops   stops
	several map[string]bool // see FirstChoice; nil until it is asked for
	common  *lead.Known     // to the pipes led from its places
	trying  bool            // see TriedBeside
}

// ledKey is what the pipes found at a place hang on.
type ledKey struct {
	run          string
	leg          int
	fromMM, toMM float64
	back         string // the run the pipe back is teed into, where that is another
	branch       catalog.Size
}

// NewSite returns the site of a circuit; lay is the stage before the work.
func NewSite(c *graph.Circuit, lay *route.Layout) *Site {
	return &Site{circuit: c, lay: lay, net: lay.Stage.Net(), led: map[ledKey]*ledPipes{}, stops: stops{}, common: &lead.Known{}}
}

// TriedBeside makes what is built here a trial beside another site with the same fittings: notes
// that take a search of their own are left out.
func (site *Site) TriedBeside(other *Site) {
	site.trying, site.common = true, other.common
	site.FittedAs(other)
}

// FittedAs takes over from another site how new parts and pipe meet, where both have one catalogue: it is
// worked out once for a search.
func (site *Site) FittedAs(other *Site) {
	if site.circuit.Catalog == other.circuit.Catalog {
		site.stops = other.stops
	}
}

// Shortened reports whether pipes led from here are by now looked for in fewer steps than for a
// description that is read anew: they may come out otherwise there.
func (site *Site) Shortened() bool { return site.common.Spent() }

// bodies are those of what is there, made once.
func (site *Site) bodies() *solid.Bodies {
	if site.solids == nil {
		site.solids = solid.Of(site.lay)
	}
	return site.solids
}

// Build is Site.Build for one place.
func Build(c *graph.Circuit, lay *route.Layout, place Place, choice Choice) (*Proposal, []graph.Diagnostic) {
	return NewSite(c, lay).Build(place, choice)
}

// Build returns the circuit with the unit fitted at the place: the cut run taken out and what
// is left of it put back as old pipe, two tees with the bypass element between them, and
// the unit's two pipes with isolators, unions, drains and bleeds. The unit is one that is asked
// for, with its ports open, as the reader has seen to; the place is on a leg of the site's, one of
// Places or PlaceAt. It judges nothing: the findings say what was assumed and what found no room.
func (site *Site) Build(place Place, choice Choice) (*Proposal, []graph.Diagnostic) {
	return site.build(place, choice, true)
}

// Sketch is Build with pipes to the unit as short as they go, wherever it stands: enough for
// what reads no lengths, and quickly done.
func (site *Site) Sketch(place Place, choice Choice) (*Proposal, []graph.Diagnostic) {
	return site.build(place, choice, false)
}

func (site *Site) build(place Place, choice Choice, led bool) (*Proposal, []graph.Diagnostic) {
	c, net := site.circuit, site.net
	unit, path := c.Part(c.Retrofit.Unit), site.lay.Path(place.Run)
	w := newWork(c, path.Run, site.stops).guarded(c, net, path.Run).at(path, place.Leg)
	d := draft.Of(c)
	a := w.newAssembly(choice)

	d.PointTo("cut")
	teeA, teeB := d.Names.Fresh("tee-a"), d.Names.Fresh("tee-b")
	d.AddPart(teeA, graph.Tee, w.lineSpec, w.lineSize)
	if choice.Bypass == "spring" {
		d.PointTo("spring", "bypass", "cut")
	} else {
		d.PointTo("bypass", "cut")
	}
	element := putBypass(d, w, choice)
	d.AddPart(teeB, graph.Tee, w.lineSpec, w.lineSize)
	d.PointTo("cut")
	line := path.Points[place.Leg].Sub(path.Points[place.Leg-1]).Unit()
	if w.against {
		line = line.Scale(-1)
	}
	way := w.branchWay(line)
	aside := graph.Vec{}
	if a.service != nil {
		aside = site.loopWay(w, path, place, a, way)
	}
	cutLine(d, w, path, place, a, teeA, teeB, element, aside)

	d.PointTo()
	l := newLimb(w, d)
	if led {
		if l.survey = site.survey(w, path, place, a, aside); l.survey == nil {
			l.adrift = path.Run.From
		}
	}
	if w.asked.ServiceValve && choice.Bypass != "spring" {
		l.find(w.asked.KeyPos["service-valve"], graph.Note, "service-valve stands in parallel to a spring check, and this bypass has none: it is left out",
			"a valve in the bypass is opened by hand when the unit is shut off")
	}
	l.springWords(choice)
	l.keptWords(path, w)
	l.sizeWords(w)
	standing(d, unit, c.Retrofit.Stand)
	to, from := l.strands(teeA, teeB, way, line, line.Scale(a.spacing()), a.guard == 0 && feederBelow(c, net, path.Run))
	l.lay(to)
	l.lay(from)

	p := &Proposal{Place: place, Choice: choice, Circuit: d.Circuit, NewIDs: d.IDs, Element: element, Strands: [2][]string{to.IDs, from.IDs}, Unled: l.unled}
	if l.survey != nil {
		p.led = l.survey.known
	}
	if c.Retrofit.Cut != nil {
		p.Pos = c.Retrofit.Cut.Pos
	}
	p.Marking = marking(c, path, place, a)
	return p, l.findings
}

// survey tells where the tees and the new string are; nil where the legs do not say it.
func (site *Site) survey(w work, path *route.Path, place Place, a assembly, aside graph.Vec) *survey {
	if !path.Located {
		return nil
	}
	start, dir := path.Points[place.Leg-1], path.Points[place.Leg].Sub(path.Points[place.Leg-1]).Unit()
	first := place.FromMM + a.half + a.endAdd
	s := &survey{trying: site.trying, lay: site.lay, bodies: site.bodies, common: site.common, group: site.lay.Groups[path.Run.From.String()],
		teeA: start.Add(dir.Scale(first)), teeB: start.Add(dir.Scale(first + a.spacing()))}
	s.cuts = []cutLeg{{run: path.Run.ID, leg: place.Leg, radiusMM: w.stringRadius(), near: lead.Line,
		from: s.teeA.Sub(dir.Scale(a.half + a.endAdd + a.endDepth)), to: s.teeB.Add(dir.Scale(a.half + a.lastAdd + a.lastDepth))}}
	if a.service != nil {
		from, to := a.loopEnds(path, place, aside)
		s.cuts = append(s.cuts, cutLeg{run: path.Run.ID, leg: place.Leg, radiusMM: w.stringRadius(), near: lead.Line, from: from, to: to})
	}
	if w.against {
		s.teeA, s.teeB = s.teeB, s.teeA
	}
	s.known = site.ledFrom(ledKey{run: place.Run, leg: place.Leg, fromMM: place.FromMM, toMM: place.ToMM, branch: w.branchSize})
	return s
}

// ledFrom is what is known of the pipes from a place.
func (site *Site) ledFrom(key ledKey) *ledPipes {
	if site.led[key] == nil {
		site.led[key] = &ledPipes{}
	}
	return site.led[key]
}

// stringRadius is how far the new string reaches from its axis, mm: valves and union nuts are
// taken half as wide again as their pipe. Common practice, no source.
func (w work) stringRadius() float64 {
	outside := w.lineSize.NominalMM()
	if row, ok := w.cat.Pipe(w.lineSpec, w.lineSize); ok {
		outside = row.OutsideMM
	}
	return 0.75 * outside
}

// putBypass adds the bypass element of a choice and returns its id; "" where it has none.
func putBypass(d *draft.Draft, w work, choice Choice) string {
	kind, b, has := w.element(choice)
	if !has {
		return ""
	}
	p := d.AddPart(d.Names.Fresh("bypass"), kind, w.lineSpec, w.lineSize)
	p.Type = b.row.Name
	if kind == graph.CheckValve {
		p.LengthMM, p.LengthSet = 0, false
	}
	choice.set(p)
	return p.ID
}

// set makes a bypass element what the choice says of it.
func (c Choice) set(p *graph.Part) {
	if p.Kind == graph.CheckValve {
		p.Type, p.Check = c.Spring, &graph.CheckData{Style: "spring"}
		return
	}
	p.Valve.Kv, p.Valve.Position, p.Valve.PositionSet = c.ThrottleKv, 1, false
	if c.Shut {
		p.Valve.Position, p.Valve.PositionSet = 0, true
	}
}

// Other returns the circuit of the proposal after the work with another spring or another
// setting of the valve in the bypass, all else as it stands; nil where its bypass element is
// of another kind. What room another spring takes is for the caller to ask.
func (p *Proposal) Other(after *graph.Circuit, choice Choice) *graph.Circuit {
	at := slices.IndexFunc(after.Parts, func(part *graph.Part) bool { return part.ID == p.Element })
	if at < 0 || p.Choice.Bypass != choice.Bypass {
		return nil
	}
	other, part := *after, *after.Parts[at]
	if part.Valve != nil {
		valve := *part.Valve
		part.Valve = &valve
	}
	choice.set(&part)
	other.Parts = slices.Clone(after.Parts)
	other.Parts[at] = &part
	return &other
}

// cutLine takes the cut run out and puts back what is left of it, the tees and what stands
// between them; aside is the way of the loop round the check. Positions of old work stay as
// they were.
func cutLine(d *draft.Draft, w work, path *route.Path, place Place, a assembly, teeA, teeB, element string, aside graph.Vec) {
	old := path.Run
	d.Remove(old.ID)
	along := path.Points[place.Leg].Sub(path.Points[place.Leg-1])
	length, dir := along.Len(), along.Unit()
	first := place.FromMM + a.half + a.endAdd // centre of the first tee in the run's direction
	second := first + a.spacing()

	water := dir
	near, far := draft.At(teeA, graph.RunIn), draft.At(teeB, graph.RunOut)
	beforeMM, afterMM := first, length-second
	if w.against {
		water = dir.Scale(-1)
		near, far = draft.At(teeB, graph.RunOut), draft.At(teeA, graph.RunIn)
	}
	switch {
	case a.guard > 0 && w.against:
		near = putGuard(d, w, a, near, water)
		beforeMM -= a.half + a.guard
	case a.guard > 0:
		far = putGuard(d, w, a, far, water)
		afterMM -= a.half + a.guard
	}
	pieces := [2]float64{}
	for k, mm := range []*float64{&beforeMM, &afterMM} {
		if stays := []float64{place.FromMM, length - place.ToMM}[k]; a.slips[k] > 0 {
			pieces[k], *mm = *mm-stays, stays
		}
	}
	before, after := legsAround(path, place.Leg, beforeMM, afterMM)
	if a.slips[0] > 0 {
		near = putSlip(d, old, w, "slip-a", near, dir.Scale(pieces[0]), true)
	}
	if ref, kept := w.keptRef(old, 0); kept {
		renewed(d, old, old.From, near, ref, before)
	} else {
		d.Remains(old, old.From, near, before)
	}
	bypassRuns(d, w, a, teeA, teeB, element, water, aside)
	if a.slips[1] > 0 {
		id := "slip"
		if a.slips[0] > 0 {
			id = "slip-b"
		}
		far = putSlip(d, old, w, id, far, dir.Scale(pieces[1]), false)
	}
	if ref, kept := w.keptRef(old, 1); kept {
		renewed(d, old, far, old.To, ref, after)
		return
	}
	d.Remains(old, far, old.To, after)
}

// legsAround returns what is left of the legs of a path before and after the cut in one of
// them, of which so much stays on either side.
func legsAround(path *route.Path, leg int, beforeMM, afterMM float64) (before, after []graph.Leg) {
	dir := path.Points[leg].Sub(path.Points[leg-1]).Unit()
	for k := 1; k < len(path.Points); k++ {
		by := path.Points[k].Sub(path.Points[k-1])
		l := graph.Leg{By: by, Surroundings: path.Run.Around(k)}
		switch {
		case k < leg:
			before = append(before, l)
		case k > leg:
			after = append(after, l)
		default:
			l.By = dir.Scale(beforeMM)
			before = append(before, l)
			l.By = dir.Scale(afterMM)
			after = append([]graph.Leg{l}, after...)
		}
	}
	return before, after
}

// bypassRuns joins the two tees: by one piece, or by what stands between them.
func bypassRuns(d *draft.Draft, w work, a assembly, teeA, teeB, element string, water, aside graph.Vec) {
	if element == "" {
		d.AddRun(draft.At(teeA, graph.RunOut), draft.At(teeB, graph.RunIn), w.lineSpec, w.lineSize,
			[]graph.Leg{draft.Leg(water.Scale(a.spacing()))})
		return
	}
	before, after := draft.At(teeA, graph.RunOut), draft.At(teeB, graph.RunIn)
	if a.service != nil {
		before, after = loopAround(d, w, a, teeA, teeB, water, aside)
	}
	d.AddRun(before, draft.At(element, graph.In), w.lineSpec, w.lineSize,
		[]graph.Leg{draft.Leg(water.Scale(a.half + a.first))})
	d.AddRun(draft.At(element, graph.Out), after, w.lineSpec, w.lineSize,
		[]graph.Leg{draft.Leg(water.Scale(a.second + a.half))})
}

// feederBelow reports whether a feeder, salt cell or ozone injector lies down the water of the
// cut run with no check that is there on the way, or what the request says of it.
func feederBelow(c *graph.Circuit, net *stream.Net, cut *graph.Run) bool {
	if c.Retrofit != nil && c.Retrofit.FeederCheck != nil {
		return *c.Retrofit.FeederCheck
	}
	return net.DownstreamOfRunUntil(cut, net.HoldsBack).First(graph.Feeder, graph.SaltCell, graph.OzoneInjector) != nil
}

// marking tells where to mark the old pipe. With the kerf on the waste side of both lines the
// slug is two kerfs shorter than the gap.
func marking(c *graph.Circuit, path *route.Path, place Place, a assembly) Marking {
	kerf := kerfMM(c)
	first, second := place.Cuts()
	tape, end := place.Tape()
	bare, hose := "bare pipe", path.Run.Spec.IsHose()
	if hose {
		bare = path.Run.Spec.Word()
	}
	if !path.Run.Spec.Sawn() {
		kerf = 0
	}
	sawn := 2.0
	for _, kept := range place.Kept {
		if kept {
			sawn--
		}
	}
	m := Marking{
		Run: place.Run, Leg: place.Leg, From: place.Datum,
		FirstMM: first, SecondMM: second,
		SlugMM: second - first - sawn*kerf, KerfMM: kerf, Hose: hose,
		DepthFirstMM: a.endDepth, DepthSecondMM: a.lastDepth, Kept: place.Kept,
	}
	lines := []string{"first cut", "second cut"}
	if place.Kept[0] || place.Kept[1] {
		lines = []string{"cut", "cut"}
	}
	stays := func(k int, mm float64, between string) {
		if place.Kept[k] {
			m.Keeps = append(m.Keeps, staysWords([]string{place.Datum, place.Far}[k], bare))
			return
		}
		m.Keeps = append(m.Keeps, graph.Say("%s of %s from the %s", quantity.Length.Of(mm), bare, between))
	}
	stays(0, first, place.Datum+" to the "+lines[0])
	stays(1, end-tape-second, lines[1]+" to the "+place.Far)
	return m
}

// kerfMM is what one cut loses: as said, else the catalogue's for the usual tool.
func kerfMM(c *graph.Circuit) float64 {
	if c.Job.KerfSet {
		return c.Job.KerfMM
	}
	k, _ := tables.Kerf("")
	return k.MM
}

// tapSize is the size of a drain valve or air bleed: 3/4 in or 25 mm, on a reducing bush in
// the tee's branch. Common practice, no source.
func (w work) tapSize() catalog.Size {
	size := catalog.Size{Nominal: 0.75}
	if w.branchSpec.Family() == catalog.Metric {
		size = catalog.Size{Metric: true, Nominal: 25}
	}
	if w.branchSize.Nominal < size.Nominal {
		return w.branchSize
	}
	return size
}

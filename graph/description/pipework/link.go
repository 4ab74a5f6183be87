package pipework

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/description/field"
	"dryfit/graph/description/located"
)

// Link looks at what the tables say of each other once all have been read.
func Link(r *field.Reader) {
	byID := runIDs(r)
	if slices.Contains(r.Unread, "part") || slices.Contains(r.Unread, "run") {
		return // nearly everything would seem to be missing
	}
	for _, run := range r.Circuit.Runs {
		linkEnd(r, run, &run.From, "from")
		linkEnd(r, run, &run.To, "to")
		sameEnds(r, run)
		endsAtRemoved(r, run)
		linkRemains(r, run, byID)
		linkKept(r, run)
	}
	newBetweenOld(r)
	portsTaken(r)
	portsOpen(r)
	machinePortsApart(r)
	pricesOf(r)
	asked(r)
}

// runIDs reports ids used twice; a run without an id is called after its ends, and two of
// them share a name only if they share both ports, which is reported there. It returns the
// runs by id.
func runIDs(r *field.Reader) map[string]*graph.Run {
	first, looks := map[string]*graph.Run{}, map[string]*graph.Run{}
	for _, run := range r.Circuit.Runs {
		if run.ID == "" {
			continue
		}
		was, twice := first[run.ID]
		if !twice {
			first[run.ID] = run
			if other, ok := looks[located.Look(run.ID)]; ok {
				located.Related(r.Add(r.IDPos(run, run.Pos), sameLook, "the id %s looks the same as another run's, and is not", located.Said(run.ID)), r.IDPos(other, other.Pos), "the other is here")
			}
			looks[located.Look(run.ID)] = run
			continue
		}
		hint := "give each run an id of its own"
		d := r.Add(r.IDPos(run, run.Pos), hint, "the run id %s is used twice", located.Said(run.ID))
		located.Related(d, r.IDPos(was, was.Pos), "it is used here first")
	}
	return first
}

// runIDsThat returns the ids of some runs, in the order of the file.
func runIDsThat(r *field.Reader, are func(*graph.Run) bool) []string {
	var out []string
	for _, run := range r.Circuit.Runs {
		if run.ID != "" && are(run) {
			out = append(out, run.ID)
		}
	}
	return out
}

// linkEnd looks whether an end of a run names a part and one of its ports. An end that does not
// is loose: the port it was meant for is not reported open as well.
func linkEnd(r *field.Reader, run *graph.Run, ref *graph.PortRef, key string) {
	if ref.Part == "" { // reported where it was read
		part := ""
		if at, ok := r.Spots[run][key]; ok {
			part, _ = at.V.(string)
		}
		loosen(r, part)
		return
	}
	at := r.Spots[run][key]
	p, ok := r.Parts[ref.Part]
	switch {
	case !ok:
		hint, id := "", anyPart
		if !r.Many() {
			ids := IDsOf(r, func(graph.Kind) bool { return true })
			hint = located.Near(ref.Part, ids)
			id, _ = quantity.Nearest(ref.Part, ids)
			if tub := tubMissing(r, ref.Part); id == "" && tub != "" {
				hint = tub
			} else if id == "" && len(r.Joined[ref.Part]) > 1 {
				hint += "; or describe it: a [[part]] with id = " + field.Quote(ref.Part)
			}
		}
		loosen(r, id)
		Missed(r, r.ValuePos(at), ref.Part, hint)
		return
	case p.Kind == "" || len(p.Ports) == 0:
		return // its kind or its ports are reported
	}
	q := portNamed(p, ref.Port)
	if q == nil {
		NoPort(r, p, ref.Port, r.ValuePos(at), portNames(p))
		loosen(r, p.ID)
		return
	}
	if _, air := r.Spots[run]["air"]; air {
		q.Air = true
	}
}

// tubMissing is how a tub is written of the name and the ports that runs give it, where none is described;
// "" where one is.
func tubMissing(r *field.Reader, id string) string {
	if slices.ContainsFunc(r.Circuit.Parts, func(p *graph.Part) bool { return p.Kind == graph.Tub }) {
		return ""
	}
	var ports []string
	for _, name := range r.Joined[id] {
		ports = append(ports, field.Quote(name))
	}
	slices.Sort(ports)
	return "no part is the tub; where it is that, write a [[part]] with id = " + field.Quote(id) + `, kind = "tub", ports = [` + strings.Join(slices.Compact(ports), ", ") + "]"
}

// mostSeen is at how many more places a name is shown that is met at many. Judgement, no source.
const mostSeen = 4

// Missed reports a name that no part has: once, where it is met first. Where the id of a part is
// used twice, that is the name the second one was to have.
func Missed(r *field.Reader, at graph.Pos, name, hint string) {
	if Told(r, name, at) {
		return
	}
	if len(r.Twice) > 0 {
		k := r.Twice[0]
		r.Twice = r.Twice[1:]
		r.Found[k].Hint += graph.Say("; no part has the id %s, which a run names", located.Said(name))
		located.Related(&r.Found[k], at, "it is named here")
		r.Missed[name] = k
		return
	}
	r.Missed[name] = len(r.Found)
	r.Add(at, hint, "there is no part %s", located.Said(name))
}

// Told reports whether it is told already that nothing has a name, and shows where it is named too.
func Told(r *field.Reader, name string, at graph.Pos) bool {
	if r.Missed == nil {
		r.Missed = map[string]int{}
	}
	k, ok := r.Missed[name]
	if !ok || k >= len(r.Found) {
		return false
	}
	if d := &r.Found[k]; len(d.Related) < mostSeen {
		located.Related(d, at, "it is named here too")
	}
	return true
}

// NoPort reports a port that a part does not have, among those it may have: once, where it is met
// first, for it may be the part's own list in which it is mistyped.
func NoPort(r *field.Reader, p *graph.Part, port string, at graph.Pos, among []string) {
	ref := graph.PortRef{Part: p.ID, Port: port}
	if len(p.Ports) == 0 || Told(r, ref.String(), at) {
		return
	}
	r.Missed[ref.String()] = len(r.Found)
	hint := located.Near(port, among)
	if _, near := quantity.Nearest(port, among); !near && (p.Kind == graph.Tub || p.Kind == graph.Manifold || p.Kind == graph.DiverterValve) {
		hint += fmt.Sprintf("; where it has one more, add %s to its ports", field.Quote(port))
	}
	d := r.Add(at, hint, "%s has no port %s", located.Said(p.ID), located.Said(port))
	located.Related(d, r.IDPos(p, p.Pos), "it is %s", graph.A(p.Kind))
}

// misnamed reports whether one of a run's ends names a part or port that there is not: what it then
// does not fit follows from that.
func misnamed(r *field.Reader, run *graph.Run) bool {
	for _, ref := range [2]graph.PortRef{run.From, run.To} {
		if p := r.Parts[ref.Part]; p == nil || portNamed(p, ref.Port) == nil {
			return true
		}
	}
	return false
}

// noRun reports a name that no run has: once, where it is met first.
func noRun(r *field.Reader, at graph.Pos, name, hint string) {
	if what := "run " + name; !Told(r, what, at) {
		r.Missed[what] = len(r.Found)
		r.Add(at, hint, "there is no run %s", located.Said(name))
	}
}

// loosen remembers that a run's end was meant for a port of the part; of any part, where it
// is none.
func loosen(r *field.Reader, id string) {
	if _, ok := r.Parts[id]; !ok {
		id = anyPart
	}
	r.Loose = append(r.Loose, id)
}

// anyPart stands for a part nobody knows.
const anyPart = ""

// sameEnds reports a run from a part to itself; only a tub may have one.
func sameEnds(r *field.Reader, run *graph.Run) {
	if run.From.Part == "" || run.From.Part != run.To.Part {
		return
	}
	p := r.Parts[run.From.Part]
	if p != nil && (p.Kind == graph.Tub || p.Kind == "") && run.From.Port != run.To.Port {
		return
	}
	d := r.Fail(r.Spots[run]["to"], "a run joins two parts: one of the ends is mistyped", "both ends of this run are at %s", located.Said(run.From.Part))
	located.Related(d, run.From.Pos, "the other end is here")
	loosen(r, anyPart)
	run.To.Part = "" // takes no port
}

// endsAtRemoved reports a run that stays and ends at a part that is taken out: its water would
// lead nowhere, and everything found after that follows from it.
func endsAtRemoved(r *field.Reader, run *graph.Run) {
	for _, end := range []struct {
		key string
		ref graph.PortRef
	}{{"from", run.From}, {"to", run.To}} {
		p := r.Parts[end.ref.Part]
		if p == nil || !p.Removed || !inAfter(run) {
			continue
		}
		d := r.Fail(r.Spots[run][end.key], "write removed = true on the run as well, and draw what joins the two ends instead; of a run that is cut short write what is left with remains-of",
			"the run %s stays, and ends at %s, which is taken out", located.Said(run.ID), located.Said(p.ID))
		located.Related(d, r.IDPos(p, p.Pos), "it is described here")
	}
}

// newBetweenOld reports a part that is not said to exist though every run that ends at it stands
// today and stays whole, of a job whose new work is planned: the word was forgotten, and
// everything found after that follows from it. One drawn by hand in the place of an old part of
// which nothing is said is left alone where nothing is to be planned.
func newBetweenOld(r *field.Reader) {
	if r.Circuit.Retrofit == nil {
		return
	}
	for _, p := range r.Circuit.Parts {
		if old := onlyOldRuns(r, p); old != nil {
			r.Fail(r.Spots[p]["id"], "write existing = true on it; of one that is to be fitted there say what is left of the runs with remains-of",
				"%s is not said to exist, and stands between existing runs: %s", located.Said(p.ID), strings.Join(old, ", "))
		}
	}
}

// onlyOldRuns lists the runs that end at a part that is not said to exist, where there are two or
// more and all of them stand today and stay whole; else none.
func onlyOldRuns(r *field.Reader, p *graph.Part) []string {
	if p.Existing || p.Kind == graph.Tub || p.Kind == graph.HeatPump || p.Kind == "" {
		return nil
	}
	var old []string
	for _, run := range r.Circuit.Runs {
		switch {
		case run.From.Part != p.ID && run.To.Part != p.ID:
		case !inBefore(run) || !inAfter(run):
			return nil
		default:
			old = append(old, located.Said(run.ID))
		}
	}
	if len(old) < 2 {
		return nil
	}
	return old
}

// linkRemains looks whether a run is what is left of one that was taken out.
func linkRemains(r *field.Reader, run *graph.Run, byID map[string]*graph.Run) {
	if run.RemainsOf == "" {
		return
	}
	at := r.Spots[run]["remains-of"]
	other, ok := byID[run.RemainsOf]
	switch {
	case !ok:
		hint := r.NearAmong(run.RemainsOf, func() []string { return runIDsThat(r, func(o *graph.Run) bool { return o.Existing && o.Removed }) })
		noRun(r, r.ValuePos(at), run.RemainsOf, hint)
	case !other.Existing || !other.Removed:
		d := r.Fail(at, "a run that was cut is existing = true and removed = true", "the run %s is still there whole", located.Said(other.ID))
		located.Related(d, other.Pos, "it is described here")
	}
}

// taker is one end of a run at a port.
type taker struct {
	run *graph.Run
	ref *graph.PortRef
}

// inBefore and inAfter tell in which stages a run stands.
func inBefore(run *graph.Run) bool { return run.Existing && run.RemainsOf == "" }
func inAfter(run *graph.Run) bool  { return !run.Removed }

// takersOf returns the ends of runs at every port, in the order of the file.
func takersOf(r *field.Reader) map[string][]taker {
	at := map[string][]taker{}
	for _, run := range r.Circuit.Runs {
		for _, ref := range []*graph.PortRef{&run.From, &run.To} {
			if ref.Part != "" {
				at[ref.String()] = append(at[ref.String()], taker{run, ref})
			}
		}
	}
	return at
}

// portsTaken reports ports that two runs use at the same time. One of the two was meant for
// another port, which is open for that: it is told in the hint and not as a mistake of its own.
func portsTaken(r *field.Reader) {
	at, open := takersOf(r), openPorts(r)
	for _, run := range r.Circuit.Runs {
		for _, ref := range []*graph.PortRef{&run.From, &run.To} {
			for _, t := range at[ref.String()] {
				if t.ref == ref {
					break // those that follow find this one
				}
				if t.run == run || inBefore(t.run) && inBefore(run) || inAfter(t.run) && inAfter(run) {
					if sameWay(t.run, run) { // told once, of its first end
						if ref == &run.From {
							d := r.Add(run.Pos, "one of them is written twice: leave it out; two pipes side by side leave and meet in tees", "this run and another join the same two ports, %s and %s", located.Said(run.From.String()), located.Said(run.To.String()))
							located.Related(d, t.run.Pos, "the other is here")
							loosen(r, anyPart)
						}
						break
					}
					hint := "put a tee there, or mend the port"
					if t.run != run && inBefore(t.run) && inAfter(run) {
						hint = "put a tee there, mend the port, or write removed = true on the run that goes"
					}
					if len(open) == 1 {
						hint += "; nothing is joined to " + field.Quote(open[0].ref) + " yet"
					}
					d := r.Add(ref.Pos, hint, "the port %s is used twice", located.Said(ref.String()))
					located.Related(d, t.ref.Pos, "it is used here first")
					loosen(r, anyPart)
					break
				}
			}
		}
	}
}

// sameWay reports whether two runs join the same two ports, whichever way each is written.
func sameWay(a, b *graph.Run) bool {
	return a != b && (a.From.Same(b.From) && a.To.Same(b.To) || a.From.Same(b.To) && a.To.Same(b.From))
}

// openPort is a port that nothing closes once the work is done.
type openPort struct {
	part *graph.Part
	port *graph.Port
	ref  string
}

// openPorts are the ports of what stays that no run ends at once the work is done, but those of
// the unit that is to be fitted; none, where it is not known which that is.
func openPorts(r *field.Reader) []openPort {
	taken := map[string]bool{}
	for _, run := range r.Circuit.Runs {
		if inAfter(run) {
			taken[run.From.String()], taken[run.To.String()] = true, true
		}
	}
	unit := ""
	if r.Circuit.Retrofit != nil {
		unit = r.Circuit.Retrofit.Unit
		if unit == "" {
			return nil // which unit may be open is not known
		}
	}
	var out []openPort
	for _, p := range r.Circuit.Parts {
		if p.Removed || p.ID == unit {
			continue
		}
		for i := range p.Ports {
			q := &p.Ports[i]
			if ref := p.ID + "." + q.Name; !q.Air && !taken[ref] && !p.Kind.MovesAir() {
				out = append(out, openPort{p, q, ref})
			}
		}
	}
	return out
}

// portsOpen reports the ports that nothing closes once the work is done.
func portsOpen(r *field.Reader) {
	if slices.Contains(r.Loose, anyPart) {
		return
	}
	open := openPorts(r)
	if len(r.Loose) == 0 && runMissing(r, open) {
		return
	}
	for i, o := range open {
		if slices.Contains(r.Loose, o.part.ID) {
			continue
		}
		what := "the port " + located.Said(o.ref) + " is left open"
		if o.part.Kind == graph.HeatPump { // both ports of a unit that nothing joins are one matter
			if i > 0 && open[i-1].part == o.part {
				continue
			}
			if i+1 < len(open) && open[i+1].part == o.part {
				what = "the ports " + located.Said(o.ref) + " and " + located.Said(open[i+1].ref) + " are left open"
			}
		}
		hint := "join it with a [[run]], or close it with a part of kind = \"cap\""
		switch o.part.Kind {
		case graph.Tub:
			hint = "join it with a [[run]], cap it, or leave it out of ports"
		case graph.HeatPump:
			hint = `join it with a [[run]], or ask for it to be fitted: [retrofit] unit = ` + field.Quote(o.part.ID)
			if t := r.Circuit.Retrofit; t != nil {
				hint = oneUnitAtATime(t, o.part.ID)
			}
		}
		r.Add(cmp.Or(o.port.Pos, r.IDPos(o.part, o.part.Pos)), hint, "%s", what)
	}
}

// runMissing reports the run that is not there where two ports of two parts are open and no other.
func runMissing(r *field.Reader, open []openPort) bool {
	if len(open) != 2 || open[0].part == open[1].part || open[0].part.Kind == graph.HeatPump || open[1].part.Kind == graph.HeatPump {
		return false
	}
	at := func(o openPort) graph.Pos { return cmp.Or(o.port.Pos, r.IDPos(o.part, o.part.Pos)) }
	d := r.Add(at(open[0]), fmt.Sprintf("is the [[run]] between them missing, from = %s, to = %s? else join or cap each: a part of kind = \"cap\" closes a port", field.Quote(open[0].ref), field.Quote(open[1].ref)),
		"the ports %s and %s are left open", located.Said(open[0].ref), located.Said(open[1].ref))
	located.Related(d, at(open[1]), "the other is here")
	return true
}

// oneUnitAtATime says how a second unit is planned beside the one that [retrofit] fits.
func oneUnitAtATime(t *graph.Retrofit, second string) string {
	one := field.Quote(t.Unit)
	if t.Remove {
		return fmt.Sprintf("join it with a [[run]]; [retrofit] takes %s out and fits nothing: to plan what is fitted then, write what is left with dryfit cutin --as-built --write-plan left.toml, and in that file describe %s and ask for it", one, field.Quote(second))
	}
	return fmt.Sprintf("join it with a [[run]]; to have it fitted too: [retrofit] fits one unit at a time, here %s; leave %s out of this file, write it as it is once %s stands with dryfit cutin --as-built --write-plan first.toml, and in first.toml describe %s and ask for it with [retrofit] unit = %s and its at",
		one, field.Quote(second), one, field.Quote(second), field.Quote(second))
}

// pricedElsewhere is where what is written under [prices] and is no thing that is bought has its place.
var pricedElsewhere = map[string]string{
	"currency": `what prices are in stands under [job]: currency = "EUR"`,
	"labour":   labourElsewhere, "labor": labourElsewhere, "work": labourElsewhere,
	"electricity": powerElsewhere, "kwh": powerElsewhere, "kWh": powerElsewhere,
}

const (
	labourElsewhere = `what the work costs stands under [tariff]: work = "420"`
	powerElsewhere  = `what a kilowatt-hour costs stands under [tariff]: price = "0.30"`
)

// pricesOf looks whether what has a price is a part, a kind, or a row of the catalogue.
func pricesOf(r *field.Reader) {
	if len(r.Circuit.Prices) == 0 {
		return
	}
	kinds := r.Catalog.Kinds()
	for _, k := range graph.Kinds() {
		if !slices.Contains(kinds, string(k)) {
			kinds = append(kinds, string(k))
		}
	}
	for _, p := range r.Circuit.Prices {
		if r.HasPrice(p.Item) {
			continue
		}
		hint := r.NearAmong(p.Item, func() []string {
			words := slices.DeleteFunc(slices.Clone(kinds), func(k string) bool { return k == "hand-room" || k == string(graph.Tub) }) // nobody buys these
			for _, id := range IDsOf(r, func(k graph.Kind) bool { return k != graph.Tub }) {
				if !slices.Contains(kinds, id) { // a part is often called as its kind is
					words = append(words, id)
				}
			}
			for row := range r.Catalog.All() {
				words = append(words, row.Name)
			}
			return words
		})
		if told := pricedElsewhere[p.Item]; told != "" {
			hint = told
		}
		if !Told(r, p.Item, p.Pos) {
			r.Add(p.Pos, hint, "there is no part, kind or catalogue row %s to have a price", located.Said(p.Item))
		}
	}
}

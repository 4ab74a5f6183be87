package tag

import (
	"fmt"
	"slices"
	"strings"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/settle"
	"dryfit/graph/stream"
)

// Names holds what every part of a circuit is called on paper.
type Names struct {
	catalog *catalog.Catalog
	parts   map[string]*graph.Part
	tags    map[string]string
	roles   map[string]string // of the parts round a unit: "to the unit"
	net     *stream.Net
	runs    map[string]*graph.Run
	between map[[2]string][]*graph.Run // runs from one part to another, by both
	inOrder []*graph.Part
	modes   map[string]string // words for each mode
}

// Of returns the names of a circuit's parts. Which way the water goes is that of the stage
// after the work: what a part does there it is called by everywhere.
func Of(c *graph.Circuit, net *stream.Net) *Names {
	n := &Names{catalog: c.Catalog, parts: map[string]*graph.Part{}, tags: Tags(c, net), roles: map[string]string{}, net: net, runs: map[string]*graph.Run{}, between: map[[2]string][]*graph.Run{}, inOrder: c.Parts}
	for _, p := range c.Parts {
		n.parts[p.ID] = p
	}
	for _, r := range c.Runs {
		n.runs[r.ID] = r
		ends := [2]string{r.From.Part, r.To.Part}
		n.between[ends] = append(n.between[ends], r)
	}
	n.findRoles(c, net)
	n.nameModes(c)
	return n
}

// OnAir reports whether an air line ends at a part.
func (n *Names) OnAir(id string) bool {
	for _, r := range n.runs {
		if (r.From.Part == id || r.To.Part == id) && n.net.IsAir(r) {
			return true
		}
	}
	return false
}

// findRoles says of the parts between line and unit which way the water passes them.
func (n *Names) findRoles(c *graph.Circuit, net *stream.Net) {
	branches := net.InnerFirst() // a part is called by the unit it stands nearest to
	// what units beside each other hang on leads to each
	n.shared(c, branches, "on the pipe to ", func(b stream.Branch) []*graph.Part { return b.ToUnitParts })
	n.shared(c, branches, "on the pipe from ", func(b stream.Branch) []*graph.Part { return b.FromUnitParts })
	for _, b := range branches {
		unit := "the unit"
		if len(c.Units()) > 1 {
			unit = n.Tag(b.Unit.ID)
		}
		say := func(words string, parts ...*graph.Part) {
			for _, p := range parts {
				if p != nil && n.roles[p.ID] == "" {
					n.roles[p.ID] = words
				}
			}
		}
		say("to "+unit, b.TeeIn)
		say("from "+unit, b.TeeOut)
		say("on the pipe to "+unit, b.ToUnitParts...)
		say("on the pipe from "+unit, b.FromUnitParts...)
		for _, p := range b.BypassParts {
			if was := n.roles[p.ID]; strings.HasPrefix(was, "past ") && unit != "the unit" {
				n.roles[p.ID] = was + " and " + unit // a way that units share leads past each
			}
		}
		say("past "+unit, b.BypassParts...)
	}
}

// shared names the units of a pipe that several hang on, between the same two tees: of one unit in the
// branch of another the parts lie in both branches, and lead to the one alone.
func (n *Names) shared(c *graph.Circuit, branches []stream.Branch, words string, of func(stream.Branch) []*graph.Part) {
	units := map[string][]string{}
	for _, u := range c.Units() {
		for _, b := range branches {
			if b.Unit.ID != u.ID {
				continue
			}
			beside := func(o stream.Branch) bool { return o.Unit != b.Unit && o.TeeIn == b.TeeIn && o.TeeOut == b.TeeOut }
			if !slices.ContainsFunc(branches, beside) {
				continue
			}
			for _, p := range of(b) {
				units[p.ID] = append(units[p.ID], n.Tag(u.ID))
			}
		}
	}
	for _, p := range c.Parts {
		if list := units[p.ID]; len(list) > 1 && n.roles[p.ID] == "" {
			slices.Sort(list)
			n.roles[p.ID] = words + quantity.Listed(list, "and")
		}
	}
}

// Tags returns every part's tag by its id.
func (n *Names) Tags() map[string]string { return n.tags }

// Tag is a part's tag: "T2". The tub has none and is called by its kind; so is a part that
// is not in the circuit.
func (n *Names) Tag(id string) string {
	if t := n.tags[id]; t != "" {
		return t
	}
	if p := n.parts[id]; p != nil {
		return n.word(p)
	}
	return id
}

// Short is the tag with the trade word: "T2 tee".
func (n *Names) Short(id string) string {
	p, t := n.parts[id], n.tags[id]
	if p == nil || t == "" {
		return n.Tag(id)
	}
	return t + " " + n.word(p)
}

// Role says where a part stands about a unit: "to the unit"; "" for others.
func (n *Names) Role(id string) string { return n.roles[id] }

// End names what stands at one end of a pipe, from the words of its layout: "T2 tee" for
// "tee-a.run-in", "bend" for "elbow-90 at bend 2 of to-unit", "bush in T2" for
// "reducing-bush at tee-a.branch"; a piece stays a piece. A heat pump is named with its port, "HP1 heat
// pump, outlet": its two stand side by side and look alike, and the water must come to the one.
func (n *Names) End(words string) string {
	if id, ok := n.port(words); ok {
		return n.Short(id) + n.atUnit(id, words, ", ")
	}
	what, where, found := strings.Cut(words, " at ")
	what = FittingWord(what)
	if !found {
		return what
	}
	if id, ok := n.port(where); ok {
		return what + " at " + n.Tag(id) + n.atUnit(id, where, " ")
	}
	return what
}

// atUnit is the port of a heat pump behind its name; "" for other parts.
func (n *Names) atUnit(id, words, before string) string {
	if p := n.parts[id]; p == nil || p.Kind != graph.HeatPump || id == words {
		return ""
	}
	return before + PortWord(words[len(id)+1:])
}

// Towards says where the old pipe of a run goes on to, away from the new work and from what is taken out:
// "end towards the jets"; "" where nothing tells. The net is that of the stage that is drawn.
func (n *Names) Towards(net *stream.Net, run string) string {
	r := net.Run(run)
	if r == nil {
		return ""
	}
	for _, at := range []graph.PortRef{r.From, r.To} {
		if p := n.reached(net, at); p != nil && !p.Removed && (!p.New() || p.Kind == graph.Tub) {
			return "end towards " + n.the(p)
		}
	}
	return ""
}

// reached is the part a pipe leads to that ends at a port, past what only joins pipe; nil of none.
func (n *Names) reached(net *stream.Net, at graph.PortRef) *graph.Part {
	for range n.parts {
		p := n.parts[at.Part]
		if p == nil || !joins(p.Kind) || p.New() {
			return p
		}
		port := graph.Out
		if at.Port == graph.Out {
			port = graph.In
		}
		next := net.Joined(p.ID, port)
		if next == nil {
			return p
		}
		at = next.Other(graph.PortRef{Part: p.ID, Port: port})
	}
	return nil
}

// Way says where the water goes that leaves a part by a port: "to the jets JG2"; the port's own
// word where nothing tells.
func (n *Names) Way(id, port string) string {
	at := graph.PortRef{Part: id, Port: port}
	for range n.parts { // past what only joins pipe
		run := n.net.Joined(at.Part, at.Port)
		if run == nil {
			return PortWord(port)
		}
		at = run.Other(at)
		p := n.parts[at.Part]
		if p == nil {
			return PortWord(port)
		}
		if !joins(p.Kind) {
			return strings.TrimSpace("to the " + n.word(p) + " " + n.tags[p.ID])
		}
		if at.Port == graph.In {
			at.Port = graph.Out
		} else {
			at.Port = graph.In
		}
	}
	return PortWord(port)
}

// The is a part in the middle of a sentence, by its id: "the jets", "tee T1", "heat pump HP2".
func (n *Names) The(id string) string {
	if p := n.parts[id]; p != nil {
		return n.the(p)
	}
	return id
}

// the is a part in the middle of a sentence: "the jets", and by its tag what there is more of:
// "tee T1".
func (n *Names) the(p *graph.Part) string {
	more := slices.ContainsFunc(n.inOrder, func(q *graph.Part) bool { return q.Kind == p.Kind && q.ID != p.ID })
	if t := n.tags[p.ID]; t != "" && (more || p.Kind == graph.Tee || p.Kind.IsHandValve() || p.Kind == graph.CheckValve) {
		return n.word(p) + " " + t
	}
	return "the " + n.word(p)
}

// joins reports whether a kind is no more than a place in a pipe.
func joins(k graph.Kind) bool {
	switch k {
	case graph.Union, graph.Coupling, graph.SlipCoupling, graph.Reducer, graph.Transition, graph.Barb:
		return true
	}
	return false
}

// PortWord is what a port is called on paper, by its name in the description: "inlet" and
// "outlet", for "in" beside a length or a size reads as inches; the ports a description names
// keep their names.
func PortWord(port string) string {
	switch port {
	case graph.In:
		return "inlet"
	case graph.Out:
		return "outlet"
	case graph.RunIn:
		return "inlet of the run"
	case graph.RunOut:
		return "outlet of the run"
	}
	return port
}

// Port is a port of a part on paper: "E1 element heater, outlet".
func (n *Names) Port(ref graph.PortRef) string { return n.Short(ref.Part) + ", " + PortWord(ref.Port) }

// InWords puts a part's name for each "part.port" in a text: "the face of E1 element heater,
// outlet" for "the face of the element.out".
func (n *Names) InWords(text string) string {
	words := strings.Fields(text)
	for i, w := range words {
		if id, ok := n.port(w); ok && id != w {
			words[i] = n.Port(graph.PortRef{Part: id, Port: w[len(id)+1:]})
			if i > 0 && words[i-1] == "the" {
				words[i-1] = ""
			}
		}
	}
	return strings.Join(slices.DeleteFunc(words, func(w string) bool { return w == "" }), " ")
}

// port reads "part.port".
func (n *Names) port(words string) (id string, ok bool) {
	i := strings.LastIndexByte(words, '.')
	if i < 0 {
		i = len(words)
	}
	_, ok = n.parts[words[:i]]
	return words[:i], ok
}

// Word is the trade's word for a part, by its id.
func (n *Names) Word(id string) string {
	if p := n.parts[id]; p != nil {
		return n.word(p)
	}
	return id
}

// Joint is what a joint is called.
func Joint(number int) string { return fmt.Sprintf("J%d", number) }

// word is the trade's word for a part. Of several tubs, which have no tags, each goes by the name
// the description gives it.
func (n *Names) word(p *graph.Part) string {
	switch p.Kind {
	case graph.Tub:
		for _, q := range n.inOrder {
			if q.Kind == graph.Tub && q.ID != p.ID {
				return p.ID
			}
		}
	case graph.CheckValve:
		if settle.CheckStyle(n.catalog, p).V == settle.Swing {
			return "swing check"
		}
		return "spring check"
	case graph.JetGroup:
		return "jets"
	}
	return p.Kind.Word()
}

// FittingWord is the trade's word for a fitting of the catalogue: "45° elbow" for "elbow-45".
func FittingWord(kind string) string {
	if bare, ok := strings.CutPrefix(kind, "old "); ok { // one that is kept
		return "old " + FittingWord(bare)
	}
	if deg, ok := strings.CutPrefix(kind, "elbow-"); ok {
		return deg + "° elbow"
	}
	switch kind {
	case "reducing-bush":
		return "bush"
	case "elbow":
		return "90° elbow"
	}
	return strings.ReplaceAll(kind, "-", " ")
}

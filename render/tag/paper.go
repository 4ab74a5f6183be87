package tag

import (
	"fmt"
	"slices"
	"strings"

	"dryfit/graph"
)

// Run names a pipe by what it joins: "T2 to V1"; one of several between the same two by its port
// there too: "tub skimmer to T1".
func (n *Names) Run(id string) string {
	r := n.runs[id]
	if r == nil {
		return id
	}
	from, to := "", ""
	if others := n.between[[2]string{r.From.Part, r.To.Part}]; len(others) > 1 {
		from, to = n.portWord(r.From), n.portWord(r.To)
		fromTells := tells(r, others, func(o *graph.Run) string { return o.From.Port })
		toTells := tells(r, others, func(o *graph.Run) string { return o.To.Port })
		switch {
		case fromTells && (!toTells || !n.isTee(r.From.Part)):
			to = ""
		case toTells:
			from = ""
		}
	}
	return n.Tag(r.From.Part) + from + " to " + n.Tag(r.To.Part) + to
}

// portWord is a port behind the name of its part.
func (n *Names) portWord(at graph.PortRef) string {
	if at.Port == "" || n.parts[at.Part] == nil {
		return ""
	}
	return " " + at.Port
}

func (n *Names) isTee(id string) bool { return n.parts[id] != nil && n.parts[id].Kind == graph.Tee }

// tells reports whether a run's port at one end is that of no other between the same two parts.
func tells(r *graph.Run, others []*graph.Run, port func(*graph.Run) string) bool {
	return !slices.ContainsFunc(others, func(o *graph.Run) bool { return o != r && port(o) == port(r) })
}

var (
	jointWords = newForm("joint", `\bjoints? \d+(?:(?:, | and | to )\d+)*`)
	digits     = newForm("", `\d+`)
)

// Joints writes the numbers of joints in a text as the sheets do: "joints J37 and J38".
func Joints(text string) string {
	return jointWords.replace(text, func(m []string) string {
		return digits.replace(m[0], func(m []string) string { return "J" + m[0] })
	})
}

// Measured calls the kind of a part to measure as the trade does: "bypass: ball valve 1 in, stop
// to stop" for "bypass: ball-valve 1 in, stop to stop".
func Measured(what string) string {
	id, rest, found := strings.Cut(what, ": ")
	if !found {
		id, rest = "", what
	} else {
		id += ": "
	}
	kind, size, _ := strings.Cut(rest, " ")
	return id + FittingWord(kind) + " " + size
}

// Side names one side of a joint in a sentence, from the words of its layout: "T2 tee",
// "piece 5", "90° elbow", "bush at T2", "old pipe, end towards the jets", "tail of V1".
func (n *Names) Side(words, run string) string {
	if old := oldRun.find(words); old != "" {
		old, _, _ = strings.Cut(old, " of ")
		if t := n.Towards(n.net, run); t != "" {
			return old + ", " + t
		}
		return old
	}
	if of, ok := strings.CutPrefix(words, "tail of "); ok {
		if id, ok := n.port(of); ok {
			return "tail of " + n.Tag(id)
		}
	}
	return n.End(words)
}

// Cell names what stands in a cell or a list of parts, runs and places, by their ids: "v1, v2"
// is "V1, V2". What the papers call the same stands once, with how many there are: "3 at T1 tee".
func (n *Names) Cell(text string) string {
	return strings.Join(n.Places(strings.Split(text, ", ")), ", ")
}

// Places names parts, runs and places by their ids, as Cell does.
func (n *Names) Places(ids []string) []string {
	var out []string
	many := map[string]int{}
	for _, id := range ids {
		var called string
		switch {
		case n.parts[id] != nil && len(ids) == 1:
			called = n.Short(id)
		case n.parts[id] != nil:
			called = n.Tag(id)
		case n.runs[id] != nil:
			called = n.Run(id)
		default:
			called = n.Text(id)
		}
		if many[called]++; many[called] == 1 {
			out = append(out, called)
		}
	}
	for i, called := range out {
		if many[called] > 1 {
			out[i] = fmt.Sprintf("%d %s", many[called], called)
		}
	}
	return out
}

// modes are the names of modes in a sentence, which are none of a part that is called so too.
const modes = `\bmodes? "[^"]+"(?:(?:, | and )"[^"]+")*`

// Forms in which ids stand in texts made for whoever wrote the description.
var (
	atBend  = newForm("at bend", `\belbow-(\d+) at bend (\d+)(?: of ([`+id+`.>-]+))?`)
	between = newForm("between pieces", `\belbow-(\d+) between pieces`)
	bendOf  = newForm("bend ", `\bbend (\d+) of ([`+id+`.>-]*[`+id+`])`)
	oldRun  = newForm("old ", `\bold (pipe|hose) of ([`+id+`.>-]*[`+id+`])`)
	legOf   = newForm("leg ", `\bleg (\d+) of (?:run )?(?:"([^"]+)"|([`+id+`.>-]*[`+id+`]))`)
	ofRun   = newForm(`"`, `\b(?:the )?(run|hose|pipe) "([^"]+)"`)
	onRun   = newForm("Marking out on ", `^(Marking out on )(.+)$`)
	leading = newForm(": ", `^(\s*)([`+id+`-]+): `)
	ofKind  = newForm(`"`, `\b([a-z][a-z-]*) "([^"]+)"`)
	quoted  = newForm(`"`, modes+`|"([^"]+)"`)
	atPort  = newForm(" at ", `\b(?:reducing-bush|bush|thread-adaptor|[a-z-]+) at ([`+id+`-]+)\.[`+id+`-]+`)
)

// Text puts names for the ids in a text. What is to be written into the description stays as it
// is, and so does an id that is a plain word, such as "filter": the trade has the same.
func (n *Names) Text(text string) string { return aroundWritten(text, n.text) }

func (n *Names) text(text string) string {
	text = n.steps(n.partWords(n.runWords(text)))
	return eachWord(text, func(w string) string {
		switch {
		case n.parts[w] != nil && odd(w):
			return n.Tag(w)
		case n.runs[w] != nil && odd(w):
			return n.pipe(w)
		}
		if id, ok := n.port(w); ok && id != w {
			return n.Short(id) + n.atUnit(id, w, ", ")
		}
		return w
	})
}

// Beside puts the tag a part has on the sheets behind its id in a text, and behind that of a run what
// it joins: "union-1" (U1). An id the sheets call the same to the letter stays alone, and so do a plain word
// outside quotes and what is to be written into the description.
func (n *Names) Beside(text string) string { return aroundWritten(text, n.beside) }

func (n *Names) beside(text string) string {
	return inText.replace(text, func(m []string) string {
		s := m[0]
		if strings.HasPrefix(s, "mode") && strings.HasSuffix(s, `"`) {
			return s
		}
		id := strings.Trim(s, `":`)
		called := ""
		if nuts := strings.LastIndexByte(id, ' '); nuts >= 0 && s[0] != '"' {
			id = id[nuts+1:]
		}
		switch {
		case id == s && !odd(id):
		case n.parts[id] != nil:
			called = n.Tag(id)
		case n.runs[id] != nil:
			called = n.Run(id)
		case s[0] == '"':
			if part, ok := n.port(id); ok && n.tags[part] != "" {
				called = n.Tag(part) + ", " + PortWord(id[len(part)+1:])
			}
		}
		if called == "" || called == id {
			return s
		}
		if head, ok := strings.CutSuffix(s, ":"); ok {
			return head + " (" + called + "):"
		}
		return s + " (" + called + ")"
	})
}

// inText finds an id in a text: in quotes, behind its union nuts, at the head of what is said of it,
// or by itself.
var inText = newForm("", modes+`|"[^"]+"|\bunion nuts? of [`+id+`-]+|[`+id+`][`+id+`.>-]*[`+id+`]:?`)

// pipe is what a run is called in a sentence; an id of none stays.
func (n *Names) pipe(id string) string {
	if n.runs[id] == nil {
		return id
	}
	return "the " + n.runs[id].Spec.Word() + " " + n.Run(id)
}

// runWords names the runs where the text speaks of marking out, bends and old pipe.
func (n *Names) runWords(text string) string {
	text = onRun.replace(text, func(m []string) string {
		return m[1] + n.pipe(m[2])
	})
	text = atBend.replace(text, func(m []string) string {
		if m[3] != "" && n.runs[m[3]] == nil {
			return m[0]
		}
		if m[3] != "" {
			return FittingWord("elbow-"+m[1]) + " at bend " + m[2] + " of " + n.pipe(m[3])
		}
		return FittingWord("elbow-" + m[1])
	})
	text = between.replace(text, func(m []string) string {
		return FittingWord("elbow-"+m[1]) + " between pieces"
	})
	text = bendOf.replace(text, func(m []string) string {
		return "bend " + m[1] + " of " + n.pipe(m[2])
	})
	text = legOf.replace(text, func(m []string) string {
		run := m[2] + m[3] // in quotes or without
		if n.runs[run] == nil {
			return m[0]
		}
		return "leg " + m[1] + " of " + n.pipe(run)
	})
	text = ofRun.replace(text, func(m []string) string {
		if n.runs[m[2]] == nil {
			return m[0]
		}
		return n.pipe(m[2])
	})
	text = oldRun.replace(text, func(m []string) string {
		if n.runs[m[2]] == nil {
			return m[0]
		}
		return "the old " + m[1] + " " + n.Run(m[2])
	})
	return text
}

// partWords names the parts at the head of a line, in quotes and behind a fitting.
func (n *Names) partWords(text string) string {
	text = leading.replace(text, func(m []string) string {
		if n.parts[m[2]] == nil {
			return m[0]
		}
		return m[1] + n.Tag(m[2]) + ": "
	})
	text = ofKind.replace(text, func(m []string) string { // the name says the kind too
		if p := n.parts[m[2]]; p == nil || string(p.Kind) != m[1] {
			return m[0]
		}
		return n.Short(m[2])
	})
	text = quoted.replace(text, func(m []string) string {
		s := m[0]
		if s[0] != '"' {
			return s
		}
		id := s[1 : len(s)-1]
		if n.parts[id] != nil {
			return n.Short(id)
		}
		if n.runs[id] != nil {
			return n.pipe(id)
		}
		return s
	})
	text = atPort.replace(text, func(m []string) string {
		s := m[0]
		what, where, _ := strings.Cut(s, " at ")
		id, ok := n.port(where)
		if !ok {
			return s
		}
		return FittingWord(what) + " at " + n.Tag(id) + n.atUnit(id, where, " ")
	})
	return text
}

// steps names the parts of a way, one after the other.
func (n *Names) steps(text string) string {
	steps := strings.Split(text, " > ")
	if len(steps) == 1 {
		return text
	}
	for i, s := range steps {
		lead, id := "", s
		if k := strings.LastIndexByte(s, ' '); i == 0 && k >= 0 {
			lead, id = s[:k+1], s[k+1:]
		}
		if n.parts[id] != nil {
			steps[i] = lead + n.Tag(id)
		}
	}
	return strings.Join(steps, " > ")
}

// odd reports whether an id is no word of the trade's.
func odd(id string) bool {
	for _, k := range graph.Kinds() {
		if string(k) == id {
			return false
		}
	}
	return strings.ContainsAny(id, "-0123456789>")
}

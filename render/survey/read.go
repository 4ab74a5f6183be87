package survey

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"dryfit/catalog"
	"dryfit/graph"
)

// blank is one value a template leaves open.
type blank struct {
	Table string // "part pump", "pipe P1 to F1"; "" at first
	Key   string
	Say   string // the template's own remark
	Run   int    // number of the pipe, from 1; 0: none
}

// sheet is what a template describes, as far as a survey needs it.
type sheet struct {
	circuit *graph.Circuit
	blanks  []blank
}

var (
	header  = regexp.MustCompile(`^\[\[?([a-z-]+)\]\]?`)
	setting = regexp.MustCompile(`^([a-z][\w.-]*) = (.*)$`)
	within  = regexp.MustCompile(`([a-z-]+) = "\?"`)
	text    = regexp.MustCompile(`"([^"]*)"`)
)

// hints say what a key, by its last word, is where the template has no remark beside it.
var hints = map[string]string{
	"volume": "by the tub's sheet, with its unit: l or gal", "size": "by its outside diameter", "measured-outside-diameter": "with a calliper, on bare pipe",
	"air": "the coldest air the tub must be held at", "region": "uk, eu or us: whose distances apply", "earthing": "tn-s, tn-c-s or tt: the electrician's word",
	"ports-size": "from the unit's sheet", "flow": "from the unit's sheet", "loss": "from the unit's sheet", "highest-pressure": "from the unit's sheet",
	"temperature": "what the water is to be kept at", "cover-rating": "the flow its suction cover is marked with", "count": "how many there are",
}

// read goes through a template line by line: a table's head, key = value, and a remark behind
// it. Templates keep to that form; a test holds the blanks against what the reader of
// descriptions finds in them.
func read(template string) (*sheet, error) {
	s := &sheet{circuit: &graph.Circuit{Catalog: catalog.Embedded(), Job: graph.Job{Name: "Survey"}}}
	table, first := "", 0
	var part *graph.Part
	var run *graph.Run
	for n, line := range strings.Split(template, "\n") {
		if m := header.FindStringSubmatch(line); m != nil {
			table, part, run, first = m[1], nil, nil, len(s.blanks)
			switch table {
			case "part":
				part = &graph.Part{}
				s.circuit.Parts = append(s.circuit.Parts, part)
			case "run":
				run = &graph.Run{}
				s.circuit.Runs = append(s.circuit.Runs, run)
			}
			continue
		}
		m := setting.FindStringSubmatch(line)
		if m == nil {
			continue
		}
		key, value, remark := m[1], m[2], ""
		if i := strings.Index(value, " #"); i >= 0 {
			value, remark = strings.TrimSpace(value[:i]), strings.TrimSpace(strings.TrimLeft(value[i:], " #"))
		}
		switch words := text.FindAllStringSubmatch(value, -1); {
		case part != nil:
			ofPart(part, key, words)
		case run != nil:
			if !ofRun(run, key, words) {
				return nil, fmt.Errorf("line %d: %s is no port", n+1, value)
			}
		}
		if strings.Contains(value, `"?"`) {
			b := blankOf(key, value, remark)
			if run != nil {
				b.Run = len(s.circuit.Runs)
			}
			s.blanks = append(s.blanks, b)
		}
		for i := first; i < len(s.blanks); i++ { // the id may stand after it
			s.blanks[i].Table = name(table, part, run)
		}
	}
	for i, r := range s.circuit.Runs {
		if r.ID == "" {
			r.ID = fmt.Sprintf("pipe-%d", i+1)
		}
	}
	s.circuit.Parts = slices.DeleteFunc(s.circuit.Parts, func(p *graph.Part) bool { // the tool joins it
		return !slices.ContainsFunc(s.circuit.Runs, func(r *graph.Run) bool { return r.From.Part == p.ID || r.To.Part == p.ID })
	})
	return s, nil
}

// ofPart takes one setting of a part up: its value's words in quotes.
func ofPart(part *graph.Part, key string, words [][]string) {
	switch {
	case key == "id" && len(words) == 1:
		part.ID = words[0][1]
	case key == "kind" && len(words) == 1:
		part.Kind = graph.Kind(words[0][1])
		part.Existing = part.Kind == graph.Tub
	case key == "existing":
		part.Existing = true
	case key == "removed":
		part.Removed = true
	case key == "ports":
		for _, w := range words {
			part.Ports = append(part.Ports, graph.Port{Name: w[1]})
		}
	}
}

// ofRun takes one setting of a run up; false where it wants a port and is none.
func ofRun(run *graph.Run, key string, words [][]string) bool {
	switch {
	case key == "existing":
		run.Existing = true
	case key == "removed":
		run.Removed = true
	case (key == "from" || key == "to") && len(words) == 1:
		id, port, ok := strings.Cut(words[0][1], ".")
		if !ok {
			return false
		}
		if key == "from" {
			run.From = graph.PortRef{Part: id, Port: port}
		} else {
			run.To = graph.PortRef{Part: id, Port: port}
		}
	case key == "id" && len(words) == 1:
		run.ID, run.Named = words[0][1], true
	}
	return true
}

// blankOf is the blank a value leaves, with what is said of it.
func blankOf(key, value, remark string) blank {
	b := blank{Key: key, Say: remark}
	if inner := within.FindAllStringSubmatch(value, -1); strings.Contains(value, "{") {
		for i, m := range inner {
			b.Key += []string{": ", ", "}[min(i, 1)] + m[1]
		}
	}
	if b.Say == "" {
		b.Say = hints[key[strings.LastIndexByte(key, '.')+1:]]
	}
	return b
}

// name is the table of a blank, as the template has it.
func name(table string, part *graph.Part, run *graph.Run) string {
	switch {
	case part != nil && part.ID != "":
		return fmt.Sprintf("[[part]] %s", part.ID)
	case run != nil && run.Named:
		return fmt.Sprintf("[[run]] %s", run.ID)
	case run != nil:
		return fmt.Sprintf("[[run]] %s to %s", run.From, run.To)
	}
	return "[" + table + "]"
}

package whatif

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/description/located"
	"dryfit/graph/description/meaning"
)

// Table is one table of a description, key by key.
type Table struct {
	Title  string // "[pipe]", "part filter"
	Owner  string // id of the part or run it is of; of a table that is measured elsewhere its place: see placeOf; ""
	Blanks int    // still to be filled in
	Fields []Field
	Line   int // where its name stands in the file
}

// Field is one value of a description, as a form shows it.
type Field struct {
	Path   []any
	Label  string // its key, with what it stands in
	Value  string // without quotes; the texts of a list with commas between
	Blank  bool
	Means  string        // what its key means
	Help   string        // what the file says behind it
	Hint   quantity.Text // of a blank: what to write
	Key    []any         // the key it stands under, which can be taken out as a whole
	IsOpen bool          // that key may be left out
	Open   string        // what is taken then
	Lines  [2]int        // of the file, from its key to the end of that key's value
}

// Form lists the tables of a description and their values, in the order of the file; nil where
// the text can't be read as TOML.
func (j *Job) Form() []Table { return j.form(nil) }

// form is Form, of which IsOpen is worked out for one key alone, where one is given: the description is
// read once more for each.
func (j *Job) form(key []any) []Table {
	f := located.New(j.File, j.Text)
	top, ok := f.Decode()
	if !ok {
		return nil
	}
	_, found := j.Read()
	w := &former{job: j, asked: key, file: f, hints: map[graph.Pos]quantity.Text{}, found: len(found)}
	for _, d := range found {
		w.hints[d.Pos] = d.Hint
	}
	var out []Table
	for _, key := range top.Keys() {
		v, _ := top.In(key)
		items, isList := v.Items()
		if !isList {
			t := w.table(v, "["+key+"]", []any{key})
			t.Owner = placeOf(top, key)
			out = append(out, t)
			continue
		}
		for i, item := range items {
			title := key
			if owner := ownerOf(item); owner != "" {
				title += " " + owner
			}
			t := w.table(item, title, []any{key, i})
			if t.Owner = ownerOf(item); t.Owner == "" {
				t.Owner = placeOf(top, key)
			}
			out = append(out, t)
		}
	}
	return slices.DeleteFunc(out, func(t Table) bool { return len(t.Fields) == 0 })
}

// The places of tables that are of no one part or run.
const (
	AllPipes  = "pipe"     // any old pipe: its print, its calliper
	TheNewOne = "retrofit" // where the unit is to be fitted
)

// placeOf is where what a table of the top asks for is measured: what is asked of the water, its
// cover and its use is measured at the tub; "" for what has no place in the circuit.
func placeOf(top located.Value, table string) string {
	switch table {
	case "pipe":
		return AllPipes
	case "retrofit":
		return TheNewOne
	case "water", "cover", "shell", "use", "heat-loss":
		parts, _ := top.In("part")
		items, _ := parts.Items()
		for _, item := range items {
			if kind, ok := item.In("kind"); ok && kind.V == string(graph.Tub) {
				return ownerOf(item)
			}
		}
	}
	return ""
}

// ownerOf is the id of a part or run, or the two ends of a run without one.
func ownerOf(v located.Value) string {
	if id, ok := v.In("id"); ok {
		s, _ := id.V.(string)
		return s
	}
	from, ok1 := v.In("from")
	to, ok2 := v.In("to")
	if !ok1 || !ok2 {
		return ""
	}
	return fmt.Sprintf("%v>%v", from.V, to.V)
}

type former struct {
	job   *Job
	asked []any    // the one key of which it is asked whether it may be left open; nil: of all
	kinds []string // of keys in the table at hand: of its kind of part, then of the table
	lines [2]int   // of the key at hand
	file  *located.File
	hints map[graph.Pos]quantity.Text
	found int // findings of the text as it is
}

func (w *former) table(v located.Value, title string, path []any) Table {
	t := Table{Title: title, Line: w.file.KeyPos(v).Line}
	section, _ := path[0].(string)
	w.kinds = []string{section}
	if kind, ok := v.In("kind"); ok {
		word, _ := kind.V.(string)
		w.kinds = []string{word, section}
	}
	w.keys(&t, v, path, "")
	for i := range t.Fields {
		if t.Fields[i].Blank {
			t.Blanks++
		}
	}
	for i := range t.Fields {
		f := &t.Fields[i]
		switch {
		case !f.Blank || w.asked != nil && !slices.Equal(f.Key, w.asked):
		case i > 0 && t.Fields[i-1].Blank && slices.Equal(f.Key, t.Fields[i-1].Key): // blanks of one list
			f.IsOpen = t.Fields[i-1].IsOpen
		default:
			f.IsOpen = w.mayBeOpen(&t, f.Key)
		}
	}
	return t
}

// keys lists the values under the keys of a table; a key written with points leads on.
func (w *former) keys(t *Table, v located.Value, path []any, prefix string) {
	for _, k := range v.Keys() {
		c, _ := v.In(k)
		at := slices.Concat(path, []any{k})
		if _, isTable := c.V.(map[string]any); isTable && !w.file.Inline(c) {
			w.keys(t, c, at, prefix+k+".")
			continue
		}
		w.lines = [2]int{w.file.KeyPos(c).Line, w.file.EndPos(c).Line}
		w.value(t, c, at, prefix+k, at, w.file.Remark(c))
	}
}

// value lists one value, or what it holds.
func (w *former) value(t *Table, v located.Value, path []any, label string, key []any, help string) {
	f := Field{Path: path, Label: label, Key: key, Means: w.said(meaning.Of, label), Help: help, Hint: w.hints[w.file.ValuePos(v)], Open: w.said(meaning.Open, label), Lines: w.lines}
	if inner := w.innerMeaning(label); inner != "" {
		f.Means = inner
	}
	switch x := v.V.(type) {
	case string:
		f.Value, f.Blank = x, x == located.Blank
	case bool, int64, float64:
		f.Value = fmt.Sprint(x)
	case map[string]any:
		for _, k := range v.Keys() {
			c, _ := v.In(k)
			w.value(t, c, slices.Concat(path, []any{k}), label+", "+k, key, help)
		}
		return
	default:
		items, ok := v.Items()
		if !ok {
			return // a date: it is left to the editor
		}
		if texts, all := textsOf(items); all {
			f.Value = strings.Join(texts, ", ")
			f.Blank = slices.Contains(texts, located.Blank)
			if f.Blank {
				f.Hint = w.hints[w.file.ValuePos(items[slices.Index(texts, located.Blank)])]
			}
			break
		}
		for i, item := range items {
			w.value(t, item, slices.Concat(path, []any{i}), fmt.Sprintf("%s %d", label, i+1), key, help)
		}
		return
	}
	if f.Blank {
		f.Value = ""
	}
	t.Fields = append(t.Fields, f)
}

// said is what is written of a key by its label in the form: of the key itself, of the last name
// of one written with points, or of its first.
func (w *former) said(of func(section, key string) string, label string) string {
	whole, _, _ := strings.Cut(label, ",")
	whole, _, _ = strings.Cut(whole, " ") // one of a list is counted
	if first, _, pointed := strings.Cut(whole, "."); pointed {
		last := whole[strings.LastIndex(whole, ".")+1:]
		if words := of(first, last); words != "" {
			return words
		}
		whole = first
	}
	for _, section := range w.kinds {
		if words := of(section, whole); words != "" {
			return words
		}
	}
	return ""
}

// innerMeaning is what a key within the table under a key means, by its label "flow, least" or
// "ratings 1, air"; "" where the label is of no such key.
func (w *former) innerMeaning(label string) string {
	whole, inner, ok := strings.Cut(label, ", ")
	if !ok || strings.Contains(inner, ", ") {
		return ""
	}
	whole, _, _ = strings.Cut(whole, " ")
	inner, _, _ = strings.Cut(inner, " ")
	for _, k := range description.FindKeys(w.kinds[0] + "." + whole + "." + inner) {
		if k.Path[0] != "catalog" {
			return k.Means
		}
	}
	return ""
}

// textsOf returns a list of texts; false where something else is in it, or a text holds a
// comma, which would part it.
func textsOf(items []located.Value) ([]string, bool) {
	out := make([]string, len(items))
	for i, item := range items {
		s, ok := item.V.(string)
		if !ok || strings.Contains(s, ",") {
			return nil, false
		}
		out[i] = s
	}
	return out, len(out) > 0
}

// mayBeOpen reports whether the description reads as well without the key, its blanks apart.
func (w *former) mayBeOpen(t *Table, key []any) bool {
	n := 0
	for i := range t.Fields {
		if t.Fields[i].Blank && slices.Equal(t.Fields[i].Key, key) {
			n++
		}
	}
	without := *w.job
	var err error
	if without.Text, err = w.job.without(key); err != nil {
		return false
	}
	_, found := without.Read()
	return len(found) == w.found-n
}

// Open takes a key out of the description that the form says may be left open, and no other.
func (j *Job) Open(key []any) ([]byte, error) {
	for _, t := range j.form(key) {
		for i := range t.Fields {
			if f := &t.Fields[i]; f.Blank && f.IsOpen && slices.Equal(f.Key, key) {
				return j.without(key)
			}
		}
	}
	return nil, &Refusal{"that is no blank that may be left open", "write what it is, or change the file in an editor"}
}

// without takes a key out of the description.
func (j *Job) without(key []any) ([]byte, error) {
	return located.Apply(j.Text, located.Edit{Path: key, Out: true})
}

// bare is what may stand without quotes.
var bare = regexp.MustCompile(`^(true|false|[+-]?\d+(\.\d+)?)$`)

// A Refusal says why a value is not taken.
type Refusal struct{ Message, Hint quantity.Text }

func (r *Refusal) Error() string { return string(r.Message) }

// Fill returns the description with what somebody typed as the value at a path: as one says it,
// or as it stands in a file, with the key, quotes and brackets; a decimal comma is a point. What
// does not read there is refused, with the reader's own words.
func (j *Job) Fill(path []any, typed string) ([]byte, error) {
	typed = strings.TrimSpace(typed)
	if typed == "" {
		return nil, &Refusal{"nothing was typed", "leave the key out instead, where that may be"}
	}
	v, ok := at(located.New(j.File, j.Text), path)
	if !ok || len(path) < 2 {
		return nil, fmt.Errorf("there is no such value in %s", j.File)
	}
	var forms [][]located.Edit
	items, isItems := v.Items()
	was, isTexts := textsOf(items)
	for _, said := range spellings(typed, path) {
		switch v.V.(type) {
		case string, bool, int64, float64:
			if bare.MatchString(said) {
				forms = append(forms, []located.Edit{{Path: path, Value: said}})
			}
			forms = append(forms, []located.Edit{{Path: path, Value: description.QuoteText(said)}})
		default:
			if !isItems || !isTexts {
				return nil, fmt.Errorf("that is no single value of %s", j.File)
			}
			if edits := listEdits(path, was, said); len(edits) > 0 || said == typed {
				forms = append(forms, edits)
			}
		}
	}
	var bad error
	for _, edits := range forms {
		text, err := located.Apply(j.Text, edits...)
		if err != nil {
			return nil, err
		}
		if bad = j.refuses(text, path); bad == nil {
			return text, nil
		}
	}
	return nil, bad
}

// listEdits make a list of texts what was typed with commas between. A list of as many is
// changed text by text: remarks between them stay.
func listEdits(path []any, was []string, typed string) []located.Edit {
	var now []string
	for _, s := range strings.Split(typed, ",") {
		if s = strings.TrimSpace(s); s != "" {
			now = append(now, s)
		}
	}
	var out []located.Edit
	if len(now) == len(was) {
		for i := range now {
			if now[i] != was[i] {
				out = append(out, located.Edit{Path: slices.Concat(path, []any{i}), Value: description.QuoteText(now[i])})
			}
		}
		return out
	}
	for i := range now {
		now[i] = description.QuoteText(now[i])
	}
	return []located.Edit{{Path: path, Value: "[" + strings.Join(now, ", ") + "]"}}
}

// at returns the value at a path; false where there is none.
func at(f *located.File, path []any) (located.Value, bool) {
	v, ok := f.Decode()
	for _, step := range path {
		if !ok {
			break
		}
		switch s := step.(type) {
		case string:
			v, ok = v.In(s)
		case int:
			items, _ := v.Items()
			if ok = s >= 0 && s < len(items); ok {
				v = items[s]
			}
		}
	}
	return v, ok
}

// refuses reports what the reader holds against the value at a path in a text: an error within
// the value, on whichever of its lines, or a new one beside it on them, blanks apart.
func (j *Job) refuses(text []byte, path []any) error {
	other := *j
	other.Text = text
	f := located.New(j.File, text)
	v, ok := at(f, path)
	if !ok {
		return &Refusal{"that can't be read", ""}
	}
	start, end := f.ValuePos(v), f.EndPos(v)
	before := map[quantity.Text]bool{}
	_, found := j.Read()
	for _, d := range found {
		before[d.Message] = true
	}
	_, found = other.Read()
	for _, d := range found {
		p := d.Pos
		within := (p.Line > start.Line || p.Line == start.Line && p.Column >= start.Column) && (p.Line < end.Line || p.Line == end.Line && p.Column < end.Column)
		beside := p.Line >= start.Line && p.Line <= end.Line && !before[d.Message]
		if p.File == j.File && (within || beside) && d.Severity == graph.Error && !d.Blank {
			return &Refusal{d.Message, d.Hint}
		}
	}
	return nil
}

// Circuit returns the template a description began with: the one whose parts it has, with
// most of them; "" where it has those of none.
func (j *Job) Circuit() string {
	ids := func(text []byte) []string {
		top, ok := located.New("", text).Decode()
		if !ok {
			return nil
		}
		parts, _ := top.In("part")
		items, _ := parts.Items()
		var out []string
		for _, item := range items {
			out = append(out, ownerOf(item))
		}
		return out
	}
	have, best, most := ids(j.Text), "", 0
	for _, name := range description.Templates() {
		text, err := description.Template(name)
		if err != nil {
			continue
		}
		parts := ids(text)
		all := !slices.ContainsFunc(parts, func(id string) bool { return !slices.Contains(have, id) })
		if all && len(parts) > most {
			best, most = name, len(parts)
		}
	}
	return best
}

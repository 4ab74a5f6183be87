package layout

import (
	"bytes"
	"reflect"
	"slices"
	"strings"

	"github.com/BurntSushi/toml"
)

// Names are the names by which an element of a list of tables is found again in another text that
// holds it, the best first; none: by where it stands in its list.
type Names func(list string, element map[string]any) []string

// Moves says under which key of a list's element what a key said may be written further on: of
// "retrofit.keep-clear" the list "part" and the key "keep-clear"; "" of one that is not written anywhere else.
type Moves func(key string) (list, to string)

// Carry returns the second text, which says the same job anew or further on, with the remarks of the
// first: each above, behind or below the key or head of a table it belongs to, the first of the file at
// its head. A remark goes with its table: where that is not written any more it is left out, but for what
// is written elsewhere. Of a key that is not, its table's end has the remark, with the key's name. What stands
// by itself before a table that is gone stands before the next with the name of that which is gone; a
// heading, which is ruled off, as it is, for it is that of what comes next too. What the second text says
// stays.
func Carry(from, to []byte, names Names, moves Moves) []byte {
	was, now := outlined(from), outlined(to)
	if was == nil || now == nil {
		return to
	}
	at := now.places(was, names)
	now.moved(was, at, now.found(was, names), moves)
	put := &placed{apart: map[int][]string{}, above: map[int][]string{}, behind: map[int][]string{}, below: map[int][]string{}}
	for i := range was.items {
		put.take(was, now, i, at, names)
	}
	out := put.written(was, now)
	var said, says map[string]any
	if toml.Unmarshal(to, &said) != nil || toml.Unmarshal(out, &says) != nil || !reflect.DeepEqual(said, says) {
		return to
	}
	return out
}

// outline is a text as its heads of tables and keys, with the remarks at each.
type outline struct {
	lines      []line
	items      []item
	head, tail []string // remarks that stand by themselves, before the first item and after the last
	lists      map[string][]map[string]any
}

// item is the head of a table or a key with its value.
type item struct {
	head        bool
	path        []string // its table's and its own; an element of a list is its list and number
	table       int      // index of the head it stands under; -1: none
	first, last int      // its lines
	apart       []string // remarks before it that stand by themselves, with the blank lines between
	above       []string // right above it, and inside a value of several lines
	behind      string
	below       []string
}

// outlined reads a text that is TOML; nil where it isn't.
func outlined(text []byte) *outline {
	body, _ := bytes.CutPrefix(text, []byte("\ufeff"))
	var all map[string]any
	if toml.Unmarshal(body, &all) != nil {
		return nil
	}
	o := &outline{lines: split(string(body)), lists: map[string][]map[string]any{}}
	counted := map[string]int{}
	r := reader{o: o, blank: true, table: -1}
	for i := range o.lines {
		l := &o.lines[i]
		switch {
		case l.inside || l.open > 0:
			r.goesOn(i)
		case l.code == "" && l.comment == "":
			r.space()
		case l.code == "":
			r.block = append(r.block, l.comment)
		default:
			path, ok := pathOf(l.code, r.under, counted, all, o.lists)
			if !ok {
				return nil
			}
			r.item(i, path)
		}
	}
	r.end()
	return o
}

// reader goes through the lines of a text.
type reader struct {
	o     *outline
	apart []string // blocks of remarks that a blank line ends
	block []string // the one that is being read
	blank bool     // there is space before it
	under []string // path of the table
	table int
}

// goesOn takes a line on which the last item goes on: what it remarks stands above the item, but on the
// last line of the value.
func (r *reader) goesOn(i int) {
	it, l := &r.o.items[len(r.o.items)-1], &r.o.lines[i]
	if it.behind != "" {
		it.above = append(it.above, it.behind)
	}
	it.last, it.behind, r.blank = i, l.comment, false
}

// space takes a blank line: a block of remarks ends here.
func (r *reader) space() {
	if n := len(r.o.items); len(r.block) > 0 && !r.blank && n > 0 {
		r.o.items[n-1].below = append(r.o.items[n-1].below, r.block...)
	} else if len(r.block) > 0 {
		r.apart = append(append(r.apart, r.block...), "")
	}
	r.block, r.blank = nil, true
}

func (r *reader) item(i int, path []string) {
	l := &r.o.lines[i]
	it := item{head: strings.HasPrefix(l.code, "["), path: path, first: i, last: i, apart: r.apart, above: r.block, behind: l.comment}
	if len(r.o.items) == 0 {
		r.o.head, it.apart = r.apart, nil
	}
	if it.head {
		r.under, r.table = path, len(r.o.items)
	}
	it.table = r.table
	r.o.items = append(r.o.items, it)
	r.apart, r.block, r.blank = nil, nil, false
}

func (r *reader) end() {
	r.space()
	if r.o.tail = r.apart; len(r.o.items) == 0 {
		r.o.head, r.o.tail = r.apart, nil
	}
}

// places are the items of a text at which those of another are found again, by their index there; what
// is not written any more has its table's, what has none of these -1.
func (o *outline) places(was *outline, names Names) []int {
	at := map[string]int{}
	for i := range o.items {
		it := &o.items[i]
		least := 1
		if it.table >= 0 && !it.head {
			least = len(o.items[it.table].path) + 1
		} else if it.head {
			least = len(it.path)
		}
		for n := len(it.path); n >= least; n-- { // a key of a table that is written in pieces is where its first is
			if k := key(it.path[:n]); n == len(it.path) || at[k] == 0 {
				at[k] = i + 1
			}
		}
	}
	renamed := o.found(was, names)
	out := make([]int, len(was.items))
	for i := range was.items {
		path := slices.Clone(was.items[i].path)
		for n := range path {
			if name, ok := renamed[key(was.items[i].path[:n+1])]; ok {
				path[n] = name
			}
		}
		out[i] = -1
		for n := len(path); n > 0 && out[i] < 0; n-- {
			out[i] = at[key(path[:n])] - 1
		}
	}
	return out
}

// take puts the remarks of an item where they belong.
func (p *placed) take(was, now *outline, i int, at []int, names Names) {
	it, to := &was.items[i], at[i]
	for n := i; len(it.apart) > 0; n++ { // what stands by itself goes with what comes next of what is written
		apart := it.apart
		if n > i && !ruledOff(apart) {
			apart = was.ofGone(i, names)
		}
		if n == len(was.items) {
			p.tail = append(p.tail, apart...)
			break
		}
		if t := at[n]; t >= 0 && (n == i || was.items[n].head) {
			p.apart[t] = append(p.apart[t], apart...)
			break
		}
	}
	if to < 0 {
		if len(was.head) == 0 && i == 0 { // the first of the file is its head
			p.head = it.above
		}
		return
	}
	if now.items[to].head && len(it.path) > len(now.items[to].path) { // the key is not written
		last := now.endOf(to)
		told := slices.Concat(it.above, behindOf(it))
		if len(told) > 0 {
			told[0] = "# " + it.path[len(it.path)-1] + ": " + strings.TrimLeft(told[0], "# \t")
		}
		p.below[last] = slices.Concat(p.below[last], told, it.below)
		return
	}
	p.above[to] = append(p.above[to], it.above...)
	p.behind[to] = append(p.behind[to], behindOf(it)...)
	p.below[to] = append(p.below[to], it.below...)
}

func behindOf(it *item) []string {
	if it.behind == "" {
		return nil
	}
	return []string{it.behind}
}

// endOf is the last item of the table with the head.
func (o *outline) endOf(head int) int {
	last := head
	for last+1 < len(o.items) && !o.items[last+1].head {
		last++
	}
	return last
}

// placed are the remarks at the items of the text they go into.
type placed struct {
	head, tail                  []string
	apart, above, behind, below map[int][]string
}

// written is a text with remarks, its own besides.
func (p *placed) written(was, now *outline) []byte {
	var w writer
	if head := slices.Concat(was.head, p.head); len(head) > 0 {
		w.block(head)
		w.space()
	}
	at := -1
	for i, l := range now.lines {
		if at+1 < len(now.items) && now.items[at+1].first == i {
			at++
			p.before(&w, at, now.items[at].behind)
		}
		last := at >= 0 && now.items[at].last == i
		switch {
		case l.opens: // a text goes on in the next line, which ends as it did
			w.raw(l.raw + l.end)
		case last && len(p.behind[at]) == 1 && l.inside:
			w.line(strings.TrimRight(l.raw, " \t") + "  " + p.behind[at][0])
		case last && len(p.behind[at]) == 1:
			l.comment = p.behind[at][0]
			w.line(l.written())
		default:
			w.line(l.raw)
		}
		if last && len(p.below[at]) > 0 {
			w.block(p.below[at])
			w.open = true
		}
	}
	if tail := slices.Concat(p.tail, was.tail); len(tail) > 0 {
		w.space()
		w.block(tail)
	}
	return append(bytes.TrimRight([]byte(w.String()), "\n"), '\n')
}

// before writes what stands before an item. Behind it there is room for one remark.
func (p *placed) before(w *writer, at int, has string) {
	if len(p.apart[at]) > 0 {
		w.space()
		w.block(p.apart[at])
	}
	w.block(p.above[at])
	if behind := p.behind[at]; len(behind) > 1 || len(behind) == 1 && has != "" {
		w.block(behind)
		p.behind[at] = nil
	}
}

// writer writes lines.
type writer struct {
	strings.Builder
	open bool // the next line is not to follow the last closely
	any  bool // something stands there
	gap  bool // the last line is blank
}

func (w *writer) line(s string) {
	if w.open && s != "" {
		w.WriteString("\n")
	}
	w.WriteString(s + "\n")
	w.open, w.any, w.gap = false, true, s == ""
}

func (w *writer) raw(s string) {
	w.WriteString(s)
	w.any, w.gap = true, false
}

func (w *writer) block(lines []string) {
	for _, l := range lines {
		w.line(l)
	}
}

// space sees to a blank line before what follows.
func (w *writer) space() {
	if w.any && !w.gap {
		w.line("")
	}
}

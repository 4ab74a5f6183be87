package located

import (
	"github.com/pelletier/go-toml/v2/unstable"
)

// entry is where a value of the file stands, with the entries of what it holds.
type entry struct {
	key   int // offset of its key; of a table in brackets that of the bracket
	val   int // offset of the value
	plain bool
	order []string // its keys as they come in the file
	keys  map[string]*entry
	items []*entry // its elements
}

// child returns the entry of a key, and makes one where there is none.
func (p *entry) child(name string, key int) *entry {
	if c, ok := p.keys[name]; ok {
		return c
	}
	c := &entry{key: key, val: key}
	if p.keys == nil {
		p.keys = map[string]*entry{}
	}
	p.keys[name] = c
	p.order = append(p.order, name)
	return c
}

// last returns the entry a key under p leads to: the last element of an array of tables.
func (p *entry) last() *entry {
	if n := len(p.items); n > 0 {
		return p.items[n-1]
	}
	return p
}

// entriesOf walks the syntax tree of a text that has been decoded and returns the entries of
// all keys and values; an offset and a message where this parser refuses the text.
func entriesOf(data []byte) (root *entry, offset int, message string) {
	root = &entry{}
	current := root
	var p unstable.Parser
	p.Reset(data)
	for p.NextExpression() {
		e := p.Expression()
		switch e.Kind {
		case unstable.Table, unstable.ArrayTable:
			current = header(root, e, data)
		case unstable.KeyValue:
			keyValue(current, e, data)
		}
	}
	if err := p.Error(); err != nil {
		offset, message = 0, err.Error()
		if pe, ok := err.(*unstable.ParserError); ok && len(pe.Highlight) > 0 { //nolint:errorlint // the parser returns it bare
			offset = int(p.Range(pe.Highlight).Offset)
		}
		return nil, offset, message
	}
	return root, 0, ""
}

// header enters [a.b] or [[a.b]] and returns the entry its keys go to.
func header(root *entry, e *unstable.Node, data []byte) *entry {
	at := root
	it := e.Key()
	for it.Next() {
		k := it.Node()
		at = at.last().child(string(k.Data), bracketBefore(data, int(k.Raw.Offset)))
	}
	if e.Kind == unstable.ArrayTable {
		start := at.key
		it = e.Key()
		if it.Next() {
			start = bracketBefore(data, int(it.Node().Raw.Offset))
		}
		at.items = append(at.items, &entry{key: start, val: start})
	}
	return at.last()
}

// bracketBefore returns the offset of the brackets before a header's first key; that of the
// key itself for a later one.
func bracketBefore(data []byte, key int) int {
	i := key
	for i > 0 && (data[i-1] == ' ' || data[i-1] == '\t') {
		i--
	}
	if i == 0 || data[i-1] != '[' {
		return key
	}
	for i > 0 && data[i-1] == '[' {
		i--
	}
	return i
}

// keyValue enters a key and its value.
func keyValue(at *entry, e *unstable.Node, data []byte) {
	end := 0
	it := e.Key()
	for it.Next() {
		k := it.Node()
		at = at.last().child(string(k.Data), int(k.Raw.Offset))
		end = int(k.Raw.Offset + k.Raw.Length)
	}
	for end < len(data) && (data[end] == ' ' || data[end] == '\t' || data[end] == '=') {
		end++
	}
	at.val = end
	inside(at, e.Value(), data)
}

// inside enters what a value holds. The entry already knows where the value starts.
func inside(at *entry, v *unstable.Node, data []byte) {
	switch v.Kind {
	case unstable.String:
		at.plain = int(v.Raw.Length) == len(v.Data)+2 // one quote at each end, no escape between
	case unstable.InlineTable:
		it := v.Children()
		for it.Next() {
			if n := it.Node(); n.Kind == unstable.KeyValue {
				keyValue(at, n, data)
			}
		}
	case unstable.Array:
		next := at.val + 1
		it := v.Children()
		for it.Next() {
			n := it.Node()
			if n.Kind == unstable.Comment {
				continue
			}
			next = valueStart(data, next)
			item := &entry{key: next, val: next}
			at.items = append(at.items, item)
			inside(item, n, data)
			next = valueEnd(data, next)
		}
	}
}

// valueStart returns where the next value of an array starts: past space, commas, comments.
func valueStart(data []byte, i int) int {
	for ; i < len(data); i++ {
		switch data[i] {
		case ' ', '\t', '\r', '\n', ',':
		case '#':
			for i < len(data) && data[i] != '\n' {
				i++
			}
		default:
			return i
		}
	}
	return i
}

// valueEnd returns the index after the value that starts at i.
func valueEnd(data []byte, i int) int {
	depth := 0
	for i < len(data) {
		switch data[i] {
		case '"', '\'':
			i = skipString(data, i)
			if depth == 0 {
				return i
			}
			continue
		case '#':
			for i < len(data) && data[i] != '\n' {
				i++
			}
			continue
		case '[', '{':
			depth++
		case ']', '}':
			if depth--; depth <= 0 {
				if depth < 0 {
					return i
				}
				return i + 1
			}
		case ',', ' ', '\t', '\r', '\n':
			if depth == 0 {
				return i
			}
		}
		i++
	}
	return i
}

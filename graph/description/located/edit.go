package located

import (
	"bytes"
	"errors"
	"fmt"
	"slices"
	"strings"
)

// Edit gives one key of a file another value, in place. Path leads to it from the top: a text
// is a key of a table, a number an element of a list, counted from 0. Value is TOML. With no
// path Value is lines that go at the end of the file. With Out the key is taken out, with its
// line.
type Edit struct {
	Path  []any
	Value string
	Out   bool
}

// Apply makes the edits in turn and returns the text that results. Of the text nothing else is
// touched: comments, spaces and ends of lines stay as they are. A key that is not there is
// added to its table, after the last one; the table must be there, unless it is one of the
// top's. What results is TOML, or an error says which edit it could not be made with.
func Apply(data []byte, edits ...Edit) ([]byte, error) {
	rest := bytes.TrimPrefix(data, byteOrderMark)
	mark := data[:len(data)-len(rest)]
	out, bad := applyAll(rest, edits, func(i int) bool { return i == len(edits)-1 })
	if bad != nil { // which of them it was
		if _, err := applyAll(rest, edits, func(int) bool { return true }); err != nil {
			bad = err
		}
		return nil, bad
	}
	return slices.Concat(mark, out), nil
}

// Draft is Apply for one who reads what results at once, and hears then whether it does: it is
// not looked at here.
func Draft(data []byte, edits ...Edit) ([]byte, error) {
	rest := bytes.TrimPrefix(data, byteOrderMark)
	out, err := applyAll(rest, edits, func(int) bool { return false })
	if err != nil {
		return nil, err
	}
	return slices.Concat(data[:len(data)-len(rest)], out), nil
}

// applyAll makes the edits in turn and looks after those asked for whether what results reads.
func applyAll(data []byte, edits []Edit, look func(i int) bool) ([]byte, error) {
	for i, e := range edits {
		next, err := e.apply(data)
		if err == nil && look(i) {
			f := New("", next)
			if _, ok := f.Decode(); !ok {
				err = fmt.Errorf("it would not read any more: %s", f.Found[0].Message)
			}
		}
		if err != nil {
			return nil, fmt.Errorf("%s = %s: %w", e.name(), e.Value, err)
		}
		data = next
	}
	return data, nil
}

// name is the path in words.
func (e *Edit) name() string {
	var words []string
	for _, step := range e.Path {
		words = append(words, fmt.Sprint(step))
	}
	return strings.Join(words, ".")
}

func (e *Edit) apply(data []byte) ([]byte, error) {
	if len(e.Path) == 0 {
		return appended(data, e.Value), nil
	}
	root, _, message := entriesOf(data)
	if root == nil {
		return nil, errors.New(message)
	}
	at := root
	for i, step := range e.Path {
		next, missing := at.step(step)
		if next != nil {
			at = next
			continue
		}
		key, isKey := step.(string)
		switch {
		case !isKey || missing:
			return nil, fmt.Errorf("there is no %v", step)
		case i == len(e.Path)-1 && i > 0:
			return at.add(data, key, e.Value)
		case i == 0 && len(e.Path) == 2:
			name, _ := e.Path[1].(string)
			return appended(data, "["+key+"]\n"+bareKey(name)+" = "+e.Value+"\n"), nil
		}
		return nil, fmt.Errorf("there is no table %s", key)
	}
	if e.Out {
		return at.without(data)
	}
	if at.isHeader(data) && data[at.val] != '{' && (len(at.keys) > 0 || len(at.items) > 0) || len(at.keys) > 0 && data[at.val] != '{' {
		return nil, errors.New("that is a table, not a value")
	}
	return slices.Concat(data[:at.val], []byte(e.Value), data[valueEnd(data, at.val):]), nil
}

// step goes on to a key or an element; missing reports that there is nothing a key could be
// added to.
func (p *entry) step(step any) (next *entry, missing bool) {
	switch s := step.(type) {
	case string:
		return p.keys[s], false
	case int:
		if s >= 0 && s < len(p.items) {
			return p.items[s], false
		}
	}
	return nil, true
}

// isHeader reports whether the entry is a table in brackets at the start of a line.
func (p *entry) isHeader(data []byte) bool {
	if p.val != p.key || p.key >= len(data) {
		return false
	}
	line := data[bytes.LastIndexByte(data[:p.key], '\n')+1:]
	return bytes.HasPrefix(bytes.TrimLeft(line, " \t"), []byte("["))
}

// add puts a key that is not there into a table: one in braces before its end, one in brackets
// on a line of its own after the last of its keys.
func (p *entry) add(data []byte, key, value string) ([]byte, error) {
	if p.val < len(data) && data[p.val] == '{' {
		end := valueEnd(data, p.val) - 1
		at := end
		for at > p.val+1 && (data[at-1] == ' ' || data[at-1] == '\t') {
			at--
		}
		if at == p.val+1 {
			return slices.Concat(data[:at], []byte(" "+bareKey(key)+" = "+value+" "), data[end:]), nil
		}
		return slices.Concat(data[:at], []byte(", "+bareKey(key)+" = "+value), data[at:]), nil
	}
	if !p.isHeader(data) {
		return nil, errors.New("its table is written in pieces")
	}
	after, indent := p.val, ""
	for _, k := range p.order {
		last, ok := p.keys[k].lastLine(data)
		if ok && last > after {
			after = last
			start := bytes.LastIndexByte(data[:p.keys[k].key], '\n') + 1
			line := data[start:]
			indent = string(line[:len(line)-len(bytes.TrimLeft(line, " \t"))])
		}
	}
	end := bytes.IndexByte(data[after:], '\n')
	newline := "\n"
	if end < 0 {
		return slices.Concat(data, []byte(newline+indent+bareKey(key)+" = "+value+newline)), nil
	}
	end += after
	if end > 0 && data[end-1] == '\r' {
		newline = "\r\n"
	}
	return slices.Concat(data[:end+1], []byte(indent+bareKey(key)+" = "+value+newline), data[end+1:]), nil
}

// lastLine returns an offset in the last line of a key's value; false for tables in brackets,
// which stand by themselves.
func (p *entry) lastLine(data []byte) (int, bool) {
	if p.isHeader(data) {
		return 0, false
	}
	if p.val > p.key {
		return max(p.val, valueEnd(data, p.val)-1), true
	}
	last, found := 0, false // a dotted key: its parts stand where they are written
	for _, k := range p.order {
		if at, ok := p.keys[k].lastLine(data); ok && at > last {
			last, found = at, true
		}
	}
	return last, found
}

// without takes a key that stands on lines of its own out of the text.
func (p *entry) without(data []byte) ([]byte, error) {
	start := bytes.LastIndexByte(data[:p.key], '\n') + 1
	end := valueEnd(data, p.val)
	stop := bytes.IndexByte(data[end:], '\n')
	if stop < 0 {
		stop = len(data) - end
	} else {
		stop++
	}
	rest := bytes.TrimSpace(data[end : end+stop])
	if p.val == p.key || bytes.ContainsAny(data[start:p.key], "={[") || len(rest) > 0 && rest[0] != '#' {
		return nil, errors.New("it does not stand on a line of its own")
	}
	return slices.Concat(data[:start], data[end+stop:]), nil
}

// Inline reports whether a table is written in braces: it is one value then.
func (f *File) Inline(v Value) bool {
	return v.at != nil && v.at.val < len(f.data) && f.data[v.at.val] == '{'
}

// Remark returns what a comment behind a value says, on its last line; "" where there is none.
func (f *File) Remark(v Value) string {
	if v.at == nil {
		return ""
	}
	line, _, _ := bytes.Cut(f.data[min(valueEnd(f.data, v.at.val), len(f.data)):], []byte("\n"))
	_, remark, _ := bytes.Cut(line, []byte("#"))
	return strings.TrimSpace(string(remark))
}

// appended puts lines at the end of a text, after an empty one, with the text's ends of lines.
func appended(data []byte, lines string) []byte {
	newline := "\n"
	if bytes.Contains(data, []byte("\r\n")) {
		newline = "\r\n"
	}
	out := slices.Clone(data)
	if len(out) > 0 && !bytes.HasSuffix(out, []byte("\n")) {
		out = append(out, newline...)
	}
	if len(out) > 0 {
		out = append(out, newline...)
	}
	return append(out, strings.ReplaceAll(strings.TrimSuffix(lines, "\n")+"\n", "\n", newline)...)
}

// bareKey writes a key, in quotes where it needs them.
func bareKey(s string) string {
	const bare = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-_"
	if s != "" && strings.Trim(s, bare) == "" {
		return s
	}
	return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`).Replace(s) + `"`
}

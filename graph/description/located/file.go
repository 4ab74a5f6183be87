package located

import (
	"bytes"
	"sort"
	"unicode/utf8"

	"dryfit/graph"
)

// byteOrderMark may stand at the start of a file; it is not counted as a column.
var byteOrderMark = []byte("\xef\xbb\xbf")

// File is a file's text and what was found wrong with it so far.
type File struct {
	Name  string
	Found []graph.Diagnostic
	source
	joined []Value // texts with joiners between letters that nobody has read as prose yet
}

// New returns a file of the text.
func New(name string, data []byte) *File {
	data = bytes.TrimPrefix(data, byteOrderMark)
	return &File{Name: name, source: newSource(data)}
}

// source is the bytes of a file with what it takes to find the line and column of any of
// them fast, even where all stand on one line.
type source struct {
	data  []byte
	lines []int // offset of the start of every line
	runes []int // how many characters start before every so many bytes
}

// runesEvery is how far apart the counts of characters are kept, bytes.
const runesEvery = 512

func newSource(data []byte) source {
	t := source{data: data, lines: []int{0}}
	n := 0
	for i, c := range data {
		if i%runesEvery == 0 {
			t.runes = append(t.runes, n)
		}
		if utf8.RuneStart(c) {
			n++
		}
		if c == '\n' {
			t.lines = append(t.lines, i+1)
		}
	}
	t.runes = append(t.runes, n)
	return t
}

// characters returns how many characters start before the offset.
func (t source) characters(offset int) int {
	k := min(offset/runesEvery, len(t.runes)-1)
	n := t.runes[k]
	if k+1 < len(t.runes) && t.runes[k+1]-n == runesEvery { // each of a byte
		return n + offset - k*runesEvery
	}
	for _, c := range t.data[min(k*runesEvery, len(t.data)):offset] {
		if utf8.RuneStart(c) {
			n++
		}
	}
	return n
}

// Pos turns an offset into a place a person can find: columns count characters.
func (f *File) Pos(offset int) graph.Pos {
	offset = min(max(offset, 0), len(f.data))
	line := sort.SearchInts(f.lines, offset+1) - 1
	return graph.Pos{File: f.Name, Line: line + 1, Column: f.characters(offset) - f.characters(f.lines[line]) + 1}
}

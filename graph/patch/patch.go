// Package patch lays a small change over a text, for tests: a case is then what it changes of a
// description that stands, not a copy of it. A case is written as
//
//	# What the case is: it takes the place of the comment at the head of the text.
//
//	@@
//	 a line that stays
//	-a line that goes
//	+a line that comes
//	@@ id = "pump"
//	-existing = true
//
// The lines that stay or go are looked for in the text, where they stand together just once;
// or after @@ and a line that stands there just once, at the first place that follows it. Lines
// that only come, after such a line, come right after it. Blank lines before a @@ don't count.
//
// Only tests import it, and it imports nothing of the house.
package patch

import (
	"fmt"
	"slices"
	"strings"
)

// hunk is one change.
type hunk struct {
	line  int    // of its @@ in the patch, from 1
	after string // the line it follows; "": wherever its lines stand
	body  []string
}

// Over returns a text with a patch laid over it; the error names the line of the patch.
func Over(text, patch string) (string, error) {
	head, hunks, err := parsePatch(patch)
	if err != nil {
		return "", err
	}
	lines := strings.Split(strings.TrimSuffix(text, "\n"), "\n")
	gone, come := map[int]int{}, map[int][]string{}
	for _, h := range hunks {
		at, err := h.find(lines)
		if err != nil {
			return "", err
		}
		for _, b := range h.body {
			switch b[0] {
			case '+':
				come[at] = append(come[at], b[1:])
				continue
			case '-':
				if other, ok := gone[at]; ok {
					return "", fmt.Errorf("%d: %q goes already by the @@ of line %d", h.line, lines[at], other)
				}
				gone[at] = h.line
			}
			at++
		}
	}
	var out []string
	for i := range len(lines) + 1 {
		out = append(out, come[i]...)
		if _, goes := gone[i]; i < len(lines) && !goes {
			out = append(out, lines[i])
		}
	}
	if len(head) > 0 {
		n := slices.IndexFunc(out, func(l string) bool { return !strings.HasPrefix(l, "#") })
		out = append(head, out[max(n, 0):]...)
	}
	return strings.Join(out, "\n") + "\n", nil
}

// parsePatch parts a patch into the comment at its head and its changes.
func parsePatch(patch string) (head []string, hunks []hunk, err error) {
	for i, l := range strings.Split(strings.TrimSuffix(patch, "\n"), "\n") {
		n := len(hunks)
		switch {
		case strings.HasPrefix(l, "@@"):
			hunks = append(hunks, hunk{line: i + 1, after: strings.TrimPrefix(l[2:], " ")})
		case n == 0 && (l == "" || l[0] == '#'):
			if l != "" {
				head = append(head, l)
			}
		case n == 0:
			return nil, nil, fmt.Errorf("%d: %q before the first @@: only a comment may stand there", i+1, l)
		case l == "":
			hunks[n-1].body = append(hunks[n-1].body, " ")
		case !strings.ContainsRune(" -+", rune(l[0])):
			return nil, nil, fmt.Errorf("%d: %q begins with none of blank (stays), - (goes) and + (comes)", i+1, l)
		default:
			hunks[n-1].body = append(hunks[n-1].body, l)
		}
	}
	for i := range hunks {
		h := &hunks[i]
		for len(h.body) > 0 && h.body[len(h.body)-1] == " " {
			h.body = h.body[:len(h.body)-1]
		}
		if !slices.ContainsFunc(h.body, func(b string) bool { return b[0] != ' ' }) {
			return nil, nil, fmt.Errorf("%d: no line goes or comes", h.line)
		}
	}
	return head, hunks, nil
}

// find returns the index of the first of the lines a change speaks of.
func (h *hunk) find(lines []string) (int, error) {
	from := 0
	if h.after != "" {
		at := places(lines, []string{h.after})
		if len(at) != 1 {
			return 0, fmt.Errorf("%d: %q stands in the text %s, not once", h.line, h.after, times(at))
		}
		from = at[0] + 1
	}
	var old []string
	for _, b := range h.body {
		if b[0] != '+' {
			old = append(old, b[1:])
		}
	}
	if len(old) == 0 {
		if h.after == "" {
			return 0, fmt.Errorf("%d: no word where the lines come: give one that stays, or write the line they follow after @@", h.line)
		}
		return from, nil
	}
	at := places(lines[from:], old)
	if len(at) == 0 || h.after == "" && len(at) > 1 {
		return 0, fmt.Errorf("%d: its lines stand together in the text %s, not once: give more of those round them, or after @@ one they follow\n%s",
			h.line, times(at), strings.Join(old, "\n"))
	}
	return from + at[0], nil
}

// places are the indexes at which some lines begin in a text.
func places(lines, some []string) []int {
	var out []int
	for i := 0; i+len(some) <= len(lines); i++ {
		if slices.Equal(lines[i:i+len(some)], some) {
			out = append(out, i)
		}
	}
	return out
}

func times(at []int) string {
	if len(at) == 0 {
		return "nowhere"
	}
	var where []string
	for _, i := range at {
		where = append(where, fmt.Sprint(i+1))
	}
	return fmt.Sprintf("%d times (lines %s)", len(at), strings.Join(where, ", "))
}

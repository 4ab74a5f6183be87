package live

import (
	"bytes"
	"fmt"
	"strings"

	"dryfit/catalog/quantity"
)

// DifferenceHTML shows which lines of a text would be others, each with the lines around it;
// only names what no key of the file says, kept the parts whose loss is written so that it stays,
// noPlace why the text then has no place for the cut.
func DifferenceHTML(was, now []byte, only, kept []string, noPlace quantity.Text, units quantity.System) string {
	var b bytes.Buffer
	lines := difference(strings.Split(string(was), "\n"), strings.Split(string(now), "\n"))
	if len(lines) == 0 {
		b.WriteString("<p>Nothing changes in the file.</p>\n")
	} else {
		b.WriteString("<pre class=\"lines\" tabindex=\"0\" aria-label=\"what changes in the file\">")
		for _, l := range lines {
			class := map[byte]string{'-': " class=\"gone\"", '+': " class=\"new\""}[l[0]]
			fmt.Fprintf(&b, "<span%s>%s</span>\n", class, text(strings.TrimSuffix(l, "\r")))
		}
		b.WriteString("</pre>\n")
	}
	if noPlace != "" {
		fmt.Fprintf(&b, "<p class=\"error\">With that in the file nothing would be built in until something else is changed: %s.</p>\n", text(noPlace.In(units)))
	}
	if len(only) > 0 {
		fmt.Fprintf(&b, "<p class=\"note\">Not written, for no key of the file says it: %s.</p>\n", text(strings.Join(only, "; ")))
	}
	if len(kept) > 0 {
		fmt.Fprintf(&b, "<p class=\"note\">Written too, so that it stays what it is: the loss of %s. Nobody gave it: it is taken to suit the pump, and a pump that turns otherwise changes nothing in them.</p>\n", text(strings.Join(kept, ", ")))
	}
	return b.String()
}

// difference lists the lines that go ("-") and come ("+") with a line around each group (" "),
// and "…" between groups. Edits in place keep the order of lines, so the longest common run is
// found by walking from both ends of each stretch that differs.
func difference(was, now []string) []string {
	pairs := match(was, now)
	var out []string
	i, k, shown := 0, 0, 0
	for _, p := range append(pairs, [2]int{len(was), len(now)}) {
		if i < p[0] || k < p[1] {
			if i > shown+1 && len(out) > 0 {
				out = append(out, "…")
			}
			if i > shown {
				out = append(out, "  "+was[i-1])
			}
			for ; i < p[0]; i++ {
				out = append(out, "- "+was[i])
			}
			for ; k < p[1]; k++ {
				out = append(out, "+ "+now[k])
			}
			if p[0] < len(was) {
				out = append(out, "  "+was[p[0]])
			}
			shown = p[0] + 1
		}
		i, k = p[0]+1, p[1]+1
	}
	return out
}

// match pairs equal lines in order. An edit changes or adds single lines, so that the next
// pair is never far: the nearest is taken.
func match(was, now []string) [][2]int {
	const far = 400 // lines that one edit may add or take
	var out [][2]int
	i, k := 0, 0
	for i < len(was) && k < len(now) {
		if was[i] == now[k] {
			out = append(out, [2]int{i, k})
			i, k = i+1, k+1
			continue
		}
		di, dk, found := 0, 0, false
		for sum := 1; sum <= far && !found; sum++ {
			for d := range sum + 1 {
				a, b := i+d, k+sum-d
				if a < len(was) && b < len(now) && was[a] == now[b] && (was[a] != "" || sum <= 2) {
					di, dk, found = d, sum-d, true
					break
				}
			}
		}
		if !found {
			break
		}
		i, k = i+di, k+dk
	}
	return out
}

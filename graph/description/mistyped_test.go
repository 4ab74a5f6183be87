package description

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/lots"
)

var (
	anyText    = regexp.MustCompile(`"(\\.|[^"\\])*"`)
	headOfFile = regexp.MustCompile(`^\[\[?[\w.-]+\]\]?`)
	oneName    = regexp.MustCompile(`[\w-]+`)
	keyOfFile  = regexp.MustCompile(`([\w-]+)[\w.-]*\s*=`)
)

// keysWritten returns where the keys and tables of a description stand, each a line (from 0), the bytes
// before it and its name.
func keysWritten(lines []string) (out []struct {
	line, at int
	key      string
}) {
	for i, l := range lines {
		l = anyText.ReplaceAllStringFunc(l, func(s string) string { return `"` + strings.Repeat(".", len(s)-2) + `"` })
		l, _, _ = strings.Cut(l, "#")
		found := keyOfFile.FindAllStringSubmatchIndex(l, -1)
		if headOfFile.MatchString(l) {
			found = nil
			for _, m := range oneName.FindAllStringIndex(l, -1) {
				found = append(found, []int{0, 0, m[0], m[1]})
			}
		}
		for _, m := range found {
			out = append(out, struct {
				line, at int
				key      string
			}{i, m[2], l[m[2]:m[3]]})
		}
	}
	return out
}

// ownNames are keys that are ownNames of the user's, not the description's: another is as good.
var ownNames = map[string]bool{"low": true, "high": true, "left": true, "right": true, "tub": true, "out": true, "in": true, "skimmer": true, "footwell": true, "jets": true,
	"unit": true, "tee": true, "elbow-90": true, "pump": true}

// typo is a key of a file mistyped by its last letter.
type typo struct {
	line, at   int
	key, wrong string
	head       bool // in the head of a table
}

// typosOf lists a typo of each key of a file that is the description's.
func typosOf(lines []string) (out []typo) {
	for _, k := range keysWritten(lines) {
		last := "x"
		if strings.HasSuffix(k.key, last) || len(k.key) < 3 {
			last = "q"
		}
		wrong := k.key[:len(k.key)-1] + last
		if len(k.key) < 3 {
			wrong = k.key + last
		}
		line := lines[k.line]
		switch {
		case ownNames[k.key] && !strings.HasPrefix(line, "[["), strings.HasPrefix(line, "[prices]"):
			continue
		case k.key == "spring-aside": // an older name that is read and not told
			continue
		}
		out = append(out, typo{line: k.line, at: k.at, key: k.key, wrong: wrong, head: strings.HasPrefix(line, "[")})
	}
	return out
}

// misread says what is wrong with how a file is read that has the typos, each in a line of its own:
// as many findings are wanted, one at each, that says which key was meant.
func misread(name string, lines []string, typos []typo) (wrong []string) {
	changed := slices.Clone(lines)
	for _, k := range typos {
		line := lines[k.line]
		changed[k.line] = line[:k.at] + k.wrong + line[k.at+len(k.key):]
	}
	c, ds := Read(name, []byte(strings.Join(changed, "\n")))
	if c != nil || len(ds) != len(typos) {
		return []string{fmt.Sprintf("%s with %+v: read %v; %s", name, typos, c != nil, messagesOf(ds))}
	}
	slices.SortStableFunc(ds, func(a, b graph.Diagnostic) int { return a.Pos.Line - b.Pos.Line })
	for i, k := range typos {
		at, where := ds[i].Pos, fmt.Sprintf("%s:%d: %s for %s", name, k.line+1, k.wrong, k.key)
		column := 1 + len([]rune(lines[k.line][:k.at]))
		if at.Line != k.line+1 || !k.head && at.Column != column || k.head && at.Column != 1 && at.Column != k.at+1 {
			wrong = append(wrong, fmt.Sprintf("%s is told at %s", where, at))
		}
		if !strings.Contains(string(ds[i].Hint), k.key) {
			wrong = append(wrong, fmt.Sprintf("%s: hint %q", where, ds[i].Hint))
		}
	}
	return wrong
}

// A key or table mistyped by its last letter is one finding, at the key, that says which was meant,
// wherever it stands: nothing else is found because what it says was not read. A table is mistyped
// alone, keys that stand far apart in one file together, with -wide alone too.
func TestEveryKeyMistyped(t *testing.T) {
	files := demos(t)
	files["everything.toml"] = []byte(everything)
	cases := 0
	for name, data := range files {
		if !lots.Named(name, "everything.toml", "plug-in.toml") {
			continue
		}
		if c, ds := Read(name, data); c == nil {
			t.Fatal(ds)
		}
		lines := strings.Split(string(data), "\n")
		var heads, keys []typo
		for _, k := range typosOf(lines) {
			cases++
			if k.head {
				heads = append(heads, k)
			} else {
				keys = append(keys, k)
			}
		}
		alone := heads
		apart := (len(keys) + lots.Count(1, 6) - 1) / lots.Count(1, 6)
		for first := range apart {
			var together []typo
			for i := first; i < len(keys); i += apart {
				together = append(together, keys[i])
			}
			if len(misread(name, lines, together)) > 0 {
				alone = append(alone, together...)
			}
		}
		for _, k := range alone {
			for _, wrong := range misread(name, lines, []typo{k}) {
				t.Error(wrong)
			}
		}
	}
	if cases < 600 {
		t.Errorf("only %d cases", cases)
	}
}

func messagesOf(ds []graph.Diagnostic) string {
	var out []string
	for _, d := range ds {
		out = append(out, d.Pos.String()+" "+d.Message.String())
	}
	return strings.Join(out, "; ")
}

package description

import (
	"fmt"
	"regexp"
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

// A key or table mistyped by its last letter is one finding, at the key, that says which was meant,
// wherever it stands: nothing else is found because what it says was not read.
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
			cases++
			changed := append([]string(nil), lines...)
			changed[k.line] = line[:k.at] + wrong + line[k.at+len(k.key):]
			c, ds := Read(name, []byte(strings.Join(changed, "\n")))
			where := fmt.Sprintf("%s:%d: %s for %s", name, k.line+1, wrong, k.key)
			if c != nil || len(ds) == 0 {
				t.Errorf("%s is read", where)
				continue
			}
			if len(ds) > 1 {
				t.Errorf("%s: %s", where, messagesOf(ds))
			}
			at := ds[0].Pos
			if head := strings.HasPrefix(line, "["); at.Line != k.line+1 || !head && at.Column != 1+len([]rune(line[:k.at])) || head && at.Column != 1 && at.Column != k.at+1 {
				t.Errorf("%s is told at %s", where, at)
			}
			if !strings.Contains(string(ds[0].Hint), k.key) {
				t.Errorf("%s: hint %q", where, ds[0].Hint)
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

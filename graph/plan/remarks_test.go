package plan_test

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/description/layout"
	"dryfit/graph/plan"
)

// remark is a remark of a file with where it stands.
type remark struct{ text, table, key string }

var (
	aKey  = regexp.MustCompile(`^([\w-]+)[\w.-]*\s*=`)
	aName = regexp.MustCompile(`^(id|name|remains-of)\s*=\s*"([^"]*)"`)
)

// remarksOf reads the remarks of a file whose texts hold no "#" and no bracket out of place, with the
// table and the key each stands at: the one on its line, inside of which it is, or which comes next;
// and all the tables and keys there are. A table of a list goes by its first name.
func remarksOf(text string) (all []remark, have map[string]bool) {
	have = map[string]bool{}
	lines := strings.Split(text, "\n")
	table, key, open := "", "", 0
	var above []string
	settle := func() {
		for _, r := range above {
			all = append(all, remark{r, table, key})
		}
		above = nil
	}
	for i, l := range lines {
		code, said, ok := strings.Cut(l, "#")
		code = strings.TrimSpace(code)
		if code == "" && open == 0 {
			if ok {
				above = append(above, strings.TrimSpace(said))
			}
			continue
		}
		switch m := aKey.FindStringSubmatch(code); {
		case open > 0:
		case strings.HasPrefix(code, "["):
			table, key = code, ""
			for _, next := range lines[i+1:] {
				if strings.HasPrefix(next, "[") {
					break
				}
				if n := aName.FindStringSubmatch(next); n != nil {
					table += " " + n[2]
					break
				}
			}
			have[table] = true
		case m != nil:
			key = m[1]
			have[table+" "+key] = true
		}
		settle()
		if ok {
			all = append(all, remark{strings.TrimSpace(said), table, key})
		}
		open += strings.Count(code, "[") + strings.Count(code, "{") - strings.Count(code, "]") - strings.Count(code, "}")
	}
	table, key = "", ""
	settle()
	return all, have
}

// What somebody remarked in his file stands in what is written of it: with the work built in, and as it
// stands once that is done. It stands at its key where that is still written, else in its table; what
// is left of a run that was cut has those of the run. Held against the text of every demo.
func TestRemarksStay(t *testing.T) {
	files, err := filepath.Glob("../../testdata/*.toml")
	if err != nil || len(files) < 5 {
		t.Fatalf("%d demos: %v", len(files), err)
	}
	for _, file := range append(files, "testdata/jobs/starved.toml", "testdata/jobs/sunk-in-deck.toml") {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		p := work(t, read(t, filepath.Base(file), data), plan.Findings)
		was, _ := remarksOf(string(data))
		if len(was) == 0 {
			t.Fatalf("%s has no remark", file)
		}
		for name, c := range map[string]*graph.Circuit{"as it is": p.Asked, "the work built in": p.Circuit, "as built": p.Circuit.Built()} {
			text := string(layout.Carry(data, description.Write(c), description.Names, description.Moves))
			now, have := remarksOf(text)
			kept := 0
			for _, r := range was {
				inKey := slices.ContainsFunc(now, func(n remark) bool { return n.text == r.text && n.table == r.table && n.key == r.key })
				inTable := slices.ContainsFunc(now, func(n remark) bool { return strings.HasSuffix(n.text, r.text) })
				switch {
				case inKey:
					kept++
				case have[r.table+" "+r.key] && r.key != "", have[r.table] && !inTable:
					t.Errorf("%s, %s: %q of %s %s is lost:\n%+v", file, name, r.text, r.table, r.key, now)
				}
			}
			if 2*kept < len(was) || name == "as it is" && kept < len(was)*9/10 {
				t.Errorf("%s, %s: %d of %d remarks stand where they did", file, name, kept, len(was))
			}
			if string(description.Write(c)) != bareOf(text) {
				t.Errorf("%s, %s: what is written beside the remarks has changed", file, name)
			}
		}
	}
}

// bareOf is a written description without its remarks.
func bareOf(text string) string {
	var out []string
	for l := range strings.Lines(text) {
		code, _, ok := strings.Cut(l, "#")
		if code = strings.TrimRight(code, " \n"); code != "" || !ok && len(out) > 0 && out[len(out)-1] != "" {
			out = append(out, code)
		}
	}
	return strings.Join(out, "\n") + "\n"
}

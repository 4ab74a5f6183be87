package plan_test

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"dryfit/graph/description"
	"dryfit/graph/lots"
	"dryfit/graph/plan"
)

var (
	sideWays = regexp.MustCompile(`"(left|right)( [\d?]|")`)
	eachSide = regexp.MustCompile(`\b(left|right)\b`)
)

// mirrored is a description seen in a mirror: left is right.
func mirrored(text string) string {
	for range 2 { // of two legs side by side the second begins where the first ended
		text = sideWays.ReplaceAllStringFunc(text, func(s string) string {
			if strings.HasPrefix(s, `"left`) {
				return `"LEFT` + s[len(`"left`):]
			}
			return `"RIGHT` + s[len(`"right`):]
		})
	}
	return strings.NewReplacer(`"LEFT`, `"right`, `"RIGHT`, `"left`).Replace(text)
}

// A job seen in a mirror has the same places in the same order, ruled out by the same words and numbers,
// and the same work: nothing that is searched hangs on which side is tried first. Front is no back:
// work is reached from the front, and the branches look there first.
func TestMirroredJobIsTheSame(t *testing.T) {
	files, err := filepath.Glob("testdata/jobs/*.toml")
	demos, err2 := filepath.Glob("../../testdata/*.toml")
	if err != nil || err2 != nil || len(files) < 10 || len(demos) < 5 {
		t.Fatal(files, demos, err, err2)
	}
	places := 0
	for _, file := range append(files, demos...) {
		if !lots.Named(strings.TrimSuffix(filepath.Base(file), ".toml"), "circulation", "no-place", "octagonal", "past-the-door", "swim-spa") {
			continue
		}
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		said := func(text string) []string {
			c, ds := description.Read("job.toml", []byte(text))
			if c == nil {
				t.Fatalf("%s: %v", file, ds)
			}
			p := work(t, c, plan.Places|plan.Swift)
			var out []string
			for _, v := range p.Places {
				line := fmt.Sprint(v.Place.Run, v.Place.Leg, v.Verdict, v.Summary.In(0))
				for _, r := range v.Reasons {
					line += "; " + r.Text.In(0)
				}
				out = append(out, eachSide.ReplaceAllString(line, "aside"))
			}
			if p.After != nil {
				for _, piece := range p.After.Layout.Pieces {
					out = append(out, fmt.Sprintf("piece %d: %.3f mm", piece.Number, piece.CutMM))
				}
			}
			return out
		}
		if mirrored(string(data)) == string(data) {
			t.Fatalf("%s has no side", file)
		}
		was, now := said(string(data)), said(mirrored(string(data)))
		places += len(was)
		if len(was) != len(now) {
			t.Errorf("%s: %d places and pieces, in the mirror %d", file, len(was), len(now))
			continue
		}
		for i := range was {
			if was[i] != now[i] {
				t.Errorf("%s:\n%s\nin the mirror\n%s", file, was[i], now[i])
			}
		}
	}
	if places < 40 {
		t.Errorf("%d places and pieces were compared", places)
	}
}

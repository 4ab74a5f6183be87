package description

import (
	"strings"
	"testing"

	"dryfit/graph"
)

// joinedJob is a job with joiners between the letters of every text that is only shown; Persian parts
// the letters of "houses" so, and Hindi joins those of a conjunct. WORD stands for both.
const joinedJob = `[job]
name = "WORD"
prepared-by = "WORD"
notes = ["WORD", "x"]

[water]
notes = "WORD"

[pipe]
spec = "pvc-sch40"
size = "2 in"

[[part]]
id = "tub"
kind = "tub"
ports = ["suction"]
note = "WORD"
keep-clear = [{ from = ["left 300 mm"], to = ["right 500 mm", "front 900 mm", "down 800 mm"], what = "WORD" }]

[[part]]
id = "cap"
kind = "cap"
existing = true

[[run]]
from = "tub.suction"
to = "cap.in"
existing = true
legs = ["right 1 m"]

[[shell]]
name = "WORD"
area = "5 m2"
resistance = "1.9 m2 K/W"

[[accept]]
promise = "least-flow"
reason = "WORD"

[[catalog.pump]]
name = "mine"
curve = [["0 m3/h", "9 m"], ["8 m3/h", "7 m"]]
source = "WORD"
note = "WORD"
tag = "own"
`

// What is only shown may be in any language: it reads, written out or as escapes, and is written again as
// it was.
func TestJoinersInProse(t *testing.T) {
	const word = "خانه\u200cها क\u094d\u200dष"
	escaped := strings.NewReplacer("\u200c", `\u200c`, "\u200d", `\u200d`).Replace(word)
	for _, w := range []string{word, escaped} {
		c, ds := Read("joined.toml", []byte(strings.ReplaceAll(joinedJob, "WORD", w)))
		if c == nil {
			t.Fatalf("%q: %v", w, ds)
		}
		row, _ := c.Catalog.Row("mine")
		tub := c.Part("tub")
		for what, got := range map[string]string{
			"name": c.Job.Name, "prepared-by": c.Job.PreparedBy, "note of the job": c.Job.Notes[0], "note of the water": c.Water.Notes,
			"note of a part": tub.Note, "what of a box": tub.KeepClear[0].What, "wall": c.Shells[0].Name, "reason": c.Accepted[0].Reason,
			"source of a row": row.Source.String(), "note of a row": row.Note.String(),
		} {
			if got != word {
				t.Errorf("%s: %q, want %q", what, got, word)
			}
		}
		written := Write(c)
		if n := strings.Count(string(written), word); n != 10 {
			t.Errorf("%d of 10 texts are written as they were:\n%s", n, written)
		}
		if again, ds := Read("again.toml", written); again == nil {
			t.Errorf("what is written does not read: %v", ds)
		}
	}
}

// Of a file of rows by itself the same holds as of those of a description.
func TestJoinersInRows(t *testing.T) {
	const rows = `[[pump]]
name = "mi%ne"
curve = [["0 m3/h", "9 m"], ["8 m3/h", "7 m"]]
source = "a\u200cb"
tag = "own"
`
	if _, ds := ReadCatalog("rows.toml", []byte(strings.Replace(rows, "%", "", 1))); len(ds) > 0 {
		t.Errorf("refused in a source: %v", ds)
	}
	_, ds := ReadCatalog("rows.toml", []byte(strings.Replace(rows, "%", `\u200d`, 1)))
	if len(ds) != 1 || ds[0].Severity != graph.Error || ds[0].Pos.Line != 2 || !strings.Contains(ds[0].Message.String(), "U+200D") {
		t.Errorf("in a name: %v", ds)
	}
}

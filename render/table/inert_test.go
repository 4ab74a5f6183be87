package table

import (
	"encoding/csv"
	"encoding/json"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/plan"
	"dryfit/graph/takeoff"
	"dryfit/render/table/form"
	"dryfit/render/table/lists"
)

// nasty are texts that do something where they are obeyed: a spreadsheet runs what begins
// like a formula, a terminal what follows an escape.
var nasty = []string{"=HYPERLINK(\"http://example.invalid\",\"x\")", "+1+1", "-2+3", "@SUM(A1)", "\x1b[2Jgone", "\u202egnp.exe", "a\r\nb", "\t=1", "|cmd", "＝1+1", "＋1", "－1", "＠x", "｜x", "−1", " =1", "\u200b=1", "\u00ad", "\U000e0041x"}

func TestCell(t *testing.T) {
	for _, c := range []struct{ in, want string }{
		{"=1+1", "'=1+1"}, {"+49", "'+49"}, {"-5", "'-5"}, {"@x", "'@x"},
		{"|calc", "'|calc"}, {"＝1", "'＝1"}, {"＋1", "'＋1"}, {"－1", "'－1"}, {"＠x", "'＠x"}, {"｜x", "'｜x"}, {" =1", "' =1"},
		{"\u200b=1", `\x200b=1`}, {"a\u200fb", `a\x200fb`}, {"\ufeffx", `\xfeffx`},
		{"plain", "plain"}, {"a=b", "a=b"}, {"", ""},
		{"\t=1", `\x09=1`}, {"\x1b[2J", `\x1b[2J`}, {"\u202egnp", `\x202egnp`}, {"née 漢", "née 漢"},
	} {
		if got := form.Cell(c.in); got != c.want {
			t.Errorf("cell(%q) = %q, want %q", c.in, got, c.want)
		}
	}
}

// Whatever a user's text holds, no cell of any CSV begins like a formula, and no list holds
// a control character.
func TestNothingRuns(t *testing.T) {
	p := &plan.Plan{Bill: &takeoff.Bill{}, Cuts: &takeoff.CutList{}}
	for _, n := range nasty {
		p.Bill.Items = append(p.Bill.Items, takeoff.Item{Name: n, Code: n, Price: n, Where: []takeoff.Place{{At: n}}, Source: n, New: true, Unit: "pc"})
		p.Findings = append(p.Findings, graph.Diagnostic{Pos: graph.Pos{File: n, Line: 1, Column: 1}, Message: quantity.Text(n), Hint: quantity.Text(n), Rule: "reading"})
	}
	parts, err := lists.PartsCSV(p, form.Style{})
	if err != nil {
		t.Fatal(err)
	}
	for _, data := range [][]byte{parts, FindingsCSV(p.Findings, form.Style{})} {
		records, err := csv.NewReader(strings.NewReader(string(data))).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		if len(records) != len(nasty)+1 {
			t.Errorf("%d records, want %d and a header", len(records), len(nasty))
		}
		for _, r := range records[1:] {
			for _, c := range r {
				if c != "" && strings.ContainsAny(firstOf(c), "=+@\t\r|＝＋－＠｜−") || strings.HasPrefix(c, "-2") {
					t.Errorf("a spreadsheet would run %q", c)
				}
			}
		}
	}
	data, err := FindingsJSON(p.Findings, form.Style{})
	if err != nil {
		t.Fatal(err)
	}
	var back struct{ Findings []struct{ Message string } }
	if err := json.Unmarshal(data, &back); err != nil || len(back.Findings) != len(nasty) {
		t.Fatalf("%v, %d findings", err, len(back.Findings))
	}
	for i, n := range nasty {
		if back.Findings[i].Message != n {
			t.Errorf("JSON gives back %q for %q", back.Findings[i].Message, n)
		}
	}
	for _, r := range string(data) {
		if r != '\n' && graph.Obeyed(r) {
			t.Errorf("the JSON holds %U raw", r)
		}
	}
	text, err := lists.PartsText(p, form.Style{Units: quantity.MetricSystem})
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range string(text) {
		if r < ' ' && r != '\n' || r == '\u202e' || r == '\u200b' || r == '\u00ad' {
			t.Errorf("the text holds %q", r)
		}
	}
}

func firstOf(text string) string {
	for _, c := range strings.TrimSpace(text) {
		return string(c)
	}
	return ""
}

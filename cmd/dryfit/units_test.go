package main

import (
	"archive/zip"
	"html"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"dryfit/catalog"
	"dryfit/cmd/dryfit/disk"
	"dryfit/cmd/dryfit/world"
	"dryfit/graph/lots"
	"dryfit/graph/rule"
)

// foreign finds a number with a unit of the other system in what is printed in each, or such a
// unit alone where it can be nothing else (a table may break a line between them). Power,
// current, volts, kWh, square metres of a cable and times are the same in both systems of the
// trade. A bar of pipe is a length of it, so pressures in bar are those with decimals.
var foreign = map[string]*regexp.Regexp{
	"inch": regexp.MustCompile(`[0-9] ?(mm|cm|m|m2|m3|m3/h|m/h|l|ml|l/s|l/min|l/h|kPa|mbar|m/s|°C|K|kg|kg/m3|W/K|W/m2|m2 K/W)(\s|[),;:."]|$)` +
		`|[0-9]\.[0-9]+ bar\b|(^|[\s(])(m3/h|m³/h|kPa|m/s|°C|l/min|l/s|kg/m3|W/K|metres?|litres?|millimetres?|centimetres?|kelvins?)(\s|[),;:."]|$)`),
	"metric": regexp.MustCompile(`[0-9] ?(in|ft|ft2|gal|fl oz|pint|gpm|psi|ft/s|°F|lb|lb/ft3|W/°F|cP)(\s|[),;:."]|$)` +
		`|(^|[\s(])(gpm|psi|ft/s|°F|gallons?|inches|feet)(\s|[),;:."]|$)`),
}

// exempt takes out what stands in one system in any job: the nominal size of pipe and hose, the
// label of a spring in the name of its row, and what is quoted of the file: a leg in a sentence, a
// line of it under a message, and how a key may be written.
var exempt = []*regexp.Regexp{
	regexp.MustCompile(`\b(16|20|25|32|38|40|50|63|75|90|110) mm\b`),
	regexp.MustCompile(`\b(1/2|3/4|1|1-1/4|1-1/2|2|2-1/2|3|4) in\b`),
	regexp.MustCompile(`\b19 or 38 mm\b`), // hose in ISO 1307
	regexp.MustCompile(`circulation-pump-1.5in|spring(-check)?\s+[0-9/-]+\s+psi`),
	regexp.MustCompile(`your\s+leg\s+"[^"]*"`),
	regexp.MustCompile(`\b[\w-]+\.toml\b`),
	regexp.MustCompile(`(?m)^ *[a-z][a-z.-]* *= .*`),
	regexp.MustCompile(`stands on feet`),
	regexp.MustCompile(`-sch[0-9]+ in the\b`),       // pvc-sch40 in the pipe
	regexp.MustCompile(`[A-Z]\d+ K [0-9.]+`),        // a coefficient, in the cell after a part's
	regexp.MustCompile(`[0-9] in (10|100|1,000)\b`), // 19 in 20 samples
	regexp.MustCompile(`\b[a-z][0-9] in mode\b`),    // a pump p1
}

// whole are the demos of which every picture and the whole pack are read too, in the units
// that are not those of their pipe.
var whole = map[string]string{"two-speed.toml": "metric", "plunge-pool.toml": "inch"}

// With --units no verb prints a quantity in the units of the other system, in tables, in
// findings, on drawings and in the pack.
func TestUnitsAsked(t *testing.T) {
	t.Parallel()
	demos, err := filepath.Glob("../../testdata/*.toml")
	if err != nil || len(demos) < 4 {
		t.Fatalf("%d demos, %v", len(demos), err)
	}
	for _, demo := range demos {
		for units, other := range foreign {
			if units == "metric" && whole[filepath.Base(demo)] != units && filepath.Base(demo) != "plug-in.toml" {
				continue // all demos are written in metric: two of them say it of them all
			}
			verbs := []string{"check", "cutin", "match", "parts", "cuts", "show"}
			if own := whole[filepath.Base(demo)]; own == units || own != "" && lots.All() { // what takes longer, where there is most of it
				verbs = append(verbs, "flow", "heat", "quote")
			}
			for _, verb := range verbs {
				readsOnly(t, verb+" "+filepath.Base(demo), printed(t, verb, demo, "--units", units), units, other)
			}
			if whole[filepath.Base(demo)] != units {
				continue
			}
			folder := filepath.Join(t.TempDir(), "pack")
			printed(t, "pack", demo, "--units", units, "-o", folder)
			page, err := os.ReadFile(filepath.Join(folder, "index.html"))
			if err != nil {
				t.Fatal(err)
			}
			if n := strings.Count(string(page), "<svg"); n < 5 {
				t.Errorf("the pack of %s shows %d drawings", demo, n)
			}
			readsOnly(t, "pack "+filepath.Base(demo), string(page), units, other)
			readsPapers(t, filepath.Base(demo), folder, units, other)
		}
	}
}

// The jobs are other tubs than the demos: hose, plungers, units in parallel, nothing that fits.
// The suite reads in inch, which none of them is written in, what check finds in each, and parts
// and show of every third: those are lists of rows that the jobs have in common. With -wide every
// verb of all, and the pack with every sheet, in both systems.
func TestUnitsOfJobs(t *testing.T) {
	t.Parallel()
	jobs, err := filepath.Glob("../../graph/plan/testdata/jobs/*.toml")
	if err != nil || len(jobs) < 10 {
		t.Fatalf("%d jobs, %v", len(jobs), err)
	}
	for i, job := range jobs {
		for units, other := range foreign {
			verbs := []string{"check"}
			if lots.All() || i%3 == 0 {
				verbs = append(verbs, "parts", "show")
			}
			if lots.All() {
				verbs = append(verbs, "cutin", "cuts", "flow", "heat", "match", "quote")
			} else if units == "metric" {
				continue
			}
			for _, verb := range verbs {
				readsOnly(t, verb+" "+filepath.Base(job), printed(t, verb, job, "--units", units), units, other)
			}
			if !lots.All() {
				continue
			}
			folder := filepath.Join(t.TempDir(), "pack")
			printed(t, "pack", job, "--units", units, "-o", folder)
			page, err := os.ReadFile(filepath.Join(folder, "index.html"))
			if err != nil {
				t.Fatal(err)
			}
			readsOnly(t, "pack "+filepath.Base(job), string(page), units, other)
			readsPapers(t, filepath.Base(job), folder, units, other)
		}
	}
}

// What a rule says, and a row of the catalogue, is read in the units asked for; a key's example
// is one way to write it.
func TestUnitsOfRulesAndRows(t *testing.T) {
	t.Parallel()
	for units, other := range foreign {
		readsOnly(t, "check --rules", printed(t, "check", "--rules", "--units", units), units, other)
		for _, r := range rule.All() {
			said := printed(t, "check", "--explain", r.Name, "--units", units)
			said, _, _ = strings.Cut(said, "\n\n") // behind it stands the key of the name
			readsOnly(t, r.Name, said, units, other)
		}
		for _, r := range catalog.Embedded().Rows() {
			if r.Spec == "" && r.Size == (catalog.Size{}) {
				said := printed(t, "catalog", "show", r.Name, "--units", units)
				readsOnly(t, r.Name, asTabled.ReplaceAllString(said, "$1"), units, other)
			}
		}
	}
}

// asTabled is an amount as the catalogue's table has it, with the same in the reader's units in
// brackets behind it: "0.5 psi (3.4 kPa)".
var asTabled = regexp.MustCompile(`[\d./-]+ [^\s()]+ \(([\d./ -]+[^()]*)\)`)

// printed runs a command and returns what it wrote to both streams.
func printed(t *testing.T, args ...string) string {
	t.Helper()
	file, err := os.Create(filepath.Join(t.TempDir(), "out"))
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	w := &world.World{Stdout: &world.Stream{File: file, Before: func() {}}, Stderr: &world.Progress{To: file}, Getenv: func(string) string { return "" }, Files: &disk.Files{Stdin: os.Stdin}}
	w.End(run(args, w))
	out, err := os.ReadFile(file.Name())
	if err != nil || len(out) == 0 {
		t.Fatalf("%v printed %d bytes, %v", args, len(out), err)
	}
	return string(out)
}

// readsPapers reads of a pack what is no text: the order, and the book where the system has a reader
// of PDF (pdftotext).
func readsPapers(t *testing.T, what, folder, units string, other *regexp.Regexp) {
	t.Helper()
	order, err := zip.OpenReader(filepath.Join(folder, "parts.xlsx"))
	if err != nil {
		t.Fatal(err)
	}
	defer order.Close()
	cells := 0
	for _, f := range order.File {
		if !strings.HasPrefix(f.Name, "xl/") || filepath.Ext(f.Name) != ".xml" {
			continue
		}
		part, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		text, err := io.ReadAll(part)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range cell.FindAllSubmatch(text, -1) {
			cells++
			readsOnly(t, "parts.xlsx of "+what, html.UnescapeString(string(m[1])), units, other)
		}
	}
	if cells < 10 {
		t.Errorf("%s: %d cells with words in parts.xlsx", what, cells)
	}
	reader, err := exec.LookPath("pdftotext")
	if err != nil {
		return
	}
	text, err := exec.Command(reader, filepath.Join(folder, "pack.pdf"), "-").Output()
	if err != nil || len(text) < 1000 {
		t.Fatalf("%s: %d bytes of words in pack.pdf, %v", what, len(text), err)
	}
	readsOnly(t, "pack.pdf of "+what, string(text), units, other)
}

var cell = regexp.MustCompile(`<t(?: [^>]*)?>([^<]*)</t>`)

var (
	unread = regexp.MustCompile(`(?s)<style.*?</style>`)
	ends   = regexp.MustCompile(`</(p|li|td|th|h[1-6]|text|title|div)>`)
	mark   = regexp.MustCompile(`<[^>]*>`)
)

// readsOnly reports what somebody who asked for units would read in the other ones.
func readsOnly(t *testing.T, what, out, units string, other *regexp.Regexp) {
	t.Helper()
	if strings.Contains(out, "<body") || strings.Contains(out, "<svg") {
		out = unread.ReplaceAllString(out, "")
		out = html.UnescapeString(mark.ReplaceAllString(ends.ReplaceAllString(out, "\n"), " "))
		out = strings.ReplaceAll(out, "\u00a0", " ") // that keeps a number and its unit on one line
	}
	if strings.ContainsAny(out, "\x01\x02") || strings.Contains(out, `\x01`) {
		t.Errorf("%s shows the marks of an amount: a Text was printed by %%q, or not by In", what)
	}
	for _, e := range exempt { // some go on in the next line
		out = e.ReplaceAllString(out, "")
	}
	said := 0
	for _, line := range strings.Split(out, "\n") {
		if m := other.FindString(line); m != "" && said < 5 {
			said++
			t.Errorf("%s in %s: %q in %s", what, units, m, strings.TrimSpace(line))
		}
	}
}

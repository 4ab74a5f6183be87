package main

import (
	"html"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"dryfit/cmd/dryfit/disk"
	"dryfit/cmd/dryfit/world"
	"dryfit/graph/lots"
)

// foreign finds a number with a unit of the other system, in what is printed in each. Power,
// current, volts, kWh, square metres of a cable and times are the same in both systems of the
// trade.
var foreign = map[string]*regexp.Regexp{
	"inch":   regexp.MustCompile(`[0-9] ?(mm|cm|m|m2|m3|m3/h|l|l/s|l/min|kPa|m/s|°C|K|kg|W/K)(\s|[),;:.]|$)`),
	"metric": regexp.MustCompile(`[0-9] ?(in|ft|ft2|gal|gpm|psi|ft/s|°F|lb|W/°F)(\s|[),;:.]|$)`),
}

// exempt takes out what stands in one system in any job: the nominal size of pipe and hose,
// the name of a catalogue row, and a source, which is quoted.
var exempt = []*regexp.Regexp{
	regexp.MustCompile(`\b(16|20|25|32|38|40|50|63|75|90|110) mm\b`),
	regexp.MustCompile(`\b(1/2|3/4|1|1-1/4|1-1/2|2|2-1/2|3|4) in\b`),
	regexp.MustCompile(`spring-check [0-9/-]+ psi`),
	regexp.MustCompile(`[^;(]*(from memory|judgement|common practice)[^;)]*`),
	regexp.MustCompile(`(Ergun|ISO 1307 allows|advice:|across it).*|.*about [0-9]+ psi across it.*`), // sources that a table breaks into lines
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
		}
	}
}

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
	}
	if strings.ContainsAny(out, "\x01\x02") || strings.Contains(out, `\x01`) {
		t.Errorf("%s shows the marks of an amount: a Text was printed by %%q, or not by In", what)
	}
	said := 0
	for _, line := range strings.Split(out, "\n") {
		left := line
		for _, e := range exempt {
			left = e.ReplaceAllString(left, "")
		}
		if m := other.FindString(left); m != "" && said < 5 {
			said++
			t.Errorf("%s in %s: %q in %s", what, units, m, strings.TrimSpace(line))
		}
	}
}

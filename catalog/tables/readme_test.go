package tables

import (
	"flag"
	"fmt"
	"os"
	"strings"
	"testing"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
)

var update = flag.Bool("update", false, "write the table of generic rows into the README")

const (
	rowsBegin = "<!-- generic rows begin -->\n"
	rowsEnd   = "<!-- generic rows end -->\n"
)

// The README says what a part nobody described is taken for, row by row, and why; and of every
// class of the spreads how far it may be off.
func TestReadmeTellsTheGuesses(t *testing.T) {
	data, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	text := string(data)
	begin, end := strings.Index(text, rowsBegin), strings.Index(text, rowsEnd)
	if begin < 0 || end < begin {
		t.Fatal("the README has no table of generic rows")
	}
	want := genericTable()
	if got := text[begin+len(rowsBegin) : end]; got != want {
		if !*update {
			t.Error("the README's table of generic rows is not that of the catalogue: go test ./catalog -run Readme -update")
		} else if err := os.WriteFile("../../README.md", []byte(text[:begin+len(rowsBegin)]+want+text[end:]), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	by := map[string]map[string]SpreadClass{}
	for _, c := range Spreads() {
		if by[c.What] == nil {
			by[c.What] = map[string]SpreadClass{}
		}
		by[c.What][c.Known] = c
	}
	for what, c := range by {
		line := "|"
		for _, known := range []string{"assumed", "data-sheet", "measured"} {
			s := c[known]
			line += fmt.Sprintf(" %s / %s / %s |", percentText(s.Low), percentText(s.Middle), percentText(s.High))
		}
		line += " " + strings.TrimPrefix(c["assumed"].Source.String(), "common practice, no source: ") + " |"
		if !strings.Contains(text, line) {
			t.Errorf("the README's table of spreads has no line of %s: %s", what, line)
		}
	}
}

func percentText(v float64) string { return quantity.Trim(quantity.Round(100*v, 3)) }

// genericTable is the table of what parts are taken for of which nothing but the kind or type
// is known.
func genericTable() string {
	var out strings.Builder
	out.WriteString("| row | taken for | why |\n| --- | --- | --- |\n")
	for _, r := range catalog.Embedded().Rows() {
		if !generic(&r) {
			continue
		}
		name := "`" + r.Name + "`"
		if r.Default {
			name += " (default)"
		}
		fmt.Fprintf(&out, "| %s | %s | %s |\n", name, strings.Join(taken(&r), "; "), r.Source)
	}
	return out.String()
}

// generic reports whether a row stands for whatever make of its kind was fitted: equipment, the
// springs of checks by their label, and the small parts of no size that cost the water something.
func generic(r *catalog.Row) bool {
	file, _, _ := strings.Cut(r.Origin, ":")
	switch file {
	case "equipment.toml":
		return true
	case "checks.csv":
		return r.CrackingPa > 0
	case "small.csv":
		return r.Size.IsZero() && (r.K > 0 || r.LoverD > 0)
	}
	return false
}

// taken says what a row gives, in a few words.
func taken(r *catalog.Row) []string {
	var out []string
	say := func(format string, args ...any) { out = append(out, fmt.Sprintf(format, args...)) }
	metric := func(v float64, d quantity.Dimension) string { return quantity.Format(v, d, quantity.MetricSystem) }
	pump := func(name string, c [][2]float64, w, ratio float64) {
		text := ""
		if name != "" && len(r.Speeds) > 1 {
			text = name + ": "
		}
		if ratio > 0 {
			say("%s%s of full speed", text, quantity.Trim(ratio))
			return
		}
		say("%sshut-off %s, at most %s, %s", text, metric(c[0][1], quantity.Head), metric(c[len(c)-1][0], quantity.Flow), metric(w, quantity.Power))
	}
	for _, s := range r.Speeds {
		pump(s.Name, s.Curve, s.PowerW, s.Ratio)
	}
	if len(r.Curve) > 0 {
		pump("", r.Curve, r.PowerW, 0)
	}
	if r.HeadShare > 0 {
		say("%.0f %% of the head at the pump's best flow (%.0f to %.0f)", 100*r.HeadShare, 100*r.HeadShareLow, 100*r.HeadShareHigh)
	}
	if r.CrackingPa > 0 {
		say("opens at %s (%s to %s)", metric(r.CrackingPa, quantity.Pressure), metric(r.CrackingLowPa, quantity.Pressure), metric(r.CrackingHighPa, quantity.Pressure))
	}
	if r.LoverD > 0 {
		say("as %s bores of pipe (±%s %%)", quantity.Trim(r.LoverD), quantity.Trim(r.SpreadPct))
	}
	if r.K > 0 {
		say("K %s (%s to %s)", quantity.Trim(r.K), quantity.Trim(r.KLow), quantity.Trim(r.KHigh))
	}
	if r.LossFlow > 0 {
		at := metric(r.LossFlow, quantity.Flow)
		if r.Sized != "" {
			at = "the best flow of its pump"
		}
		text := metric(r.LossDropPa, quantity.Pressure) + " at " + at
		if r.LossHighPa > 0 {
			text += fmt.Sprintf(" (%s to %s)", metric(r.LossLowPa, quantity.Pressure), metric(r.LossHighPa, quantity.Pressure))
		} else if r.SpreadPct > 0 {
			text += fmt.Sprintf(" (±%s %%)", quantity.Trim(r.SpreadPct))
		}
		out = append(out, text)
	}
	if r.Least > 0 {
		say("at least %s", metric(r.Least, quantity.Flow))
	}
	if r.Rated > 0 {
		say("rated %s, at most %s", metric(r.Rated, quantity.Flow), metric(r.Most, quantity.Flow))
	}
	for _, x := range r.Ratings {
		if x.AirC == 7 {
			say("%s for %s in air of %s and water of %s", metric(x.OutputW, quantity.Power), metric(x.InputW, quantity.Power), metric(x.AirC, quantity.Temperature), metric(x.WaterC, quantity.Temperature))
		}
	}
	if r.RatingPa > 0 {
		say("stands %s", metric(r.RatingPa, quantity.Pressure))
	}
	if len(out) == 0 {
		say("no water passes it")
	}
	return out
}

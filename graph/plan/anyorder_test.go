package plan_test

import (
	"fmt"
	"maps"
	"math/rand/v2"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"dryfit/graph"
	"dryfit/graph/hydraulic/spread"
	"dryfit/graph/lots"
	"dryfit/graph/plan"
)

var (
	tableHead = regexp.MustCompile(`(?m)^\[\[?`)
	idLine    = regexp.MustCompile(`(?m)^id *= *"([^"]+)"`)
	notOfIDs  = regexp.MustCompile(`^\s*(kind|type|ports|spec|size|name) *=`)
	quotedID  = regexp.MustCompile(`"([^".]+)(\.[a-z0-9-]+)?"`)
	keyOfID   = regexp.MustCompile(`(^|[{,] *)([a-z0-9-]+) *=`)
	inFile    = regexp.MustCompile(`(, line \d+|leg \d+ of )`)
	ownNames  = regexp.MustCompile(`^(tee|v|union|bypass|bleed|drain)(-|$|[0-9])`) // as the tool calls new parts: it gives no name twice
	pumpID    = regexp.MustCompile(`pump|^p[12]$`)
	moreLike  = regexp.MustCompile(`.and \d+ more like it`)
	numbers   = regexp.MustCompile(`(joints?|pieces?) [\d, and]+`)
)

// reordered is a description with its tables of parts and runs in another order, drawn by lot; pumps and
// units stay in theirs, in which modes, and what is said of each unit, follow.
func reordered(text string, lot *rand.Rand) string {
	var tables []string
	at := 0
	for _, m := range tableHead.FindAllStringIndex(text, -1) {
		tables, at = append(tables, text[at:m[0]]), m[0]
	}
	tables = append(tables, text[at:])
	var where, moved []int
	for i, s := range tables {
		if (strings.HasPrefix(s, "[[part]]") || strings.HasPrefix(s, "[[run]]")) && !strings.Contains(s, `kind = "pump"`) && !strings.Contains(s, `kind = "heat-pump"`) {
			where, moved = append(where, i), append(moved, i)
		}
	}
	lot.Shuffle(len(moved), func(i, j int) { moved[i], moved[j] = moved[j], moved[i] })
	out := slices.Clone(tables)
	for k, i := range where {
		out[i] = strings.TrimRight(tables[moved[k]], "\n") + "\n\n"
	}
	return strings.Join(out, "")
}

// renamed is a description with another id for every part and run, none of which stands where the old one would
// by the alphabet, and which id each had.
func renamed(text string) (string, map[string]string) {
	was, now := map[string]string{}, map[string]string{}
	ids := slices.DeleteFunc(idLine.FindAllStringSubmatch(text, -1), func(m []string) bool { return ownNames.MatchString(m[1]) })
	var pumps []string // modes are called by them, and what is alike is told by the alphabet: theirs is kept
	for i, m := range ids {
		if id := m[1]; pumpID.MatchString(id) {
			pumps = append(pumps, id)
		} else {
			now[id] = fmt.Sprintf("x%dx", 999-i) // by the alphabet the other way round
		}
	}
	slices.Sort(pumps)
	for i, id := range pumps {
		now[id] = fmt.Sprintf("x%dx", 100+i)
	}
	for id, called := range now {
		was[called] = id
	}
	lines, table := strings.Split(text, "\n"), ""
	for i, line := range lines {
		if strings.HasPrefix(line, "[") {
			table = strings.Trim(strings.Fields(line)[0], "[]")
		}
		if notOfIDs.MatchString(line) && table != "prices" {
			continue
		}
		line = quotedID.ReplaceAllStringFunc(line, func(s string) string {
			m := quotedID.FindStringSubmatch(s)
			if id, ok := now[m[1]]; ok {
				return `"` + id + m[2] + `"`
			}
			return s
		})
		if table == "prices" || table == "mode" {
			line = keyOfID.ReplaceAllStringFunc(line, func(s string) string {
				m := keyOfID.FindStringSubmatch(s)
				if id, ok := now[m[2]]; ok && (table == "prices" || m[1] != "") {
					return m[1] + id + " ="
				}
				return s
			})
		}
		lines[i] = line
	}
	return strings.Join(lines, "\n"), was
}

// answersOf is what a job comes to, in lines sorted: places and their ranks, findings, what is bought, sawn, how it
// flows, how far each flow lies, what is promised, the year. Numbers of joints, pieces and lines are names.
func answersOf(t *testing.T, text string) []string {
	t.Helper()
	p := work(t, read(t, "job.toml", []byte(text)), everything|plan.Heat)
	var out []string
	add := func(format string, args ...any) {
		out = append(out, numbers.ReplaceAllString(inFile.ReplaceAllString(fmt.Sprintf(format, args...), ""), "$1"))
	}
	for _, v := range p.Places {
		add("%d %s %s %s", v.Rank, v.Place.Run, v.Verdict, v.Summary.In(0))
		for _, r := range v.Reasons {
			add("%s: %s", v.Place.Run, r.Text.In(0))
		}
	}
	for _, d := range p.Findings {
		if like := moreLike.FindString(d.Message.In(0)); like != "" { // the first in the file is told for all
			add("%s%s", d.Rule, like)
			continue
		}
		add("%s %s: %s; %s", d.Severity, d.Rule, d.Message.In(0), d.Hint.In(0))
	}
	for i := range p.After.Layout.Pieces {
		q := &p.After.Layout.Pieces[i]
		add("piece of %s, %s %s: %.4f mm, %s to %s", q.Run.ID, q.Spec, q.Size, q.CutMM, q.From.Fitting, q.To.Fitting)
	}
	if p.Bill != nil {
		for _, l := range p.Bill.Items {
			add("bill %.4g %s %s %s, new %t", l.Quantity, l.Unit, l.Name, l.Ends, l.New)
		}
	}
	unit := ""
	if units := p.After.Circuit.Units(); p.Circuit.Retrofit != nil && p.Circuit.Retrofit.Unit != "" {
		unit = p.Circuit.Retrofit.Unit
	} else if len(units) > 0 {
		unit = units[0].ID
	}
	ranges := spread.Coarse(p.LayoutBefore(), p.After.Layout, unit, 64)
	for _, q := range ranges.Promises {
		add("%s %s: %d of %d", q.Mode, q.Text.In(0), q.Kept, q.Of)
	}
	for _, f := range ranges.Moves {
		add("%s moves %.5f, %.5f of the jets", f.What, f.Effect, f.Jets)
	}
	for k, st := range p.After.Solutions {
		r := ranges.Of(st.Mode.Name, graph.After)
		for i, f := range st.Parts {
			if r != nil {
				add("%d: %s %.5f l/s %s, %.5f to %.5f, %.5f to %.5f kPa", k, f.Part.ID, 1e3*f.Flow, f.State, 1e3*r.Parts[i].Low, 1e3*r.Parts[i].High, r.Drops[i].Low/1e3, r.Drops[i].High/1e3)
			}
		}
	}
	if p.Heat != nil && p.Heat.Year != nil {
		y := p.Heat.Year
		add("a year: %.4f kWh, saves %.4f (%.4f to %.4f)", y.PlannedKWh.Likely, y.SavingKWh.Likely, y.SavingKWh.Low, y.SavingKWh.High)
	}
	return out
}

// In what order a description lists parts and runs, and what it calls them, moves no digit of any answer: places,
// ranks, findings, lists, flows and their ranges, promises, the year. Checked against nothing but itself: a property.
func TestOrderAndNamesDecideNothing(t *testing.T) {
	files, _ := filepath.Glob("testdata/jobs/*.toml")
	demos, _ := filepath.Glob("../../testdata/*.toml")
	compared := 0
	for n, file := range append(demos, files...) {
		if !lots.Named(strings.TrimSuffix(filepath.Base(file), ".toml"), "plug-in", "second-unit", "plunge-pool", "shared-filter") {
			continue
		}
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		now, was := reordered(string(data), rand.New(rand.NewPCG(uint64(n), 9))), map[string]string{"no id": ""}
		if !strings.HasSuffix(file, "shared-filter.toml") { // of two lines alike from one filter only their ids say which is which
			now, was = renamed(now)
		}
		called := regexp.MustCompile(strings.Join(slices.Collect(maps.Keys(was)), "|"))
		want, got := answersOf(t, string(data)), answersOf(t, now)
		for i := range got {
			got[i] = called.ReplaceAllStringFunc(got[i], func(id string) string { return was[id] })
		}
		slices.Sort(want)
		slices.Sort(got)
		if d := cmp.Diff(want, got); d != "" {
			t.Errorf("%s: as it was (-), in another order by other names (+):\n%s", file, d)
		}
		if string(data) == now || len(want) < 40 {
			t.Errorf("%s: nothing was changed, or little compared: %d lines", file, len(want))
		}
		compared++
	}
	if compared < 4 {
		t.Errorf("%d jobs compared", compared)
	}
}

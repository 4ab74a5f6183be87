package pack

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/plan"
	"dryfit/graph/practice"
	"dryfit/graph/takeoff"
	"dryfit/render/book"
	"dryfit/render/table"
	"dryfit/render/table/form"
	"dryfit/render/tag"
)

// everyJob calls back with every demo and job of the house.
func everyJob(t *testing.T, do func(t *testing.T, p *plan.Plan)) {
	t.Helper()
	files, err := filepath.Glob(filepath.Join("..", "..", "graph", "plan", "testdata", "jobs", "*.toml"))
	if err != nil || len(files) < 5 {
		t.Fatalf("%d jobs: %v", len(files), err)
	}
	demos, _ := filepath.Glob(filepath.Join("..", "..", "testdata", "*.toml"))
	for _, file := range slices.Concat(demos, files) {
		t.Run(filepath.Base(file), func(t *testing.T) {
			source, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			do(t, wanted(t, file, source, plan.Findings|plan.Flows|plan.Lists))
		})
	}
}

// No pack says both of a pair that was once found on one page: set points, poppets, ways to
// bleed and to empty, bands without cuts; and what a sentence names is in the job.
func TestPacksDoNotContradictThemselves(t *testing.T) {
	everyJob(t, func(t *testing.T, p *plan.Plan) {
		j := factsOf(p, quantity.MetricSystem)
		told := map[practice.Act]string{}
		tags := tag.Tags(p.Circuit, p.Net())
		var has []string
		for _, part := range p.Circuit.Parts {
			if !part.Removed {
				has = append(has, tags[part.ID])
			}
		}
		for _, s := range practice.Everything(j.Job) {
			for _, a := range s.Tells {
				told[a] = j.say(s.Text)
			}
			for _, n := range s.Names {
				if !slices.Contains(has, n) && !inBill(p, n) && !inTools(p, j, n) {
					t.Errorf("%q names %s, which is neither in the circuit nor in the bill nor among the tools", s.Text, n)
				}
			}
		}
		for _, pair := range practice.Contradictions() {
			if told[pair[0]] != "" && told[pair[1]] != "" {
				t.Errorf("both are told: %q and %q", told[pair[0]], told[pair[1]])
			}
		}
		if p.Proposal != nil { // what sticks in a check has to be got at
			for _, c := range p.After.Circuit.OfKind(graph.CheckValve) {
				if c.New() && !p.After.Layout.Stage.Part(c.ID).Opens() {
					t.Errorf("check %q is glued in: it has no unions", c.ID)
				}
			}
		}
		pageAgrees(t, p, j)
	})
}

func inBill(p *plan.Plan, kind string) bool {
	return p.Bill != nil && slices.ContainsFunc(p.Bill.Items, func(i takeoff.Item) bool { return i.Kind == kind && i.New })
}

func inTools(p *plan.Plan, j jobIn, what string) bool {
	return slices.ContainsFunc(tools(p, j), func(x tool) bool { return strings.Contains(strings.ToLower(x.What), what) })
}

// ifThereAreGauges begins the first way of reading a throttle's aim.
var ifThereAreGauges = regexp.MustCompile(`\(on gauges before and after [^:;]*, if any are fitted: `)

// pageAgrees reads the words of order and schedule for the pairs that were found.
func pageAgrees(t *testing.T, p *plan.Plan, j jobIn) {
	t.Helper()
	var text strings.Builder
	for _, s := range method(p, j) {
		text.WriteString(strings.Join(s.Steps, "\n") + "\n" + s.Hold + "\n")
	}
	schedule := valveSchedule(p, j)
	for _, r := range schedule.Rows {
		text.WriteString(r.State + ": " + strings.Join(r.Positions, ", ") + "; " + r.Note + "\n")
	}
	text.WriteString(strings.Join(schedule.Notes, "\n"))
	words := text.String()
	for _, never := range []string{"poppet out", "blow out", "blow everything", "off in summer", "by the water"} {
		if strings.Contains(words, never) {
			t.Errorf("the page says %q", never)
		}
	}
	cuts := false
	for _, r := range p.Circuit.Runs {
		cuts = cuts || r.RemainsOf != ""
	}
	if strings.Contains(words, "PVC cement alone does not hold it") != strings.Contains(words, "and not with PVC cement") {
		t.Error("old pipe that PVC cement does not hold, and steps that glue it as any other")
	}
	if strings.Contains(words, "section on marking out") && len(table.MarkingBlocks(p, form.Style{})) == 0 {
		t.Error("marks to make as a section says that is not there")
	}
	if cuts && strings.Contains(words, "No old pipe is cut") {
		t.Error("cut lines, and nothing is cut")
	}
	// a mode may be called as a part is: the record keeps its name
	said := map[string]bool{}
	for _, c := range bookOf(p, form.Style{}, Options{}, nil).Chapters {
		for _, it := range c.Items {
			if c.ID == "record" && it.Kind == book.Blanks {
				for _, row := range it.Block.Grid.Rows {
					said[row[0]] = true
				}
			}
		}
	}
	if built := asBuilt(p, form.Style{}); len(built.Items) > 0 && strings.Contains(built.Items[0].Text, "--write-plan") != (p.Asked.Retrofit != nil) {
		t.Errorf("as built, retrofit %v: %s", p.Asked.Retrofit != nil, built.Items[0].Text)
	}
	once := map[string]bool{}
	for _, r := range record(p, j) {
		if said[r.What] == notBuilt(p) || once[r.What] { // what is not built is not commissioned
			t.Errorf("the record has row %q: %v; to be built: %v", r.What, said[r.What], !notBuilt(p))
		}
		once[r.What] = true
	}
	if stand := strings.Join(valvesForOwner(p, j), " "); strings.Contains(stand, "until the unit shows") {
		t.Errorf("the owner is told to set a valve: %s", stand)
	}
	if p.Bill != nil && slices.ContainsFunc(p.Bill.Items, func(i takeoff.Item) bool { return i.Spec.IsHose() && i.Spare > 0 }) {
		t.Error("spare couplings for a hose")
	}
	if !cuts && strings.Contains(words, "saw band") {
		t.Error("saw bands without a cut")
	}
	jets := len(p.Circuit.OfKind(graph.JetGroup)) > 0
	// what a throttle is set by may be read on gauges, if there are any: by the flow or the rise otherwise
	if read := ifThereAreGauges.ReplaceAllString(words, ""); len(p.Circuit.OfKind(graph.PressureGauge)) == 0 && strings.Contains(read, "gauge") {
		t.Error("a reading on gauges in a job without any")
	}
	if !jets && strings.Contains(words, "jets") {
		t.Error("jets in a job without any")
	}
	for _, r := range schedule.Rows {
		for i, pos := range r.Positions {
			if strings.HasPrefix(schedule.Valves[i], "SV") && pos != "open" {
				t.Errorf("%s: suction valve %s %s", r.State, schedule.Valves[i], pos)
			}
		}
	}
}

// A filter that is a sand filter by its type alone is backwashed like one that says its media.
func TestSandFilterByItsType(t *testing.T) {
	file := filepath.Join("..", "..", "graph", "plan", "testdata", "jobs", "sunk-in-deck.toml")
	source, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	for from, want := range map[string]string{`type = "sand-filter"`: "sand", `type = "cartridge-filter"`: "cartridge"} {
		text := strings.Replace(string(source), `type = "sand-filter"`, from, 1)
		j := factsOf(wanted(t, file, []byte(text), plan.Findings|plan.Flows|plan.Lists), quantity.MetricSystem)
		if j.Filter != want {
			t.Errorf("%s: %q, want %q", from, j.Filter, want)
		}
		if got := strings.Contains(strings.Join(monthly(j), " "), "Backwash"); got != (want == "sand") {
			t.Errorf("%s: the owner is told to backwash: %v", from, got)
		}
	}
}

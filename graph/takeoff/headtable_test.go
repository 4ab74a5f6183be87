package takeoff

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/description"
	"dryfit/graph/hydraulic"
	"dryfit/graph/route/laying"
)

// demo reads one of the whole descriptions.
func demo(t testing.TB, file string) *graph.Circuit {
	t.Helper()
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	return read(t, filepath.Base(file), string(data))
}

func read(t testing.TB, name, text string) *graph.Circuit {
	t.Helper()
	c, ds := description.Read(name, []byte(text))
	if c == nil || graph.HasErrors(ds) {
		t.Fatalf("%s: %v", name, ds)
	}
	return c
}

// The drops along any closed way round a pump add up to its head: energy is conserved. The
// solver's own loop test is not used here.
func TestHeadTablesAddUp(t *testing.T) {
	files, err := filepath.Glob("../../testdata/*.toml")
	if err != nil || len(files) < 5 {
		t.Fatalf("%d demos found: %v", len(files), err)
	}
	tables := 0
	for _, file := range files {
		c := demo(t, file)
		stage := graph.Before
		lay := laying.Of(c.At(stage))
		if c.Retrofit == nil {
			stage = graph.After
			lay = laying.Of(c.At(stage))
		}
		for _, mode := range c.AllModes() {
			sol, err := hydraulic.Solve(lay, mode, stage)
			if err != nil {
				t.Logf("%s %s: %v", file, mode.Name, err)
				continue
			}
			running := 0
			for _, p := range sol.Parts {
				if p.Part.Kind == graph.Pump && p.HeadM > 0 && p.Flow > 0 {
					running++
				}
			}
			all := HeadTables(sol)
			if len(all) != running {
				t.Errorf("%s %s: %d tables for %d running pumps", file, mode.Name, len(all), running)
			}
			for _, table := range all {
				tables++
				sum := 0.0
				for _, r := range table.Rows {
					sum += r.HeadM
				}
				if !agree.Within(sum, table.PumpM, 1e-6*table.PumpM) || sum != table.TotalM {
					t.Errorf("%s %s: rows add up to %.9f m, the pump gives %.9f m\n%+v", file, mode.Name, sum, table.PumpM, table)
				}
				if !strings.HasPrefix(table.Path, table.Pump+" > ") || !strings.HasSuffix(table.Path, " > "+table.Pump) {
					t.Errorf("path %q does not lead round %s", table.Path, table.Pump)
				}
			}
		}
	}
	if tables < 5 {
		t.Errorf("only %d tables were looked at", tables)
	}
}

// By the definition: what the fittings of a run lose, over what a metre of its pipe loses at
// the same flow; here from the run's own pressure drops, not from its friction factor.
func TestEquivalentAtFlow(t *testing.T) {
	c := demo(t, "../../testdata/plug-in.toml")
	lay := laying.Of(c.At(graph.After))
	sol, err := hydraulic.Solve(lay, c.AllModes()[0], graph.After)
	if err != nil {
		t.Fatal(err)
	}
	totals := map[string]Total{}
	for _, x := range EquivalentAt(lay, sol).Totals {
		totals[x.Name] = x
	}
	handbook := map[string]Total{}
	for _, x := range bill(t, c).Totals {
		handbook[x.Name] = x
	}
	// union-from stands in line and costs nothing, isolator-from does
	for _, run := range []string{"to-unit", "from-unit"} {
		r := sol.Run(run)
		loss := r.Drop - r.PipeDrop + sol.Part(r.Run.To.Part).Drop
		want := loss / (r.PipeDrop / totals[run].PipeM)
		if got := totals[run].FittingsM; got <= 0 || !near(got, want, 1e-6*want) {
			t.Errorf("%s: fittings count for %.4f m, want %.4f m", run, got, want)
		}
		// the friction of smooth pipe at any flow here is within a factor of two of f_T
		if got := totals[run].FittingsM; got >= handbook[run].FittingsM*2 || got <= handbook[run].FittingsM/2 {
			t.Errorf("%s: %.3f m at the flow, %.3f m by the handbook", run, got, handbook[run].FittingsM)
		}
	}
	branch := totals[UnitBranch]
	if branch.PipeM != handbook[UnitBranch].PipeM || branch.FittingsM <= 0 {
		t.Errorf("unit's branch %+v", branch)
	}
}

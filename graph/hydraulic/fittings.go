package hydraulic

import (
	"strings"

	"dryfit/graph"
	"dryfit/graph/hydraulic/formula"
	"dryfit/graph/route"
)

// addFittings enters what a run costs beside its straight pipe.
func (b *builder) addFittings(i int) {
	m := &b.m.Runs[i]
	r := m.Run
	if i < len(b.m.Layout.Paths) {
		fittings := b.m.Layout.Paths[i].Fittings
		for k := range fittings {
			b.addFitting(m, &fittings[k])
		}
	}
	b.addBarbs(m)
	if r.K > 0 {
		m.Fittings = append(m.Fittings, FittingLoss{Kind: "k", Where: "in " + r.ID, Count: 1, K: r.K, KBack: r.K, BoreM: m.BoreM})
	}
	if m.Entrance {
		m.Fittings = append(m.Fittings, FittingLoss{Kind: "entrance", Where: "at " + r.From.String(), Count: 1,
			K: formula.Entrance, KBack: formula.Exit, BoreM: m.BoreM})
	}
	if m.Exit {
		m.Fittings = append(m.Fittings, FittingLoss{Kind: "exit", Where: "at " + r.To.String(), Count: 1,
			K: formula.Exit, KBack: formula.Entrance, BoreM: m.BoreM})
	}
}

// The loss of a barb that stands in no list: K on its own bore, which is narrower than the
// hose by the barb's wall. Contraction and expansion between the two areas make 0.2, the
// length of the barb the rest. Common practice, no source.
const (
	barbK      = 0.3
	barbWallMM = 4 // both sides
)

// addBarbs enters the barbs at the ends of a hose that are neither parts nor put there by
// the layout: old hose has them too.
func (b *builder) addBarbs(m *ModelRun) {
	r := m.Run
	if !r.Spec.IsHose() || m.LengthM <= 0 || m.BoreM <= 0 || r.K > 0 {
		return
	}
	count := 0
	for _, ref := range []graph.PortRef{r.From, r.To} {
		listed := false
		if at, ok := b.m.PartAt[ref.Part]; ok {
			listed = b.c.Parts[at].Kind == graph.Barb
		}
		for _, f := range m.Fittings {
			listed = listed || f.Kind == "barb" && strings.HasSuffix(f.Where, ref.String())
		}
		if !listed {
			count++
		}
	}
	if bore := m.BoreM - barbWallMM/1000.0; count > 0 && bore > 0 {
		m.Fittings = append(m.Fittings, FittingLoss{Kind: "barb", Where: "at the ends of " + r.ID, Count: count, K: barbK, KBack: barbK, BoreM: bore, Barb: true})
	}
}

// addFitting enters one fitting of the layout: a change of section by the two bores, others
// by the row's handbook L/D or K on the run's bore.
func (b *builder) addFitting(m *ModelRun, f *route.Fitting) {
	count := max(f.Count, 1)
	out := FittingLoss{Kind: f.Kind, Where: f.Place(), Count: count, BoreM: m.BoreM}
	if changesSection(f) {
		run := b.set.Run(m.Run.ID)
		from, to := b.set.BoreOf(run, f.From)/1000, b.set.BoreOf(run, f.To)/1000
		out.K, out.KBack, out.BoreM = sectionK(from, to)
		out.K += f.Row.K
		out.KBack += f.Row.K
		m.Fittings = append(m.Fittings, out)
		return
	}
	row := f.Row
	if row.LoverD == 0 && row.K == 0 {
		row.LoverD = formula.LoverD(f.Kind)
	}
	switch {
	case m.BoreM <= 0:
		return
	case row.LoverD > 0:
		out.K = formula.HandbookK(row.LoverD, m.BoreM)
	case row.K > 0:
		out.K = row.K
		if row.BoreMM > 0 {
			out.BoreM = row.BoreMM / 1000
		}
		out.Barb = f.Kind == "barb"
	case row.Kv > 0:
		out.K = formula.KvToK(row.Kv, m.BoreM)
	default:
		if f.Kind != "coupling" && f.Kind != "slip-coupling" && f.Kind != "union" && f.Kind != "thread-adaptor" {
			b.note(m.Run.Pos, graph.Warning, graph.Say("no loss is known of the %s %s: it counts as none", f.Kind, f.Place()), "give the run a k for it")
		}
	}
	out.KBack = out.K
	m.Fittings = append(m.Fittings, out)
}

func changesSection(f *route.Fitting) bool {
	switch f.Kind {
	case "reducing-bush", "reducer", "transition":
		return !f.From.IsZero() && !f.To.IsZero()
	}
	return false
}

// sectionK returns K of a sudden change from one bore to another, with the water and
// against it, on the smaller bore, which is returned too.
func sectionK(from, to float64) (ahead, back, bore float64) {
	switch {
	case from <= 0 || to <= 0:
		return 0, 0, max(from, to)
	case from > to:
		return formula.Contraction(to, from), formula.Expansion(to, from), to
	default:
		return formula.Expansion(from, to), formula.Contraction(from, to), from
	}
}

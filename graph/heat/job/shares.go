package job

import (
	"dryfit/graph/heat"
)

// shares tells which of several units gives what in the design air, and to what each is set.
func (b *builder) shares(s *scene, r *Report) {
	if s.planned == nil || len(s.planned.Units) < 2 {
		return
	}
	air := heat.Air{TempC: s.designC, Humidity: s.humid}
	for i, w := range heat.Gives(&s.tub, heat.Alike(s.planned.Units), air, s.tub.SetC) {
		u, part := &s.planned.Units[i], b.in.Unit
		if i > 0 {
			part = b.in.Beside[i-1].Unit
		}
		r.Unit.Each = append(r.Unit.Each, UnitShare{ID: u.Unit.ID, FlowM3s: u.FlowM3s, EntersC: w.EntersC, Working: w,
			SetC: s.tub.SetC - u.BelowK, Later: u.BelowK > 0, Assumed: !part.BySheet()})
	}
}

// carried enters what each of several units carries of the planned year.
func (r *Report) carried() {
	if r.Year == nil || r.Year.Planned == nil {
		return
	}
	year := r.Year.Planned
	for i := range r.Unit.Each {
		u, of := &r.Unit.Each[i], year.Units[i]
		u.Year, u.HeatKWh, u.KWh, u.COP = true, of.HeatKWh, of.KWh, of.COP
		if year.UnitHeat > 0 {
			u.Share = of.HeatKWh / year.UnitHeat
		}
	}
}

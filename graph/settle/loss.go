package settle

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/catalog/tables"
	"dryfit/graph"
)

// Loss is what a part costs the water, in the form it was given; package hydraulic makes a
// law of it.
type Loss struct {
	Origin
	Spread                // shares of the drop
	Described *graph.Loss // as the description gives it; nil: the row's
	Exponent  Value       // of the flow the drop goes by, where the loss is known at one flow
	Row       catalog.Row // else; its one point is at the unit's own rated flow where the row is generic
	Jets      *graph.JetData
	Aside     float64 // share of the pump's best flow that a part beside the pump's line was made for; 0: the whole of it
	Beside    bool    // it stands in a stream beside its pump's line, and its share of the flow is a guess
	Among     int     // of how many such parts side by side it is one, each for its share of the pump's best flow; 1: it stands alone
	AtHalf    bool    // half the pump's best flow it is: a part for low speed behind a jet pump of one
	ToPump    bool    // in words: what the row says was put at the best flow of the line's pump; Values says so
}

// Known reports whether anything says what the part costs.
func (l *Loss) Known() bool { return l.Described != nil || l.Jets != nil || hasLoss(&l.Row) }

func hasLoss(r *catalog.Row) bool {
	return r.LoverD > 0 || r.K > 0 || r.Kv > 0 || r.LossFlow > 0
}

// sizedToPump reports whether what a part costs hangs on the best flow of the pump of its line:
// a row of equipment that is chosen by its pump, and jets nobody measured.
func (s *Stage) sizedToPump(p *Part) bool {
	l := &p.Loss
	switch j := l.Jets; {
	case l.Described != nil:
		return false
	case j != nil:
		if j.Rated != nil || j.BoreMM > 0 || l.Row.HeadShare <= 0 {
			return false
		}
	case l.Row.Sized == "":
		return false
	}
	pump := s.Net().LinePump(p.Part)
	return pump != nil && slices.ContainsFunc(s.Part(pump.ID).Speeds.V, func(speed graph.Speed) bool { return len(speed.Curve) > 0 })
}

// asideBelow is the bore over that of the pump's pipe below which a part does not stand in the
// pump's line but beside it, an injector on a hose of its own: all of the pump's water would go
// three times as fast there. Judgement, no source.
const asideBelow = 0.6

// besideShare is the share of its line's water that a part in a stream beside it is taken to be made for,
// where its pipe is as wide as the line's. Common practice, no source: see the spread of side streams.
const besideShare = 0.3

// aside is the share of the best flow of its pump that a part was made for that does not stand in the pump's
// line: in a pipe much narrower than the pump's by the sections of the two, else in a stream beside the line
// a usual one. 0 where it stands in the line.
func (s *Stage) aside(p *graph.Part, bore float64) (share float64, beside bool) {
	pump := s.Net().LinePump(p)
	if pump == nil || bore <= 0 {
		return 0, false
	}
	beside = s.beside(p, pump)
	if of, _ := s.boreOf(pump); of > 0 && bore < asideBelow*of {
		return bore * bore / (of * of), beside
	}
	if beside {
		return besideShare, true
	}
	return 0, false
}

// beside reports whether an injector, a lamp or a feeder stands in a stream beside its pump's line: past the
// pump the water comes home without it, by no valve that is shut, and by no check unless all of it does.
func (s *Stage) beside(p, pump *graph.Part) bool {
	switch p.Kind {
	case graph.OzoneInjector, graph.UVChamber, graph.Feeder:
	default:
		return false
	}
	net := s.Net()
	shut := func(q *graph.Part) bool { return q.Opening() <= 0 }
	sprung := func(q *graph.Part) bool { return q.Kind == graph.CheckValve || shut(q) }
	if net.WayToTub(pump, sprung) == nil {
		sprung = shut
	}
	return net.Downstream(pump).HasPart(p.ID) && net.WayToTub(pump, func(q *graph.Part) bool { return q == p || sprung(q) }) != nil
}

// among counts the parts of a kind that stand side by side in the line of a pump, of which p is one: two
// cartridges behind two skimmers share its water, and each was chosen for what it gets.
func (s *Stage) among(p *graph.Part) int {
	net := s.Net()
	pump, up, down, n := net.LinePump(p), net.Upstream(p), net.Downstream(p), 1
	for _, q := range s.Circuit.Parts {
		if q != p && q.Kind == p.Kind && pump != nil && net.LinePump(q) == pump && !up.HasPart(q.ID) && !down.HasPart(q.ID) {
			n++
		}
	}
	return n
}

// atHalf reports whether a part that is chosen for low speed stands behind a jet pump of a single
// speed: it is the one of tubs with two, and costs what its row says at half the pump's best flow.
// Common practice, no source: a clean cartridge takes 1 to 5 kPa at low speed and 10 to 30 at that of
// the jets, a heater 1 to 3 and 10 to 25 (from memory).
func (s *Stage) atHalf(out *Part) bool {
	if out.LossRow.V.Sized != "low" {
		return false
	}
	pump := s.Net().LinePump(out.Part)
	return pump != nil && pump.Pump != nil && len(s.speedsOf(pump)) == 1 && s.shutOff(pump) >= circulationHead && !s.filtersPool(pump)
}

// BestFlow words the flow a part is taken to be made for by its pump.
func (l *Loss) BestFlow() quantity.Text {
	switch {
	case l.Aside == besideShare && l.Beside:
		return "three tenths of the best flow"
	case l.Aside > 0:
		return "its pipe's share of the best flow"
	}
	n := max(l.Among, 1)
	if l.AtHalf {
		n *= 2
	}
	switch n {
	case 1:
		return "the best flow"
	case 2:
		return "half the best flow"
	}
	return graph.Say("1/%d of the best flow", n)
}

// settleLoss settles what a part costs, on what bore, and at what pressure a check opens:
// its runs and their ends are settled by then.
func (s *Stage) settleLoss(out *Part) {
	p := out.Part
	if p.Kind == graph.CheckValve {
		out.Cracking = s.settleCracking(out)
	}
	if p.Kind == graph.Tee {
		s.settleTeeBores(out)
	} else if bore, from := s.boreOf(p); bore > 0 {
		out.Bore = number(bore, quantity.Length, from)
	}
	if p.Kind.Lossless() || p.Kind == graph.Pump {
		return
	}
	l := &out.Loss
	l.Row, l.Origin = out.LossRow.V, lent(out.LossRow, out.LossRow.V.OwnsLoss())
	if p.Kind == graph.Filter { // a row that does not say what is in it bends as what would stand here without it
		l.Row.Style = cmp.Or(l.Row.Style, out.usual.V.Style)
	}
	switch {
	case p.Loss != nil:
		l.Described, l.Origin = p.Loss, given(or(p.Loss.Pos, p.KeyPos["loss"]))
	case p.Kind == graph.JetGroup:
		l.Jets = p.Jets
		if l.Jets == nil {
			l.Jets = &graph.JetData{Count: 1}
		}
		if l.Jets.Rated != nil || l.Jets.HasK {
			l.Origin = given(firstPos(p.KeyPos, "rated", "k"))
		}
	case out.Rated.Known && p.Type == "" && l.Row.LossFlow > 0 && l.Row.LoverD == 0 && l.Row.K == 0:
		l.Row.LossFlow = out.Rated.V // the generic row's drop is that at its own rated flow
	}
	if l.Described == nil && l.Jets == nil && l.Row.Sized != "" {
		l.Aside, l.Beside = s.aside(p, out.Bore.V)
		l.AtHalf, l.Among = s.atHalf(out), s.among(p)
	}
	l.Spread = lossSpread(out)
	l.Exponent = l.exponent(out)
}

// exponent is the shape of a loss that is known at one flow: described, else the row's, else that of
// its kind or style. Not known of a loss in another form, which says its own shape.
func (l *Loss) exponent(out *Part) Value {
	d, r := l.Described, &l.Row
	of := tables.ExponentOf(r.Style, r.Kind)
	switch {
	case d != nil && len(d.Points) != 1, l.Jets != nil, d == nil && (r.LoverD > 0 || r.K > 0 || r.Kv > 0 || r.LossFlow <= 0):
		return Value{}
	case d != nil && d.Exponent > 0:
		return number(d.Exponent, Bare, given(or(d.Pos, out.KeyPos["loss"])))
	case r.Exponent > 0:
		return number(r.Exponent, Bare, saysSo(out.LossRow, "exponent"))
	}
	v := number(of.Likely, Bare, assumed(of.Source))
	v.Low, v.High = of.Low/of.Likely-1, of.High/of.Likely-1
	return v
}

func or(a, b graph.Pos) graph.Pos {
	if a.IsValid() {
		return a
	}
	return b
}

// carries reports whether a run carries water between two parts.
func (s *Stage) carries(r *graph.Run) bool {
	for _, ref := range [2]graph.PortRef{r.From, r.To} {
		if k, ok := s.parts[ref.Part]; !ok || s.Circuit.Parts[k].IsAir(ref.Port) {
			return false
		}
	}
	return true
}

// boreAt returns the bore of the pipe at a port in mm, 0 where there is none.
func (s *Stage) boreAt(p *graph.Part, port string) (float64, Origin) {
	if r := s.RunAt(p.ID, port); r != nil && s.carries(r.Run) {
		return r.Bore.V, ofKeys(Key{r.ID, "bore"})
	}
	return 0, Origin{}
}

// boreOf returns the bore a part's K stands on: of its size, where it is made for one or says one,
// else of the pipe at its inlet, else at another of its ports.
func (s *Stage) boreOf(p *graph.Part) (float64, Origin) {
	ports := PortsOf(p)
	if len(ports) == 0 {
		return 0, Origin{}
	}
	spec, size := p.Spec, p.Size
	if set := s.Part(p.ID); Fitted(p.Kind) && set != nil {
		spec, size = set.Spec.V, set.Size.V
	}
	if !size.IsZero() && !p.Kind.UserPorts() {
		if spec == "" {
			if run := s.RunAt(p.ID, ports[0]); run != nil {
				spec = run.Spec
			}
		}
		return s.boreOfSize(p, spec, size, ports...)
	}
	for _, port := range ports {
		if p.IsAir(port) {
			continue
		}
		if bore, from := s.boreAt(p, port); bore > 0 {
			return bore, from
		}
	}
	return 0, Origin{}
}

// boreOfSize is the bore a part of a size has: of the widest pipe of that size at its ports, for that
// may be the user's own, else what pipe of it has. Hose is named by what it is inside and pipe by what it
// is outside: a valve of 32 mm whose tails go into hose of 32 mm is as wide as its pipe, of an inch as the
// hose, which is the narrower.
func (s *Stage) boreOfSize(p *graph.Part, spec catalog.Spec, size catalog.Size, ports ...string) (bore float64, from Origin) {
	hose := math.Inf(1)
	for _, port := range ports {
		switch r := s.RunAt(p.ID, port); {
		case r == nil || r.Size != size:
		case onTails(r, spec):
			hose = min(hose, r.Bore.V)
		case r.Bore.V > bore:
			bore, from = r.Bore.V, ofKeys(Key{r.ID, "bore"})
		}
	}
	if bore > 0 {
		return bore, from
	}
	return min(s.SizeBore(spec, size), hose), ofKeys(Key{p.ID, "size"})
}

// onTails reports whether a run is hose that goes onto tails in the sockets of a part of a spec.
func onTails(r *Run, spec catalog.Spec) bool {
	return r.Spec.IsHose() && spec != "" && !spec.IsHose()
}

// settleTeeBores finds the bores of a tee's run and branch, of the sizes it has: that of a pipe of
// the size, where one comes to it. Where pipe of another size, or hose on a barb, meets the tee
// through an adaptor, the tee is as wide as its own size all the same.
func (s *Stage) settleTeeBores(out *Part) {
	p := out.Part
	if out.Size.V.IsZero() {
		s.settleTeeByPipes(out)
		return
	}
	run, from := s.boreOfSize(p, out.Spec.V, out.Size.V, graph.RunIn, graph.RunOut)
	out.Bore = number(run, quantity.Length, from)
	branch, of := run, ofKeys(Key{p.ID, "bore"})
	pipe := s.RunAt(p.ID, graph.Branch)
	switch {
	case pipe == nil || !pipe.Bore.Known || pipe.Bore.V <= 0 || !s.carries(pipe.Run):
	case pipe.Size == out.Branch.V && onTails(pipe, out.Spec.V):
		branch, of = min(s.SizeBore(out.Spec.V, out.Branch.V), pipe.Bore.V), ofKeys(Key{p.ID, "branch size"})
	case pipe.Size == out.Branch.V:
		branch, of = pipe.Bore.V, ofKeys(Key{pipe.ID, "bore"})
	case out.Branch.V != out.Size.V:
		branch, of = s.SizeBore(out.Spec.V, out.Branch.V), ofKeys(Key{p.ID, "branch size"})
	}
	out.BranchBore = number(branch, quantity.Length, of)
}

// settleTeeByPipes finds the bores of a tee of which nobody says a size: as wide as the wider pipe of its run,
// and its branch as the pipe there; where only one of the two has pipe, all of it as that.
func (s *Stage) settleTeeByPipes(out *Part) {
	run, from := s.boreAt(out.Part, graph.RunIn)
	if other, of := s.boreAt(out.Part, graph.RunOut); other > run {
		run, from = other, of
	}
	branch, of := s.boreAt(out.Part, graph.Branch)
	if run <= 0 {
		run, from = branch, of
	}
	if branch <= 0 {
		branch, of = run, from
	}
	if run > 0 {
		out.Bore, out.BranchBore = number(run, quantity.Length, from), number(branch, quantity.Length, of)
	}
}

// lossSpread returns by how much a part's loss may be off: that of its class by how well it
// is known; where the loss is a row's, the row's own range where that is wider, for what is
// said of one make can't make all makes alike. A row of the user's is of the make in hand.
func lossSpread(out *Part) Spread {
	row, p := &out.Loss.Row, out.Part
	class := tables.SpreadPartLoss
	switch k := p.Kind; {
	case k == graph.Tee || k == graph.Reducer:
		s := spreadOf(tables.SpreadFittingK, graph.Assumed)
		if s.Class = FittingsClass; k == graph.Tee {
			s = spreadOf(tables.SpreadTeeK, graph.Assumed)
			s.Class = TeesClass
		}
		return s
	case k == graph.JetGroup:
		class = tables.SpreadJetLoss
	case k == graph.HeatPump:
		class = tables.SpreadUnitLoss
	case k == graph.Filter:
		class = tables.SpreadFilterLoss
	case k.IsHandValve():
		class = valveClasses[k].open
	case k == graph.CheckValve && !p.New() && out.IsSwing():
		class = tables.SpreadOldCheck
	}
	described := out.Loss.Described != nil || out.Loss.Jets != nil && out.Loss.How == Given
	if described || row.OwnsLoss() { // a row of the user's is the sheet of the one in hand
		if p.Kind.IsHandValve() {
			class = tables.SpreadPartLoss
		}
		if p.New() && (p.Kind.IsHandValve() || p.Kind == graph.CheckValve) {
			class = tables.SpreadNewValve
		}
	}
	if described {
		return spreadOf(class, p.Known)
	}
	own := rowSpan(row)
	if j := out.Loss.Jets; j != nil && j.BoreMM > 0 { // by their nozzles, not by their pump
		byK := *row
		byK.HeadShareHigh = 0
		own = rowSpan(&byK)
	}
	switch {
	case row.OwnsLoss() && own.High > own.Low:
		return Spread{Span: own}
	case row.OwnsLoss():
		return spreadOf(class, p.Known)
	}
	s := spreadOf(class, graph.Assumed)
	if class == tables.SpreadFilterLoss && own.High > 0 {
		s.Middle = spreadOf(class, graph.DataSheet).Middle // the row is of a clean one
	}
	s.Span = wider(s.Span, own)
	if out.Loss.Beside {
		s.Span = besideSpan(s.Span)
	}
	return s
}

// besideSpan is how far the drop of a part in a stream beside the line is off, whose flow is a guess as well:
// it goes by the square of that, and what is off by itself adds as deviations do, of its logarithm.
func besideSpan(own tables.Span) tables.Span {
	share := spreadOf(tables.SpreadSideStream, graph.Assumed).Span
	end := func(own, share float64) float64 { return math.Hypot(math.Log1p(own), 2*math.Log1p(share)) }
	return tables.Span{Low: math.Expm1(-end(own.Low, share.High)), Middle: own.Middle, High: math.Expm1(end(own.High, share.Low))}
}

// rowSpan returns the range a row gives its loss, as shares; none where it gives none.
func rowSpan(row *catalog.Row) tables.Span {
	switch {
	case row.HeadShareHigh > 0:
		return tables.Span{Low: row.HeadShareLow/row.HeadShare - 1, High: row.HeadShareHigh/row.HeadShare - 1}
	case row.LossHighPa > 0:
		return tables.Span{Low: row.LossLowPa/row.LossDropPa - 1, High: row.LossHighPa/row.LossDropPa - 1}
	case row.KHigh > 0 && row.K > 0:
		return tables.Span{Low: row.KLow/row.K - 1, High: row.KHigh/row.K - 1}
	case row.SpreadPct > 0:
		return tables.Span{Low: -row.SpreadPct / 100, High: row.SpreadPct / 100}
	}
	return tables.Span{}
}

// wider returns the wider of two spans on each side, with the middle of the first.
func wider(a, b tables.Span) tables.Span {
	return tables.Span{Low: min(a.Low, b.Low), Middle: a.Middle, High: max(a.High, b.High)}
}

// The classes of what the handbook gives: the K of elbows and what else sits in runs, and the loss of tees.
// Each is off together, and neither with the other: whether an elbow is swept says nothing of the corner in
// a tee, and what a bypass costs the jets hangs on the tees alone.
const (
	FittingsClass = "the handbook's K of fittings"
	TeesClass     = "the handbook's loss of tees"
)

// crackingSpread returns by how much a cracking pressure may be off.
func crackingSpread(out *Part, ofRow bool) Spread {
	row := &out.LossRow.V
	if !ofRow {
		return spreadOf(tables.SpreadCracking, out.Known)
	}
	own := tables.Span{}
	if row.CrackingPa > 0 && row.CrackingHighPa > 0 {
		own = tables.Span{Low: row.CrackingLowPa/row.CrackingPa - 1, High: row.CrackingHighPa/row.CrackingPa - 1}
	}
	switch mine := row.Owns("cracking"); { // as sure as by the part's own key
	case mine && own.High > 0:
		return Spread{Span: own}
	case mine:
		return spreadOf(tables.SpreadCracking, out.Known)
	}
	s := spreadOf(tables.SpreadCracking, graph.Assumed)
	s.Span = wider(s.Span, own)
	return s
}

// Words says in what form the loss is known: "6 kPa at 10 m3/h", "K 4.5 on 40 mm".
func (l *Loss) Words() quantity.Text {
	if l.Described != nil {
		return l.Described.Words()
	}
	r := &l.Row
	if j := l.Jets; j != nil {
		jets, each := fmt.Sprintf("%d jets, ", j.Count), "each "
		if j.Count == 1 {
			jets, each = "1 jet, ", ""
		}
		if j.Rated != nil {
			return graph.Say("%s%s%s", jets, each, j.Rated.Words())
		}
		k, bore := r.K, r.BoreMM
		if j.HasK {
			k = j.K
		}
		if j.BoreMM > 0 {
			bore = j.BoreMM
		}
		if l.ToPump {
			return graph.Say("%ssized to the pump: %.0f %% of its head at its best flow", jets, 100*r.HeadShare)
		}
		return graph.Say("%s%s%s", jets, each, graph.KWords(k, bore))
	}
	if l.ToPump && r.LossFlow > 0 {
		return graph.Say("%s at %s of its pump", quantity.Pressure.Of(r.LossDropPa), l.BestFlow())
	}
	switch {
	case r.LoverD > 0:
		return graph.Say("L/D %s", quantity.Trim(r.LoverD))
	case r.K > 0:
		return graph.KWords(r.K, r.BoreMM)
	case r.Kv > 0:
		return graph.Say("%s", quantity.Kv.Of(r.Kv))
	case r.LossFlow > 0:
		return graph.LossPoint{Flow: r.LossFlow, Drop: graph.Drop{Value: r.LossDropPa}}.Words()
	}
	return ""
}

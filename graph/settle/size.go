package settle

import (
	"dryfit/catalog"
	"dryfit/graph"
)

// Fitted reports whether all ports of a part of the kind are made for one pipe, so that a
// run of another needs an adaptor. Other kinds take what their runs are made of unless the
// description gives a size.
func Fitted(k graph.Kind) bool {
	return k == graph.Tee || (InLine(k) && !TwoSizes(k))
}

// InLine reports whether water leaves a part of the kind the way it came in, so that its
// two pipes stand in one line.
func InLine(k graph.Kind) bool {
	switch k {
	case graph.GateValve, graph.BallValve, graph.ButterflyValve, graph.CheckValve, graph.Union,
		graph.Coupling, graph.SlipCoupling, graph.Reducer, graph.Transition, graph.Barb,
		graph.FlowSwitch, graph.PressureSwitch, graph.ThermometerPocket:
		return true
	}
	return false
}

// TwoSizes reports whether the kind joins two sizes or families by itself.
func TwoSizes(k graph.Kind) bool {
	return k == graph.Reducer || k == graph.Transition || k == graph.Barb
}

// RigidSpec is the spec whose sockets pipe of a size goes into: the spec itself, or for
// flexible pipe and where there is none the rigid one of the size's family.
func RigidSpec(spec catalog.Spec, size catalog.Size) catalog.Spec {
	if !spec.Flexible() && spec != "" {
		return spec
	}
	if size.Metric {
		return catalog.PVCPN16
	}
	return catalog.PVCSch40
}

// linePorts are the ports that decide what pipe a fitted part is made for, the branch of a
// tee last.
func linePorts(p *graph.Part) []string {
	if p.Kind == graph.Tee {
		return []string{graph.RunIn, graph.RunOut, graph.Branch}
	}
	return []string{graph.In, graph.Out}
}

// settleSize finds what pipe a part is for.
func (s *Stage) settleSize(p *graph.Part) (spec Pick[catalog.Spec], size Pick[catalog.Size]) {
	if Fitted(p.Kind) {
		return s.madeFor(p)
	}
	if p.Spec != "" {
		spec = Pick[catalog.Spec]{p.Spec, given(p.KeyPos["spec"])}
	}
	if !p.Size.IsZero() {
		size = Pick[catalog.Size]{p.Size, given(p.KeyPos["size"])}
	}
	for _, port := range PortsOf(p) { // in their order, not in that of the runs in the file
		r := s.RunAt(p.ID, port)
		if r == nil {
			continue
		}
		if spec.V == "" && r.Spec != "" {
			spec = Pick[catalog.Spec]{r.Spec, ofKeys(Key{r.ID, "spec"})}
		}
		if size.V.IsZero() && !r.Size.IsZero() {
			size = Pick[catalog.Size]{r.Size, ofKeys(Key{r.ID, "size"})}
		}
	}
	return spec, size
}

// madeFor returns the pipe a fitted part is made for.
func (s *Stage) madeFor(p *graph.Part) (spec Pick[catalog.Spec], size Pick[catalog.Size]) {
	if p.Spec != "" {
		spec = Pick[catalog.Spec]{p.Spec, given(p.KeyPos["spec"])}
	}
	if !p.Size.IsZero() {
		size = Pick[catalog.Size]{p.Size, given(p.KeyPos["size"])}
	}
	if r, ok := s.named(p); ok {
		if spec.V == "" && r.Spec != "" {
			spec = Pick[catalog.Spec]{r.Spec, ofRow(&r, p.KeyPos["type"], false)}
		}
		if size.V.IsZero() && !r.Size.IsZero() {
			size = Pick[catalog.Size]{r.Size, ofRow(&r, p.KeyPos["type"], false)}
		}
	}
	var runs []*graph.Run
	onHose := false // its size is that of hose
	for _, port := range linePorts(p) {
		if r := s.RunAt(p.ID, port); r != nil && (port != graph.Branch || len(runs) == 0) {
			runs = append(runs, r.Run)
		}
	}
	if spec.V == "" {
		for _, r := range runs {
			if !r.Spec.Flexible() && (size.V.IsZero() || size.V.Metric == r.Size.Metric) {
				spec = Pick[catalog.Spec]{r.Spec, ofKeys(Key{r.ID, "spec"})}
				break
			}
		}
	}
	if size.V.IsZero() {
		for _, r := range runs {
			if (spec.V == "" || r.Spec.Family() == spec.V.Family()) && r.Size.NominalMM() > size.V.NominalMM() {
				size, onHose = Pick[catalog.Size]{r.Size, ofKeys(Key{r.ID, "size"})}, r.Spec.IsHose()
			}
		}
		for _, r := range runs {
			if size.V.IsZero() {
				size, onHose = Pick[catalog.Size]{r.Size, ofKeys(Key{r.ID, "size"})}, r.Spec.IsHose()
			}
		}
	}
	if spec.V == "" && len(runs) > 0 {
		spec = Pick[catalog.Spec]{RigidSpec("", size.V), ofKeys(Key{p.ID, "size"})}
	}
	if onHose && spec.V != "" && !spec.V.IsHose() { // on tails in its sockets
		size.V = s.nearestPipe(spec.V, size.V)
	}
	if spec.V != "" && !size.V.IsZero() && (spec.V.Family() == catalog.Metric) != size.V.Metric {
		spec = Pick[catalog.Spec]{RigidSpec("", size.V), ofKeys(Key{p.ID, "size"})}
	}
	return spec, size
}

// nearestPipe is the pipe size of the spec nearest to a size of hose.
func (s *Stage) nearestPipe(spec catalog.Spec, size catalog.Size) catalog.Size {
	best, off := size, -1.0
	for _, one := range s.cat.PipeSizes(spec) {
		d := one.NominalMM() - size.NominalMM()
		if d < 0 {
			d = -d
		}
		if off < 0 || d < off {
			best, off = one, d
		}
	}
	return best
}

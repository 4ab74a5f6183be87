package graph

import "strings"

// PortNames returns the ports every part of the kind has, water first in to out, then a
// possible air port; nil for the kinds whose ports the description names.
func (k Kind) PortNames() []string {
	switch {
	case k.UserPorts():
		return nil
	case k == Tee:
		return []string{RunIn, RunOut, Branch}
	case k.OnePort():
		return []string{In}
	case k.AirPort() != "":
		return []string{In, Out, k.AirPort()}
	default:
		return []string{In, Out}
	}
}

// The fixed port names.
const (
	In     = "in"
	Out    = "out"
	RunIn  = "run-in"  // of a tee
	RunOut = "run-out" // of a tee
	Branch = "branch"  // of a tee
)

// AirPort returns the name of the port through which a part of the kind may draw air or
// gas; "" for a kind that has none. Such a port need not be joined.
func (k Kind) AirPort() string {
	switch k {
	case JetGroup:
		return "air"
	case OzoneInjector:
		return "gas"
	}
	return ""
}

// TwoPort reports whether water passes the kind from "in" to "out".
func (k Kind) TwoPort() bool {
	return !k.UserPorts() && !k.OnePort() && k != Tee
}

// MovesAir reports whether all ports of the kind carry air.
func (k Kind) MovesAir() bool { return k == Blower || k == AirControl }

// SeveralWays reports whether the water goes more ways than one through the kind, so that a flow is one of its
// ports'.
func (k Kind) SeveralWays() bool { return k.UserPorts() || k == Tee }

// Lossless reports whether no water is lost by the kind's own law: the tub, where it stands open, what moves air,
// and what ends a run.
func (k Kind) Lossless() bool { return k == Tub || k.MovesAir() || k.OnePort() }

// Plumbing reports whether the kind is mere pipework, which carries air as well as water:
// what a line of it carries follows from the parts at its ends.
func (k Kind) Plumbing() bool {
	switch k {
	case Tee, GateValve, BallValve, ButterflyValve, CheckValve, Union, Coupling, SlipCoupling,
		Reducer, Transition, Barb, Cap, Manifold, DiverterValve, DrainValve, AirBleed,
		PressureSwitch, PressureGauge, ThermometerPocket:
		return true
	}
	return false
}

// IsAir reports whether the port carries air rather than water: by its kind, its name, or
// because the description says so.
func (p *Part) IsAir(port string) bool {
	if p.Kind.MovesAir() || (port != "" && port == p.Kind.AirPort()) {
		return true
	}
	q := p.Port(port)
	return q != nil && q.Air
}

// PortAt returns where a port of the part, from 0, stands in the part's own measures, mm: as it is
// written, and the first in their origin where nothing is; ok is false where nobody said.
func (p *Part) PortAt(i int) (at Vec, ok bool) {
	if at := p.Ports[i].At; at != nil {
		return *at, true
	}
	return Vec{}, i == 0
}

// Through returns the way from the part's inlet to its outlet as written, mm; ok is false where
// the place of the outlet is not.
func (p *Part) Through() (by Vec, ok bool) {
	in, out := p.Port(In), p.Port(Out)
	if in == nil || out == nil || out.At == nil {
		return Vec{}, false
	}
	if in.At == nil {
		return *out.At, true
	}
	return out.At.Sub(*in.At), true
}

// New reports whether the part is new work.
func (p *Part) New() bool { return !p.Existing }

// New reports whether the run is new work: neither there before nor what is left of what was.
func (r *Run) New() bool { return !r.Existing && r.RemainsOf == "" }

// Other returns the far end of the run as seen from the end given.
func (r *Run) Other(end PortRef) PortRef {
	if end.Same(r.From) {
		return r.To
	}
	return r.From
}

// AtSurface reports whether an opening of a tub is, by its name, one that draws from the surface of
// the water: a skimmer, a weir, a filter well. A footwell is none. The words are the trade's.
func (p *Port) AtSurface() bool {
	name := strings.ToLower(p.Name)
	for _, word := range []string{"skim", "weir", "surface"} {
		if strings.Contains(name, word) {
			return true
		}
	}
	return strings.Contains(name, "well") && !strings.Contains(name, "foot")
}

// SunkMM is how far the case of the part reaches past the stop of a port, the way that looks, mm: what
// stands nearer to the stop stands in the case. 0 where the case or the port's place is not given, or it
// reaches no farther.
func (p *Part) SunkMM(port string, faces Vec) float64 {
	mm := 0.0
	for i := range p.Ports {
		at, ok := p.PortAt(i)
		first, _ := p.PortAt(0)
		if p.Ports[i].Name != port || p.Box == nil || !ok || faces.Len() == 0 {
			continue
		}
		for _, corner := range p.Box {
			mm = max(mm, corner.Sub(at.Sub(first)).Dot(faces.Unit()))
		}
	}
	return mm
}

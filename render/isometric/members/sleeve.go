package members

import (
	"cmp"
	"slices"

	"dryfit/graph/route"
)

// Sleeve is a coupling along a leg.
type Sleeve struct {
	Share  float64        // how far along the leg it stands, from its start on
	Joints []*route.Joint // those of its two ends that are on the member, from its start on
}

// Sleeves returns the couplings along a member, from its start on.
func (d *Drawing) Sleeves(m *Member) []Sleeve {
	if m.Run == nil {
		return nil
	}
	var out []Sleeve
	at := map[string]int{}
	for _, j := range d.joints[m.Run.ID] {
		body := d.sleeved[j]
		if body == "" || !d.legOf(m, j.At) {
			continue
		}
		k, ok := at[body]
		if !ok {
			k = len(out)
			at[body], out = k, append(out, Sleeve{})
		}
		out[k].Joints = append(out[k].Joints, j)
	}
	for k := range out {
		s := &out[k]
		slices.SortStableFunc(s.Joints, func(a, b *route.Joint) int { return cmp.Compare(Share(m, a.At), Share(m, b.At)) })
		for _, j := range s.Joints {
			s.Share += Share(m, j.At) / float64(len(s.Joints))
		}
	}
	slices.SortStableFunc(out, func(a, b Sleeve) int { return cmp.Compare(a.Share, b.Share) })
	return out
}

// sleevedOf tells of the joints of couplings along pipe which coupling each is of.
func sleevedOf(lay *route.Layout) map[*route.Joint]string {
	body := map[string]bool{}
	for i := range lay.Paths {
		for k := range lay.Paths[i].Fittings {
			if f := &lay.Paths[i].Fittings[k]; f.Kind == "coupling" && f.Point < 0 {
				body[route.FittingBody(i, k)] = true
			}
		}
	}
	out := map[*route.Joint]string{}
	for i := range lay.Joints {
		j := &lay.Joints[i]
		switch {
		case body[j.BodyA]:
			out[j] = j.BodyA
		case body[j.BodyB]:
			out[j] = j.BodyB
		}
	}
	return out
}

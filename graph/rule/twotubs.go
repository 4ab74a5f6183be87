package rule

import (
	"dryfit/graph"
	"dryfit/graph/hydraulic"
)

// tubsKeepTheirWater holds what is drawn from each of several tubs on one line against what it gets back.
var tubsKeepTheirWater = &Rule{
	Name:     "tubs-keep-their-water",
	Asks:     "Of several tubs on one line each gets back what is drawn from it, or a pipe of its own lets them find one level.",
	Why:      "Flows are worked out for tubs that stand level. The water that one gains another loses, until their levels stand so far apart that it evens out, or the one runs over or the other's skimmer draws air.",
	Source:   "follows from the computation; how much counts is judgement",
	Severity: graph.Warning,
	Needs:    NeedsFlow,
	Anywhere: true,
	Check:    tubsKept,
}

// gainShare is the share of what a tub turns over that it may gain or lose and be told to keep its water. Judgement.
const gainShare = 0.02

// gain is what a tub gets less what is drawn from it, m³/s, and the greater of the two.
func gain(f *hydraulic.PartFlow) (net, turned float64) {
	in, out := 0.0, 0.0
	for _, leg := range f.Legs {
		in, out = in+max(0, leg.Flow), out+max(0, -leg.Flow)
	}
	return in - out, max(in, out)
}

func tubsKept(in *Input, report Report) {
	v := in.ask()
	if len(v.c.OfKind(graph.Tub)) < 2 {
		return
	}
	for i := range in.Solutions {
		s := &in.Solutions[i]
		var most *hydraulic.PartFlow
		greatest := 0.0
		for _, tub := range v.c.OfKind(graph.Tub) {
			f := s.Part(tub.ID)
			if f == nil || v.levelled(s, tub) {
				continue
			}
			net, turned := gain(f)
			if net > max(hydraulic.Standing, gainShare*turned, greatest) {
				most, greatest = f, net
			}
		}
		if most == nil {
			continue
		}
		net, turned := gain(most)
		existing := false
		if old := partBefore(in.BeforeSolutions, most.Part, s.Mode.Name); old != nil {
			had, _ := gain(old)
			existing = had > 0 && net <= (1+noticed)*had
		}
		report(existing, graph.Diagnostic{
			Pos: most.Part.Pos, Severity: graph.Warning,
			Mode: s.Mode.Name, Message: graph.Say("mode %q: tub %q gets %s and gives %s, so that it gains %s from the others; it needs 0", s.Mode.Name, most.Part.ID, v.flow(turned), v.flow(turned-net), v.flow(net)),
			Hint: "set the valves of their returns and suctions so that each gets back what it gives, or lead a wide pipe of its own from tub to tub below the water; where their suctions meet the levels part until that is so, and may come to rest: tell the owner that they have to be watched",
		})
	}
}

// levelled reports whether still water stands in a way from a tub to another: by it they find one level.
func (v *view) levelled(s *hydraulic.Solution, tub *graph.Part) bool {
	met := map[string]bool{tub.ID: true}
	for queue := []*graph.Part{tub}; len(queue) > 0; queue = queue[1:] {
		for _, r := range v.net.At(queue[0]) {
			f := s.Run(r.ID)
			if f == nil || v.net.IsAir(r) || hydraulic.Passing(f.Flow) != 0 {
				continue
			}
			for _, id := range []string{r.From.Part, r.To.Part} {
				p := s.Part(id)
				if p == nil || met[id] || p.State == "shut" || p.Part.Kind == graph.Pump || p.Part.Kind == graph.CheckValve {
					continue
				}
				if p.Part.Kind == graph.Tub {
					return true
				}
				met[id] = true
				queue = append(queue, p.Part)
			}
		}
	}
	return false
}

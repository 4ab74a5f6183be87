package pipework

import (
	"cmp"

	"dryfit/graph"
	"dryfit/graph/description/field"
	"dryfit/graph/description/located"
	"dryfit/graph/stream"
)

// asked looks whether what [retrofit] asks for can be done at all once parts and runs are joined: a unit
// that is to be fitted is joined to nothing yet, and what is cut for it carries water.
func asked(r *field.Reader) {
	t := r.Circuit.Retrofit
	if t == nil || t.Remove || len(r.Found) > 0 { // what else is wrong may be why
		return
	}
	for _, run := range r.Circuit.Runs {
		if run.From.Part != t.Unit && run.To.Part != t.Unit {
			continue
		}
		hint := "leave out the runs that end at it, to have it fitted; or [retrofit], where they are the work"
		if p := r.Parts[t.Unit]; p != nil && p.Existing {
			hint = "leave [retrofit] out: the unit stands; or write remove = true there, to have it taken out"
		}
		d := r.Add(cmp.Or(t.KeyPos["unit"], t.Pos), hint, "the unit %s is to be fitted and is joined already", located.Said(t.Unit))
		located.Related(d, run.Pos, "the run %s ends at it", located.Said(run.ID))
		return
	}
	if t.Cut == nil {
		return
	}
	net := stream.NewNet(r.Circuit.At(graph.Before))
	water := func(run *graph.Run) bool { return run.Existing && !run.Removed && !net.IsAir(run) }
	if run := r.Circuit.Run(t.Cut.Run); run != nil && net.IsAir(run) {
		d := r.Add(t.Cut.Pos, located.ThereAre(runIDsThat(r, water)), "the run %s carries air: a unit is fitted into a line of water", located.Said(run.ID))
		located.Related(d, run.Pos, "it is described here")
	}
}

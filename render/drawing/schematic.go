package drawing

import (
	"fmt"
	"io"

	"dryfit/catalog/quantity"
	"dryfit/graph/plan"
	"dryfit/render/scene"
	"dryfit/render/schematic"
	"dryfit/render/sheet"
	"dryfit/render/tag"
)

// schematicPages draws what flows where: the circuit after the work, or as it stands. Where
// something is taken out the circuit before the work stands beside it, with that crossed out.
func schematicPages(p *plan.Plan, page sheet.Page, units quantity.System) ([]*scene.Scene, error) {
	in := schematic.Input{Circuit: p.Circuit, Settled: p.After.Layout.Stage, Names: tag.Of(p.Circuit, p.Net()), Page: page, Units: units, Notes: throttleNotes(p, units), NoCuts: p.RuledOut() != nil}
	parts, runs := schematic.Gone(p.Circuit)
	in.Sheet = page.First
	if len(parts)+len(runs) == 0 {
		return schematic.Draw(in), nil
	}
	return schematic.DrawBoth(in), nil
}

// throttleNotes says what each throttle in a bypass is set by.
func throttleNotes(p *plan.Plan, units quantity.System) []string {
	var out []string
	names := tag.Of(p.Circuit, p.Net())
	for _, v := range p.After.Circuit.Parts {
		if words := AimWords(p, v, units); words != "" {
			out = append(out, names.Tag(v.ID)+": "+words+".")
		}
	}
	return out
}

func schematicReads(w io.Writer, p *plan.Plan, units quantity.System) error {
	for _, n := range throttleNotes(p, units) {
		fmt.Fprintln(w, n)
	}
	return nil
}

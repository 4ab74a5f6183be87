package pipework

import (
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/description/field"
	"dryfit/graph/description/located"
	"dryfit/graph/description/schema"
)

// keptKey is the key that says at which ports an old adaptor stays.
const keptKey = "adaptors-kept"

// keptField is the list of the ports at which an old adaptor stays; one alone will do.
func keptField[T any](at func(*T) *[]graph.PortRef) field.Field[T] {
	return field.Field[T]{
		Key:   keptKey,
		Shape: func() schema.Shape { return schema.Either(portShape(), schema.List(portShape(), 1)) },
		Read: func(r *field.Reader, v located.Value, into *T) {
			items, ok := v.Items()
			if !ok {
				items = []located.Value{v}
			}
			for _, one := range items {
				if ref, ok := readPortRef(r, one, `the port the old adaptor stands on, such as "element.out"`); ok {
					*at(into) = append(*at(into), ref)
				}
			}
		},
		Write: func(from *T) string {
			var out []string
			for _, ref := range *at(from) {
				out = append(out, field.Quote(ref.String()))
			}
			return field.List(out)
		},
	}
}

// linkKept looks whether a run keeps adaptors at its own ends, on old parts.
func linkKept(r *field.Reader, run *graph.Run) {
	for _, ref := range run.AdaptorsKept {
		p := r.Parts[ref.Part]
		switch {
		case misnamed(r, run): // which of its ends is meant follows from that
		case !isEnd(run, ref):
			end := run.From
			if near, ok := quantity.Nearest(ref.String(), []string{run.From.String(), run.To.String()}); ok && near == run.To.String() {
				end = run.To
			}
			r.Add(ref.Pos, `name one of its ends: `+keptKey+` = [`+field.Quote(end.String())+`]`,
				"%s is no end of the run %s", located.Said(ref.String()), located.Said(run.ID))
		case run.Existing || run.RemainsOf != "":
			r.Add(ref.Pos, "leave "+keptKey+" out: it is for new pipe that goes into an adaptor that is there",
				"the run %s is old pipe, and all of it stays", located.Said(run.ID))
		case p != nil && (!p.Existing || p.Removed):
			d := r.Add(ref.Pos, "leave it out, or write existing = true on the part",
				"%s is no old part that stays: there is no adaptor on it to keep", located.Said(p.ID))
			located.Related(d, r.IDPos(p, p.Pos), "it is described here")
		default:
			keptFits(r, run, ref)
		}
	}
}

// keptFits looks whether the adaptor is for the new pipe: for what the old run was that ended
// there.
func keptFits(r *field.Reader, run *graph.Run, ref graph.PortRef) {
	for _, old := range r.Circuit.Runs {
		if !old.Existing || !old.Removed || !isEnd(old, ref) || old.Size.IsZero() || run.Size.IsZero() {
			continue
		}
		if old.Size != run.Size || old.Spec.IsHose() != run.Spec.IsHose() || old.Spec.Family() != run.Spec.Family() {
			d := r.Add(ref.Pos, "lead the same pipe into it, or leave "+keptKey+" out and take a new adaptor",
				"the old adaptor at %s is for %s %s, and the run %s is %s %s", located.Said(ref.String()), old.Spec, old.Size, located.Said(run.ID), run.Spec, run.Size)
			located.Related(d, old.Pos, "the old pipe is described here")
		}
	}
}

// keptOfRetrofit looks whether [retrofit] keeps adaptors where old pipe ends: at the run it
// cuts, or without a cut at any.
func keptOfRetrofit(r *field.Reader, t *graph.Retrofit) {
	for _, ref := range t.AdaptorsKept {
		cut := (*graph.Run)(nil)
		if t.Cut != nil {
			cut = r.Circuit.Run(t.Cut.Run)
		}
		ends := func(run *graph.Run) bool { return run.Existing && isEnd(run, ref) && (cut == nil || run == cut) }
		switch {
		case slices.ContainsFunc(r.Circuit.Runs, ends), cut != nil && misnamed(r, cut):
		case cut != nil:
			d := r.Add(ref.Pos, `name an end of the run that is cut: `+field.Quote(cut.From.String())+` or `+field.Quote(cut.To.String()),
				"%s is no end of the run %s, which is cut", located.Said(ref.String()), located.Said(cut.ID))
			located.Related(d, cut.Pos, "it is described here")
		default:
			r.Add(ref.Pos, `name the port of an old part that old pipe ends at, such as "element.out"`,
				"no old pipe ends at %s", located.Said(ref.String()))
		}
	}
}

func isEnd(run *graph.Run, ref graph.PortRef) bool { return ref.Same(run.From) || ref.Same(run.To) }

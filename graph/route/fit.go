package route

import "dryfit/catalog"

// PartFit is what a part was taken to be.
type PartFit struct {
	Row    catalog.Row // the row it has its dimensions from; zero where the catalogue has none
	Spec   catalog.Spec
	Size   catalog.Size // of its run, at a tee
	Branch catalog.Size // of a tee's branch socket; zero for other kinds
}

// noteFits keeps what every part was taken to be, for the lists.
func (l *layer) noteFits() {
	l.lay.Fits = make(map[string]PartFit, len(l.c.Parts))
	for i := range l.set.Parts {
		p := &l.set.Parts[i]
		l.lay.Fits[p.ID] = PartFit{Row: p.Row.V, Spec: p.Spec.V, Size: p.Size.V, Branch: p.Branch.V}
	}
}

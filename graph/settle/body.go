package settle

import (
	"dryfit/catalog"
	"dryfit/graph"
)

// Body is the room equipment takes that the description gives no box of, mm: how far it goes behind
// a port, how thick and how high it is about its ports. Nothing of what is pipe or fitting.
type Body struct{ Long, Thick, High Value }

// UnitBody returns the body of a unit in whichever stage it stands: of the row it names, else of
// the one a unit is usually taken to be.
func UnitBody(cat *catalog.Catalog, p *graph.Part) Body {
	row, named := catalog.Row{}, false
	if p.Type != "" {
		row, named = cat.Row(p.Type)
	}
	return bodyOf(cat, p, &row, ofRow(&row, p.KeyPos["type"], !named))
}

// bodyOf is the body of a part taken to be of a row: the row's, else that of the row its kind is
// usually taken to be.
func bodyOf(cat *catalog.Catalog, p *graph.Part, row *catalog.Row, from Origin) Body {
	if p.Box != nil || Fitted(p.Kind) || p.Kind == graph.Tub {
		return Body{}
	}
	if row.BodyLongMM == 0 || row.BodyThickMM == 0 {
		usual, ok := cat.Generic(string(p.Kind))
		if !ok {
			return Body{}
		}
		row, from = &usual, assumed("as that of "+usual.Name)
	}
	high := row.BodyHighMM
	if high == 0 {
		high = row.BodyThickMM
	}
	return Body{ofRowMM(row.BodyLongMM, from), ofRowMM(row.BodyThickMM, from), ofRowMM(high, from)}
}

package description

import "dryfit/graph"

// siteFields are the keys of [site].
var siteFields = []field[graph.Site]{
	qtySet("air", outdoorAir, func(s *graph.Site) *float64 { return &s.AirC }, func(s *graph.Site) *bool { return &s.AirSet }),
	wordField("region", graph.Regions(), func(s *graph.Site) *string { return &s.Region }),
	wordField("earthing", graph.Earthings(), func(s *graph.Site) *string { return &s.Earthing }),
}

func (r *reader) site(v value) {
	s := &r.circuit.Site
	s.Pos = r.keyPos(v)
	s.KeyPos = readTable(r, v, "[site]", siteFields, s)
}

package settle

import (
	"dryfit/catalog"
	"dryfit/graph"
)

// The catalogue's rows for what stands in a line of another kind than most tubs have.
const (
	dayAndNight   = "circulation-pump-24h"    // a pump that never stops, on hose of up to an inch or so
	dayAndNightL  = "circulation-pump-1.5in"  // one on pipe of an inch and a half or more
	lowFlowHeater = "element-heater-low-flow" // of a small circulation pump
	openEyes      = "pool-inlet"              // by which a line that drives no jets gives its water back
	returnJets    = "return-jet"              // the same, where it does so by more openings than eyes come in
	filterVessel  = "filter-in-vessel"        // on the pressure side of a pool's pump
	cartridgeIn   = "cartridge-in-vessel"     // the same, where it is said to be a cartridge
	poolStyle     = "pool"                    // of a pump's row
)

// byLine reports whether the row of a part of a kind may hang on the pump of its line.
func byLine(k graph.Kind) bool {
	return k == graph.ElementHeater || k == graph.JetGroup || k == graph.Filter
}

// rowOfLine is the row of a part of which only its kind is said: its kind's generic one, or what
// its maker would have chosen for the pump of its line.
func (s *Stage) rowOfLine(p *graph.Part, generic catalog.Row) catalog.Row {
	if row, ok := s.neverStops(p); ok {
		return row
	}
	pump := s.Net().LinePump(p)
	if pump == nil || pump.Pump == nil {
		return generic
	}
	name := ""
	switch p.Kind {
	case graph.ElementHeater:
		if most := s.greatestFlow(pump); most > 0 && most < generic.Least {
			name = lowFlowHeater // it can't give what the generic one asks for at any head
		}
	case graph.JetGroup:
		switch {
		case s.circulates(pump) && p.Jets != nil && p.Jets.Count > mostEyes:
			name = returnJets
		case s.circulates(pump) || s.filtersPool(pump):
			name = openEyes
		}
	case graph.Filter:
		if of := map[string]string{"": filterVessel, Cartridge: cartridgeIn}[s.mediaOf(p)]; of != "" && s.filtersPool(pump) && s.Net().Downstream(pump).HasPart(p.ID) {
			name = of
		}
	}
	if row, ok := s.cat.Row(name); ok {
		return row
	}
	return generic
}

// OpenEyes reports whether jets are eyes in the wall, by which a line gives its water back. What a row
// of the user's says of them is as good as said at the part: what they are the line tells all the same.
func (p *Part) OpenEyes() bool {
	return p.LossRow.V.Name == openEyes || p.LossRow.V.Own && p.usual.V.Name == openEyes
}

// circulationHead is the shut-off head in m below which a pump is one for circulation, whose
// returns are open, and above which it drives jets. Common practice, no source: circulation
// pumps shut off at 2.5 to 8 m, jet and pool pumps at 10 to 18 m.
const circulationHead = 9

func (s *Stage) circulates(pump *graph.Part) bool {
	head := s.shutOff(pump)
	return head > 0 && head < circulationHead
}

// mostEyes is by how many openings a circulation line gives its water back where they are open eyes:
// who makes more of them wants them felt, and makes them narrow. Common practice, no source.
const mostEyes = 2

// mostInlets is how many openings a pool of its own has: a tub's jet pump feeds at least twice
// as many. Common practice, no source.
const mostInlets = 4

// filtersPool reports whether a pump is a pool's: it is said to be, or there is sand in its line;
// or it is the one that filters and heats, has not a tub's two speeds, lifts more than one for
// circulation, and feeds no more openings than a pool has inlets. In a tub that pump is one for
// circulation or has two speeds, and its jets are many.
func (s *Stage) filtersPool(pump *graph.Part) bool {
	pool, asked := s.pools[pump]
	if !asked {
		pool = s.isPools(pump)
		s.pools[pump] = pool
	}
	return pool
}

// Pool reports whether the water that a pump moves is a pool's and no tub's: see filtersPool.
func (s *Stage) Pool(pump *graph.Part) bool { return pump != nil && s.isPools(pump) }

func (s *Stage) isPools(pump *graph.Part) bool {
	if row, ok := s.named(pump); ok && row.Style == poolStyle {
		return true
	}
	net, jets := s.Net(), 0
	for _, p := range s.Circuit.Parts {
		switch {
		case net.LinePump(p) != pump:
		case p.Kind == graph.Filter && s.mediaOf(p) == Sand:
			return true
		case p.Kind == graph.JetGroup && p.Jets != nil:
			jets += max(p.Jets.Count, 1)
		}
	}
	return jets <= mostInlets && s.shutOff(pump) >= circulationHead && len(pump.Pump.Speeds) != 2 && net.HeaterPump() == pump
}

// neverStops is the row of a pump of which nothing is known but that it always runs; false for any
// other part. Common practice, no source: what runs day and night is a circulation pump, for filter and
// heater alone, a small one on hose of 3/4 or 1 in, a large one on pipe of 1 1/2 in; one for jets is too
// loud and draws too much.
func (s *Stage) neverStops(p *graph.Part) (catalog.Row, bool) {
	if p.Kind != graph.Pump || !p.Pump.NeverOff() || len(p.Pump.Speeds) > 0 {
		return catalog.Row{}, false
	}
	name := dayAndNight
	for _, port := range PortsOf(p) {
		if r := s.RunAt(p.ID, port); r != nil && (r.Size.Metric && r.Size.Nominal >= 50 || !r.Size.Metric && r.Size.Nominal >= 1.5) {
			name = dayAndNightL
		}
	}
	return s.cat.Row(name)
}

// speedsOf are the speeds of a pump, or those of the row it is taken for where it never stops.
func (s *Stage) speedsOf(pump *graph.Part) []graph.Speed {
	if row, ok := s.neverStops(pump); ok {
		return graph.SpeedsOf(row)
	}
	return pump.Pump.Speeds
}

// greatestFlow is the end of a pump's longest curve, m³/s; 0 where it has none.
func (s *Stage) greatestFlow(pump *graph.Part) float64 {
	most := 0.0
	for _, speed := range s.speedsOf(pump) {
		for _, q := range speed.Curve {
			most = max(most, q.Flow)
		}
	}
	return most
}

// shutOff is the greatest head of a pump's curves in m of the water pumped, 0 where it has none.
func (s *Stage) shutOff(pump *graph.Part) float64 {
	most := 0.0
	for _, speed := range s.speedsOf(pump) {
		for _, q := range speed.Curve {
			most = max(most, q.Head.Head(s.Water.Density.V))
		}
	}
	return most
}

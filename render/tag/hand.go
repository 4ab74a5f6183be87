package tag

import (
	"fmt"
	"math"

	"dryfit/catalog/tables"
	"dryfit/graph"
)

// Hand says what a hand does to set a hand valve, for a setting known by what it passes:
// "handle 35° from shut" for a quarter-turn valve, "open 40 % of its turns" for a gate. full is
// its Kv when open, m³/h; 0 or less than the setting's says that only the flow can tell. The
// way is read off the kind's opening curve in the catalogue, which is typical: it is where to
// begin, and the flow or the unit's display says when to stop.
func Hand(p *graph.Part, kv, full float64) string {
	k, known := fullK[p.Kind]
	if full <= 0 || kv <= 0 || kv >= full || !known {
		return "PART SHUT, by the flow"
	}
	return Turned(p.Kind, along(string(p.Kind), k, k*full*full/(kv*kv)))
}

// Turned says where a hand valve's handle stands at a share open, in words.
func Turned(k graph.Kind, open float64) string {
	switch {
	case open <= 0:
		return "SHUT"
	case open >= 1:
		return "OPEN"
	case k == graph.GateValve:
		return fmt.Sprintf("OPEN %.0f %% of its turns", 5*max(1, min(math.Round(open*20), 19)))
	}
	return fmt.Sprintf("HANDLE %.0f° from shut", 5*max(1, min(math.Round(open*18), 17)))
}

// fullK is K of a hand valve fully open on its bore. Source: the handbook's L/D of 3, 8 and 45
// (Crane TP-410, 2009) at 2 in.
var fullK = map[graph.Kind]float64{graph.BallValve: 0.057, graph.GateValve: 0.15, graph.ButterflyValve: 0.85}

// along returns the share open at which a kind of valve has a loss coefficient, by halving.
func along(kind string, full, k float64) float64 {
	shut, open := 0.0, 1.0
	for range 40 {
		middle := (shut + open) / 2
		if at, _ := tables.OpeningK(kind, middle, full); at > k {
			shut = middle
		} else {
			open = middle
		}
	}
	return (shut + open) / 2
}

// FullKv is the Kv of a valve with the loss coefficient k on a bore, m³/h: the flow that loses
// 1 bar of water of 1000 kg/m³ (VDI/VDE 2173's definition of Kv, from memory); 0 where either
// is not known.
//
//	Kv = 3600 · π/4 · d² · √(2 · 10⁵ / (1000 · k))
func FullKv(k, boreMM float64) float64 {
	if k <= 0 || boreMM <= 0 {
		return 0
	}
	d := boreMM / 1000
	return 3600 * math.Pi / 4 * d * d * math.Sqrt(200/k)
}

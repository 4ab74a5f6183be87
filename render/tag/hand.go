package tag

import (
	"fmt"
	"math"

	"dryfit/catalog"
	"dryfit/graph"
)

// Hand says what a hand does to set a hand valve, for a setting known by what it passes:
// "handle 35° from shut" for a quarter-turn valve, "open 40 % of its turns" for a gate. full is
// its Kv when open, m³/h; 0 or less than the setting's says that only the flow can tell. The
// way is read off the kind's opening curve in the catalogue, which is typical: it is where to
// begin, and the flow or the unit's display says when to stop.
func Hand(p *graph.Part, kv, full float64) string {
	curve, _ := catalog.Opening(string(p.Kind))
	if full <= 0 || kv <= 0 || kv >= full || len(curve) < 2 {
		return "PART SHUT, by the flow"
	}
	return Turned(p.Kind, along(curve, kv/full))
}

// Turned says where a hand valve's handle stands at a share open, in words.
func Turned(k graph.Kind, open float64) string {
	switch {
	case open <= 0:
		return "SHUT"
	case open >= 1:
		return "OPEN"
	case k == graph.GateValve:
		return fmt.Sprintf("OPEN %.0f %% of its turns", 5*math.Round(open*20))
	}
	return fmt.Sprintf("HANDLE %.0f° from shut", 5*math.Round(open*18))
}

// along returns the share open at which a rising curve reaches a share of its Kv.
func along(curve [][2]float64, share float64) float64 {
	for i := 1; i < len(curve); i++ {
		a, b := curve[i-1], curve[i]
		if share <= b[1] && b[1] > a[1] {
			return a[0] + (b[0]-a[0])*(share-a[1])/(b[1]-a[1])
		}
	}
	return 1
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

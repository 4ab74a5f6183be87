package table

import "strings"

// valueMeans says what the values of parts and runs mean: how each is come by, and what it is
// for. A value named with what it belongs to, "power at high", has its first words here.
var valueMeans = map[string]string{
	"row":                    "the row of the catalogue it is taken to be, for all it says itself no better",
	"style":                  "what shuts the check: a spring or a flap",
	"spec":                   "the make of the pipe, its standard and wall: bore, outside diameter and sockets follow from it",
	"size":                   "the nominal size; no dimension of the pipe itself",
	"branch size":            "the nominal size of the tee's branch",
	"length":                 "of a part from socket stop to socket stop, of a run along its axis: what is cut and what the water passes",
	"take-off":               "from the centre of the fitting to the stop of its socket: what the cut length is less than centre to centre",
	"branch take-off":        "the same of the tee's branch",
	"socket depth":           "how deep pipe goes into its socket: what is marked before the cement",
	"bore":                   "what the water passes, inside: outside diameter less twice the wall; the loss of pipe goes with about its fifth power",
	"branch bore":            "the same of the tee's branch",
	"body":                   "how much room it is taken to fill about its ports: nothing is led through it without a word; box on the part replaces it",
	"roughness":              "of the wall, in Colebrook-White's friction factor",
	"outside diameter":       "what a calliper reads on the pipe; it tells inch from metric",
	"loss":                   "what it costs the water: a drop at a flow, a K on its bore, a Kv, or a length of pipe by its diameters (L/D)",
	"exponent":               "of the flow: its drop goes by the flow to this power, where a sheet says it at one flow alone",
	"position":               "how a hand valve stands",
	"Kv":                     "what it passes as it stands: Kv is in m3/h at 1 bar, Cv in US gpm at 1 psi; it replaces what its row says of it open",
	"dirty factor":           "how many times its clean loss it costs before it is cleaned",
	"cracking pressure":      "the pressure at which the check opens; below it it stays shut",
	"power":                  "what it draws; of a heat pump what it gives",
	"air":                    "how much air a blower moves; what rises through the water takes heat with it",
	"efficiency":             "what the water gets of the watts the pump takes, wire to water",
	"suction head needed":    "the most suction head the pump's sheet asks for at any flow of its npsh: less at its inlet, and its water boils (NPSH as in ISO 9906)",
	"speed ratio":            "its speed over that of the speed with the curve: flow goes with it, head with its square (affinity laws)",
	"shut-off head":          "what the pump makes with no water moving: the start of its curve, and the most that pipe and unit must stand",
	"least flow":             "the least water it asks for; below it a unit trips",
	"rated flow":             "the flow its ratings are for",
	"most flow":              "the most water it may have; above it its exchanger wears",
	"voltage":                "of its supply: its currents are at it",
	"full-load current":      "the most it draws as it runs, by its plate",
	"starting current":       "what it draws for a moment when it starts",
	"fuse":                   "the fuse or breaker its plate asks for",
	"least air":              "the coldest air it works in",
	"highest water":          "the highest it can be set to",
	"highest pressure":       "the most it stands, cold",
	"highest pressure, warm": "the same at the water's temperature: plastic stands less as it warms",
	"rating":                 "the pressure the pipe stands, at 20 to 23 °C",
	"rating, warm":           "the same at the water's temperature: plastic stands less as it warms",
	"depth below water":      "how far it lies below the water in the tub, which weighs on it; less than nothing above it",
	"volume":                 "how much water is in the tub: heat is reckoned with it",
	"temperature":            "what the water is kept at: its density and viscosity follow from it",
	"density":                "of the water at its temperature: pressures are head times it",
	"viscosity":              "of the water at its temperature: Reynolds numbers stand on it",
	"reducing-bush":          "the bush that stands between the part and the pipe, for their sizes differ",
	"reducer":                "the reducer that stands between the part and the pipe, for their sizes differ",
	"transition":             "the fitting that stands between the part and the pipe, for one is inch and one metric",
	"barb":                   "the barb the hose goes over",
	"coupling":               "the coupling that joins two ends of pipe there",
	"thread-adaptor":         "what leads from a thread to pipe",
}

// Means says what a settled value means; "" for one that nobody described.
func Means(what string) string {
	if words, ok := valueMeans[what]; ok {
		return words
	}
	first, _, _ := strings.Cut(what, " at ")
	return valueMeans[first]
}

// meansOf lists what some values mean, each name once.
func meansOf(values []Shown) []string {
	var out []string
	seen := map[string]bool{}
	for i := range values {
		name, _, _ := strings.Cut(values[i].What, " at ")
		if words := Means(name); words != "" && !seen[name] {
			seen[name] = true
			out = append(out, "  "+name+": "+words)
		}
	}
	return out
}

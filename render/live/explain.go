package live

import (
	"encoding/json"
	"regexp"
	"sync"
)

// Explanation says how a number of the page is come by.
type Explanation struct {
	Heads   string `json:"heads"` // the heads of columns it stands under, as a regular expression
	What    string `json:"what"`
	Formula string `json:"formula"`
	From    string `json:"from"`   // what goes in
	Source  string `json:"source"` // where the formula is from
}

// units are the units a head may end on.
const units = `( ?(m3/h|gpm|l/min|kPa|psi|mm|in|m/s|ft/s|kW|kWh|W|h|m|ft))?`

// explanations are tried in turn; the first whose heads fit counts.
var explanations = []Explanation{
	{`^(m3/h|gpm|today|flow|(as described|by what was read), (m3/h|gpm|l/min)|unit gets|past the unit|jets today|jets after)$`, "The flow", "at every junction what comes in goes out; round every loop the heads of the pumps and of the losses add up to nothing",
		"the pump's curve at its speed; the drop of every part and run; which valves are open", "conservation of mass and energy, solved by Newton's method over the whole circuit at once"},
	{`^drop` + units + `$`, "The drop", "of pipe: f · L/d · ρ·v²/2, and K · ρ·v²/2 for each fitting; of a part known by one point of its sheet: drop of the sheet · (flow / flow of the sheet)^n",
		"flow, bore, length, roughness and fittings of a run; the sheet, Kv or K of a part (look at it to see which, and from where)", "Darcy-Weisbach; f by Colebrook-White, 64/Re below Re 2000; K of fittings and tees by Crane TP-410 (2009)"},
	{`^adds$`, "What the pump adds", "Δp = ρ · g · H: the head of its curve at the flow it has, at its speed", "the pump's curve, as described or the catalogue's", "the curve; affinity laws for a speed known by its ratio"},
	{`^(m/s|ft/s|speed)$`, "The speed of the water", "v = Q / (π/4 · d²)", "flow and bore of the run", "continuity"},
	{`^(kPa|psi) inside$`, "The pressure inside", "what the pumps have put in up to there, less what is lost up to there and v²/2g, and more by the depth below the water where it is known", "the solution of the mode; levels where legs tell them", "Bernoulli's equation"},
	{`^bore` + units + `$`, "The bore", "outside diameter less twice the wall", "the pipe's row in the catalogue, unless the file gives a bore", "the standard of the pipe, named in its row (look at the run)"},
	{`^(nine in ten|range)$`, "How far it may be off", "the circuit solved again over a fixed sample of everything that is not known exactly: nine in ten answers lie between, one in twenty below and above", "the spreads of what was assumed, taken from a sheet or measured", "the table of spreads: common practice, no source"},
	{`^middle$`, "The middle of the sample", "half of the sampled answers lie below it", "the same sample", "as above"},
	{`^(unit|jets|head) ±%$`, "How much it moves", "the circuit solved again with this value near either end of what it may be (one in twenty lies beyond each) and all else as it is worked with (where something was read: over the samples that fit that, by how closely both go together): half of what that changes the unit's flow, the jets' or the pump's head",
		"the two ends in the column \"may be\"", "computed, in the mode in which it moves most"},
	{`^held in`, "How often it holds", "in so many of 100 ways in which the unknowns could lie", "the same sample: a share of guesses, not a probability", "counted"},
	{`^samples$`, "How many of the samples keep it", "counted over the fixed sample: how many of how many keep the promise; one past a pump's curve counts by a straight line on from there", "the same sample", "counted"},
	{`^rise$`, "The water's rise", "P / (ρ · c · Q), c = 4.18 kJ/(kg·K)", "the unit's rated output and its flow", "balance of heat"},
	{`^head` + units + `$`, "The head", "h = drop / (ρ · g): metres of the water pumped", "the drops along the line that asks most of the pump", "hydrostatics"},
	{`^share$`, "The share", "of the pump's total head", "the column beside it", "divided"},
	{`^(pipe|together|fittings.*)$`, "Equivalent length", "L = K · d / f: as much straight pipe as costs the same; by the handbook with its own f of complete turbulence, of a mode with the f at that flow", "fittings of the run, its bore, the flow of the mode", "Crane TP-410 (2009)"},
	{`^c to c$`, "Centre to centre", "from the legs as they are written, or as closing the loop asks", "the legs of the run, the places of its ends", "geometry"},
	{`^(cut|less at its (start|end))$`, "What to saw", "cut = centre to centre less the take-offs of both ends: each from the centre of the fitting to the stop of its socket", "the take-offs of the fittings (a star: nobody has a standard for it, measure it in your hand)", "the fittings' standards, named in their rows"},
	{`^(left over|bar|coil|piece|qty|spare|length|for)$`, "What is bought and cut", "pieces laid into bars so that what is bought costs least, a saw cut taken off for each", "the cut list, what is on sale ([[stock]]), the kerf", "an exact search with its proof, printed below the plan"},
	{`^price( each)?$`, "The price of one", "as the file has it, for one piece, bar or tin", "[prices] and [[stock]]", "the file"},
	{`^size$`, "The nominal size", "as written, or that of the pipe it sits on", "the file", "the standard of the pipe"},
	{`^unit gives W$`, "What the unit gives", "its output at that air and the water's temperature: between its rated points in a straight line; beyond them by its share of the ideal machine", "the unit's ratings, [water] temperature", "interpolation; Carnot"},
	{`^runs$`, "How much of the time it runs", "loses / gives, each in that air", "the two columns beside it", "balance of heat"},
	{`^element W$`, "What the element can add", "its power, where it stays; none where an interlock lets one heat at a time and the unit does", "the element's power and interlock", "what the words say"},
	{`^hours a year colder$`, "Hours a year colder", "the hours of the climate's year whose air is below that of the line", "[climate]", "counted"},
	{`^(W|left to heat W|W or what is fed.*)$`, "Heat lost", "conduction U·A·ΔT, evaporation from the open water, pipes", "[cover], [shell], [use], the air", "balance of heat; evaporation by Carrier's equation in the ASHRAE handbook's form"},
	{`^(output|input)( kW)?$`, "Output and input of the unit", "between its rated points in a straight line; beyond them by its share of the ideal machine", "the unit's ratings", "interpolation; Carnot"},
	{`^COP$`, "Heat for power", "output / input", "the two columns beside it", "definition"},
	{`kWh|^heat kWh$`, "Energy", "the hours of the year added up: what the tub loses, what the unit takes for it, pump and element", "[climate], [use], the unit's ratings, the pump's power", "balance of heat, hour by hour"},
	{`^(today|planned) [A-Z]{3}$|^[A-Z]{3} less$`, "Money", "energy of each hour times its price, and the standing charge", "[tariff] and the energies of the hours", "the file's own prices"},
	{`^heats up in( h)?$`, "Time to heat up", "heat to bring in over what the unit gives less what is lost, step by step", "volume, temperatures, output at the air of the hour", "balance of heat"},
	{`^holds down to$`, "Coldest air", "where the unit's output is just what the tub loses", "ratings and losses", "balance of heat"},
	{`^A( at a start)?$`, "Current", "I = P / (U · cos φ); currents that can run together are added", "powers, voltage, power factors, starting currents", "for the electrician to check (IEC 60364, from memory)"},
	{`^(taken as|assumed|may be|expected|from the description|value)$`, "What it is taken for", "as the file gives it; else by the catalogue's row or common practice, with how far it may be off", "the file, the catalogue", "named in the same line, or in `dryfit show`"},
	{`^(air|water)( °?[CF])?$`, "The conditions", "those the line holds at", "the file or the ratings", "given"},
	{`^before`, "Time of the cement", "by size and air, as its maker prints it", "the sizes of the new work", "a cement maker's table, in the catalogue"},
}

// allExplanations are those of columns and of sentences.
var allExplanations = append(append([]Explanation(nil), explanations...), sentences...)

// explained are their heads, read with the first that is asked.
var explained = sync.OnceValue(func() []*regexp.Regexp {
	out := make([]*regexp.Regexp, len(allExplanations))
	for i, e := range allExplanations {
		out[i] = regexp.MustCompile(e.Heads)
	}
	return out
})

// Explain returns what explains the numbers under a head, or in a place that sentences names; nil
// where nothing does.
func Explain(head string) *Explanation {
	for i, r := range explained() {
		if r.MatchString(head) {
			return &allExplanations[i]
		}
	}
	return nil
}

// ExplanationsJSON are all of them, for the page: its expressions mean the same there.
func ExplanationsJSON() ([]byte, error) { return json.Marshal(allExplanations) }

package catalog

import (
	"math"

	"dryfit/catalog/quantity"
)

// What a pump or a heat pump can't be, whether a part of the description says so or a row of the user's:
// bounds outside of all there are, so that a wrong unit is asked about.

// What share of the watts on its label a pump turns into water power (flow times head), at the
// best point of its curve. The best wet ends of tubs reach some 70 % and their motors 85 %; a
// pump of half a kilowatt or more turns a tenth at the least, a small one with a magnet rotor two
// or three in a hundred. The bounds lie outside all of them, so that a wrong unit (kPa for m, l/min
// for m³/h, ft for m) or two speeds mixed up is asked about. Common practice, no source.
const (
	mostOfWatts      = 0.85
	leastOfWatts     = 0.03
	leastOfFewWatts  = 0.01
	fewWatts         = 500 // W
	measuredFarShare = 0.5 // the last head over the first: a curve that ends higher does not show its best point
)

// Labelled is a speed of a pump with the watts on its label.
type Labelled struct {
	Curve  [][2]float64 // flow m³/s and pressure Pa, flow rising; nil: not of its own
	LabelW float64      // 0: not said
}

// What to look at where one of these finds something.
const (
	LabelHint  = "read its sheet and its label again: is a unit wrong, or are two speeds mixed up? flows are in m3/h, l/min or gpm, heads in m, ft, kPa or psi"
	RiseHint   = "is the unit right? flows are in m3/h, l/min or gpm"
	RatingHint = "read its table again: are two of its numbers swapped, or one in another unit? of an inverter write those at full load"
	AirHint    = "read its table again: is a minus missing or too much, or are two rows mixed up? of an inverter write those at full load"
	FlowsHint  = "is the unit right, and the decimal point? read its sheet again"
)

// LossHint is that of a unit that costs the water more than it stands, by the keys that say the two.
func LossHint(drop, stands string) string {
	return "is the unit right? read both from its sheet again: " + drop + " is what it costs the water at that flow, " + stands + " what it stands"
}

// LabelDisagrees finds a curve that gives more water power than the watts of its speed allow, or, at the
// speed with the most watts, next to none of them: of a slower one a label may say those of the fastest.
// It returns the speed, by its index, and what is wrong with it; -1 where the two agree.
func LabelDisagrees(speeds []Labelled) (int, quantity.Text) {
	most := 0.0
	for _, s := range speeds {
		most = max(most, s.LabelW)
	}
	best := 0.0 // of those with the most watts
	for _, s := range speeds {
		if s.LabelW == most {
			best = max(best, s.waterPower())
		}
	}
	for i, s := range speeds {
		if s.LabelW == 0 || len(s.Curve) < 2 {
			continue
		}
		watts, share := s.waterPower(), leastOfWatts
		if s.LabelW < fewWatts {
			share = leastOfFewWatts
		}
		far := s.Curve[len(s.Curve)-1][1] < measuredFarShare*s.Curve[0][1]
		says := "more than any pump makes of them"
		switch {
		case watts > mostOfWatts*s.LabelW:
		case far && s.LabelW == most && best < share*s.LabelW:
			says = "far less than any pump makes of them"
		default:
			continue
		}
		return i, quantity.Say("%s of water power for %s on its label: %s", quantity.Power.Of(math.Round(watts)), quantity.Power.Of(s.LabelW), says)
	}
	return -1, ""
}

// waterPower is flow times head at the best point of the curve, W.
func (s Labelled) waterPower() float64 {
	best := 0.0
	for k := 1; k < len(s.Curve); k++ {
		for t := 0.0; t <= 1; t += 0.25 { // the greatest may lie between two points
			a, b := s.Curve[k-1], s.Curve[k]
			best = max(best, (a[0]+t*(b[0]-a[0]))*(a[1]+t*(b[1]-a[1])))
		}
	}
	return best
}

// mostRatedRiseK is how much the water may warm in a unit at its rated flow and its greatest output
// before one of the two is asked about, K: units are rated at 2.5 K (AHRI 1160, from memory), those
// on the market at 1.5 to 5. Judgement, no source.
const mostRatedRiseK = 15

// The water that data sheets are measured with: its temperature in °C, common practice, no source; its
// density there in kg/m³, what turns a drop on a sheet into a head, and what warms a cubic metre of it by
// a kelvin, J/(m³ K), with 4,184 J/(kg K). Source: IAPWS-95 (the second from memory).
const (
	SheetC       = 20
	SheetDensity = 998.2
	SheetHeat    = SheetDensity * 4184
)

// RiseDisagrees says of a unit that it would warm its flow (m³/s; word says which) beyond all measure by
// its output (W): the flows or the outputs are in another unit. "" where it doesn't, or one isn't known.
func RiseDisagrees(word string, flow, outputW float64) quantity.Text {
	if flow <= 0 || outputW <= 0 || outputW/(flow*SheetHeat) <= mostRatedRiseK {
		return ""
	}
	return quantity.Say("%s of output would warm the %s flow, %s, by %s; units are made for 2 to 5 K",
		quantity.Power.Of(outputW), word, quantity.Flow.Of(flow), quantity.TemperatureDifference.Of(math.Round(outputW/(flow*SheetHeat))))
}

// MostCOP is more heat for a watt than any heat pump gives. Judgement, no source.
const MostCOP = 20

// mostColderK is by how much water to be heated may be colder than the air before the two are asked about: sheets have
// pool water at the most some 10 K below it. Judgement, no source.
const mostColderK = 20

// RatingDisagrees says of a rating that a unit gives by it no more heat than it draws, or more than any does, or
// that it heats water far colder than the air; "" where it doesn't, or output or input isn't known.
func RatingDisagrees(t RatingRow) quantity.Text {
	air, water := quantity.Temperature.Of(t.AirC), quantity.Temperature.Of(t.WaterC)
	if t.WaterC < t.AirC-mostColderK {
		return quantity.Say("a rating has water of %s in air of %s: nothing has to heat that", water, air)
	}
	most, says := min(IdealCOP(t.AirC, t.WaterC), MostCOP), "a heat pump gives more"
	switch {
	case t.InputW == 0 || t.OutputW == 0 || t.OutputW > t.InputW && t.OutputW <= most*t.InputW:
		return ""
	case t.OutputW > MostCOP*t.InputW:
		says = "no heat pump gives so much"
	case t.OutputW > t.InputW:
		return quantity.Say("a rating gives %s for %s with water of %s in air of %s: an ideal machine would give %s", quantity.Power.Of(t.OutputW), quantity.Power.Of(t.InputW),
			water, air, quantity.Power.Of(most*t.InputW))
	}
	return quantity.Say("a rating gives %s for %s: %s", quantity.Power.Of(t.OutputW), quantity.Power.Of(t.InputW), says)
}

// IdealCOP is the heat an ideal machine gives for its work between water 7 K and air 8 K beyond their
// temperatures (°C) outside the machine, for what water and air have to be led past it with:
//
//	(Tw + 7)/(Tw + 7 - Ta + 8)
//
// It is not asked for less than 5 K between the two. Source: the Carnot cycle; the 7 K and 8 K are judgement, held against
// certified units, which reach 0.49 to 0.58 of it (see graph/heat, where their source is named).
func IdealCOP(airC, waterC float64) float64 {
	hot := waterC + 273.15 + 7
	return hot / max(hot-(airC+273.15-8), 5)
}

// colderGives is how many times the output of warmer air, at the same water, colder air may give before
// the two are asked about. Heat pumps give less the colder the air is; an inverter held to its power
// gives the same. What is more is a minus or a row mixed up, or one rated at part load, between which
// nothing can be reckoned. Judgement, no source.
const colderGives = 1.3

// AirDisagrees finds, of two ratings at the same water, one in colder air (°C) that gives far more heat
// (W). It returns the index of that, and what is wrong with it; -1 where there is none.
func AirDisagrees(ratings []RatingRow) (int, quantity.Text) {
	for i, cold := range ratings {
		for _, warm := range ratings {
			if cold.WaterC == warm.WaterC && cold.AirC < warm.AirC && cold.OutputW > colderGives*warm.OutputW && warm.OutputW > 0 {
				return i, quantity.Say("%s in air of %s and %s in air of %s: colder air gives less", quantity.Power.Of(cold.OutputW), quantity.Temperature.Of(cold.AirC),
					quantity.Power.Of(warm.OutputW), quantity.Temperature.Of(warm.AirC))
			}
		}
	}
	return -1, ""
}

// How far a unit's flows may lie apart before they are asked about. Its least flow stops it before the water
// warms by more than some 10 K: at twice that rise a decimal point slipped. Its most flow is one and a half
// to three times its rated one, far less than a hundred times its least. Judgement, no source.
const (
	mostLeastRiseK = 25
	mostOfRated    = 15
	mostOfLeast    = 200
)

// FlowsDisagree says of a unit's flows (m³/s) and its greatest output (W), 0 where not known, that a flow lies
// further from the others than any sheet has it, and which: "least" or "most"; "" where they don't.
func FlowsDisagree(least, rated, most, outputW float64) (key string, says quantity.Text) {
	switch {
	case least > 0 && outputW/(least*SheetHeat) > mostLeastRiseK:
		return "least", quantity.Say("%s of output would warm the least flow, %s, by %s; no unit is let run so", quantity.Power.Of(outputW), quantity.Flow.Of(least),
			quantity.TemperatureDifference.Of(math.Round(outputW/(least*SheetHeat))))
	case rated > 0 && most > mostOfRated*rated:
		return "most", quantity.Say("the rated flow is %s and the most flow %s: no sheet has them so far apart", quantity.Flow.Of(rated), quantity.Flow.Of(most))
	case rated == 0 && least > 0 && most > mostOfLeast*least:
		return "most", quantity.Say("the least flow is %s and the most flow %s: no sheet has them so far apart", quantity.Flow.Of(least), quantity.Flow.Of(most))
	}
	return "", ""
}

// checkSense holds what a row says of one thing against what it says of another.
func checkSense(r Row, say sayFunc, hint func(string)) {
	if i, says := LabelDisagrees(labelled(r)); i >= 0 {
		key := "curve"
		if len(r.Speeds) > 0 {
			key = "speeds"
		}
		say(key, "the curve comes to %s", says)
		hint(LabelHint)
	}
	if r.LossDropPa > 0 && r.RatingPa > 0 && r.LossDropPa > r.RatingPa {
		say("loss", "it is to cost the water %s at %s and stands %s", quantity.Pressure.Of(r.LossDropPa), quantity.Flow.Of(r.LossFlow), quantity.Pressure.Of(r.RatingPa))
		hint(LossHint("loss-drop", "rating"))
	}
	output := 0.0
	for _, t := range r.Ratings {
		output = max(output, t.OutputW)
		if says := RatingDisagrees(t); says != "" {
			say("ratings", "%s", says)
			hint(RatingHint)
			return
		}
	}
	if _, says := AirDisagrees(r.Ratings); says != "" {
		say("ratings", "%s", says)
		hint(AirHint)
		return
	}
	flow, key := r.Rated, "rated"
	if flow == 0 {
		flow, key = r.Most, "most"
	}
	if says := RiseDisagrees(key, flow, output); says != "" {
		say(key, "%s", says)
		hint(RiseHint)
		return
	}
	if key, says := FlowsDisagree(r.Least, r.Rated, r.Most, output); says != "" {
		say(key, "%s", says)
		hint(FlowsHint)
	}
}

// labelled are the speeds of a pump's row, with its watts.
func labelled(r Row) []Labelled {
	if r.Kind != "pump" {
		return nil
	}
	pressed := func(c [][2]float64) [][2]float64 {
		out := make([][2]float64, len(c))
		for i, p := range c {
			out[i] = [2]float64{p[0], p[1] * conventionalHead}
		}
		return out
	}
	if len(r.Speeds) == 0 {
		return []Labelled{{Curve: pressed(r.Curve), LabelW: r.PowerW}}
	}
	var out []Labelled
	for _, s := range r.Speeds {
		l := Labelled{LabelW: s.PowerW}
		if s.Ratio == 0 {
			l.Curve = pressed(s.Curve)
		}
		out = append(out, l)
	}
	return out
}

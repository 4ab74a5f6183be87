package twin

import (
	"math"
	"testing"

	"dryfit/catalog/tables"
	"dryfit/graph/agree"
	"dryfit/graph/hydraulic/laws"
)

// friction is the friction factor of Colebrook, turned until it stands, at 2 m/s of water of 38 °C.
func friction(boreMM, roughMM float64) float64 {
	re, f := 2*boreMM/1000/0.68e-6, 0.02
	for range 60 {
		f = math.Pow(-2*math.Log10(roughMM/3.7/boreMM+2.51/(re*math.Sqrt(f))), -2)
	}
	return f
}

// teeK is K by the tee's law on the velocity head of the whole flow, from one leg to another of an equal tee of 2 in
// that water goes through at 2.43 m/s, as in the measurement; legs are run-in, run-out, branch, flows count into it.
func teeK(share [3]float64, from, to int) float64 {
	const bore, speed = 0.0493, 2.43
	for i := range share {
		share[i] *= speed * math.Pi / 4 * bore * bore
	}
	head, _ := laws.NewTeeLaw(bore, bore).Loss(share)
	return (head[from] - head[to]) / (speed * speed / 2 / 9.80665)
}

// addsTo reports whether a span is that of a class and besides a factor between two ends, of which a share counts.
func addsTo(s tables.Span, class string, share, low, high float64) bool {
	of := tables.Spread(class, "assumed")
	from := func(end, middle float64) float64 { return math.Log((1 + end) / (1 + middle)) }
	down, up := math.Hypot(from(of.Low, of.Middle), share*math.Log(low)), math.Hypot(from(of.High, of.Middle), share*math.Log(high))
	return agree.Within(from(s.Low, of.Middle), -down, 0.015) && agree.Within(from(s.High, of.Middle), up, 0.015)
}

// ends are what lies at the ends of the spans no maker draws by themselves, or so that half of them would
// hold as many: each worked out here from a standard, a handbook or what the trade says. holds reports whether
// a span reaches so far.
var ends = []struct {
	class, known string
	adds         bool
	from         string
	holds        func(tables.Span) bool
}{
	{tables.SpreadRibs, "assumed", false, "corrugated hose costs two to three times what smooth pipe does (common practice, no source), by Colebrook at the 0.5 mm of its row",
		func(s tables.Span) bool {
			times := func(off float64) float64 { return friction(32, 0.5*(1+off)) / friction(32, 0) }
			return times(s.Low) < 2 && times(s.High) > 3
		}},
	{tables.SpreadRoughnessOld, "assumed", false, "old plastic pipe has 140 by Hazen and Williams where new has 150 (from memory): a head of (150/140)^1.852 to one",
		func(s tables.Span) bool {
			return friction(52.5, 0.0015*(1+s.High))/friction(52.5, 0) > math.Pow(150./140, 1.852)
		}},
	{tables.SpreadRoughness, "assumed", false, "new plastic pipe is taken as 0.0015 to 0.005 mm (handbooks, from memory)",
		func(s tables.Span) bool { return s.Low <= 0 && 0.0015*(1+s.High) > 0.005 }},
	{tables.SpreadRoughnessAny, "assumed", false, "flexible pipe, whose ribs cost 20 to 30 % (common practice, no source): a quarter by Colebrook",
		func(s tables.Span) bool { return friction(40, 0.0015*(1+s.High))/friction(40, 0) > 1.25 }},
	{tables.SpreadBoreWritten, "measured", true, "EN ISO 1452-2 allows walls of 2.4 to 2.9 mm of 50 mm PN 10 (from memory): bores of one pipe that are a millimetre apart",
		func(s tables.Span) bool { return 2*(2.9-2.4) <= s.High-s.Low+1e-9 }},
	{tables.SpreadReading, "assumed", false, "a rise of 2.5 K read to 0.3 K", func(s tables.Span) bool { return s.High >= 0.3/2.5-1e-9 && s.Low <= -0.3/2.5+1e-9 }},
	{tables.SpreadGauge, "assumed", true, "class 2.5 of a dial of 2.5 bar (EN 837-1, from memory): 0.0625 bar, to a hundredth",
		func(s tables.Span) bool {
			return math.Abs(s.High-0.025*2.5) < 0.005 && math.Abs(s.Low+0.025*2.5) < 0.005
		}},
	{tables.SpreadLevel, "assumed", true, "a cellar lies a storey of 2.5 m and more below a terrace (common practice, no source)", func(s tables.Span) bool { return s.High > 2.5 }},
	{tables.SpreadWayOpening, "assumed", true, "a window passes as it is uncovered, a cock in a round pipe by the square",
		func(s tables.Span) bool { return s.Low <= 0 && 1+s.High > 1.9 }},
	{tables.SpreadJetHoses, "assumed", false, "0.6 m3/h in a hose of 12.7 mm to 2.5 in one of 16, K 4 with its barbs, of 80 kPa at the jet",
		func(s tables.Span) bool {
			share := func(flow, bore float64) float64 {
				v := flow / 3600 / (math.Pi / 4 * bore * bore * 1e-6)
				return 4 * v * v / 2 * 993 / 80000
			}
			return s.Low < share(0.6, 12.7) && s.High > share(2.5, 16)
		}},
	{tables.SpreadPumpAmps, "assumed", false, "as by watts, and 0.64 to 0.95 of volts times amps where 0.8 is taken, of which three quarters count: their logarithms add as deviations do",
		func(s tables.Span) bool { return addsTo(s, tables.SpreadPumpLabel, 0.75, 0.64/0.8, 0.95/0.8) }},
	{tables.SpreadSmallAmps, "assumed", false, "the same of small motors: 0.5 to 0.9 where 0.7 is taken, of which half counts",
		func(s tables.Span) bool { return addsTo(s, tables.SpreadSmallLabel, 0.5, 0.5/0.7, 0.9/0.7) }},
	{tables.SpreadDriveShape, "assumed", false, "a drive whose fastest speed in use is three quarters of all it has: by the affinity laws and PumpOfSize the flow of one that takes its watts at full speed goes by 0.75 to the power of 1 - 3·0.7",
		func(s tables.Span) bool { return 1+s.High > math.Pow(0.75, 1-3*0.7) && s.Low < -0.1 }},
	{tables.SpreadDriveWatts, "assumed", false, "an eighth of the most it shows, by a power of speed of 2.9 for the 2.63 of its row (70 of 780 W at 0.4); and where it takes a twenty-fifth of all it has for itself and 0.8 of its full speed is the fastest in use",
		func(s tables.Span) bool {
			const shown, own, fastest = 1. / 8, 0.04, 0.8
			takes := func(speed float64) float64 { return own + (1-own)*speed*speed*speed }
			told := func(share float64) float64 { return math.Cbrt((share - own) / (1 - own)) }
			slower := told(shown*takes(fastest)) / fastest / told(shown)
			return 1+s.High > math.Pow(shown, 1/2.9-1/2.63) && 1+s.Low < slower
		}},
	{tables.SpreadBoxShape, "assumed", false, "boxes of plug-in tubs shut off at 2 to 4.5 m, about a middle of 3: half of what lies between is the shape's, by logarithms, at the least",
		func(s tables.Span) bool { return (1+s.High)/(1+s.Low) > math.Sqrt(4.5/2) && s.Low < -0.25 }},
	{tables.SpreadPumpSize, "assumed", false, "pumps for jets are sold from 1.1 to 2.5 kW", func(s tables.Span) bool { return (1+s.High)/(1+s.Low) > 2.5/1.1 }},
	{tables.SpreadPumpAny, "assumed", false, "0.1 kW of water power of a small tub's pump to 0.7 of a large one's", func(s tables.Span) bool { return (1+s.High)/(1+s.Low) > 0.65/0.1 }},
	{tables.SpreadWheel, "assumed", true, "a third of a turn and as much of play, of eight turns", func(s tables.Span) bool { return s.High > 0.6/8 && s.Low < -0.6/8 }},
	{tables.SpreadBallKv, "data-sheet", false, "VDI/VDE 2173 allows a tenth of a Kv either way (from memory)", func(s tables.Span) bool { return s.High >= 0.1-1e-9 && s.Low <= -0.1+1e-9 }},
	{tables.SpreadNewValve, "data-sheet", false, "the same, of its loss, which goes by the square", func(s tables.Span) bool { return (1+s.High)/(1+s.Low) > 0.9*math.Pow(1.1/0.9, 2) }},
	{tables.SpreadDrive, "assumed", false, "a drive shows whole turns of a hundred a minute, of 2,850", func(s tables.Span) bool { return s.High > 50./2850 && s.Low < -50./2850 }},
	{tables.SpreadBallKv, "assumed", false, "half open a ball has K 29 as a cock, 7.1, the middle of 5 to 10, by the Kv that makers print, and 5.5 near its end; 50 degrees shut 53 and 95 by two books; the middle is that of K 29, 46, 11 and 7.1 by logarithms, and of that with a ball a tenth narrower than its pipe",
		func(s tables.Span) bool {
			four := math.Sqrt(29 / math.Pow(29*46*11*7.1, 0.25))
			return agree.Within(s.Middle, (four+four*0.81)/2-1, 0.01) && s.High > math.Sqrt(29/5.5)-1.005 && s.Low < math.Sqrt(52.6/95.3)-1
		}},
	{tables.SpreadFittingK, "assumed", false, "K of elbows of 2 in of PVC measured 0.91 to 1.00 (Rahmeyer for ASHRAE RP-1193, ASHRAE Handbook Fundamentals, pipe design, table 8, read) where the rows have 30 f_T, 0.57; swept ones 0.35 to 0.5; the middle is that of 0.42, 0.57, 0.75 and 0.95 by logarithms",
		func(s tables.Span) bool {
			return s.High > 1/0.57-1-0.01 && s.Low < 0.42/0.57-1 && agree.Within(s.Middle, math.Pow(0.42*0.57*0.75*0.95, 0.25)/0.57-1, 0.01)
		}},
	{tables.SpreadTeeK, "assumed", false, "tees of 2 in of PVC measured (the same, table 9, read) by the tee's law here: dividing into the branch, half and all of the flow, 0.74 to 1.02 and 0.98 to 1.39; combining from it, all, 0.89 to 1.54; half from either side a quarter of what stands there, 0.89 to 1.88 from the branch and 1.22 to 1.88 straight on, which is on the velocity of the leg it comes by (TestTeesOfTheTableKeepMomentum); one threaded of iron, all into the branch, 0.93 (table 7). The middle is that of the five by logarithms, times 1.07 of sizes between 1 and 2 in",
		func(s tables.Span) bool {
			in := func(k float64, q [3]float64, from, to int) bool { return within(k/teeK(q, from, to)-1, s) }
			half, away, home := [3]float64{1, -0.5, -0.5}, [3]float64{1, 0, -1}, [3]float64{0, -1, 1}
			both := [3]float64{0.5, -1, 0.5}
			mean := 0.0
			for _, m := range []struct {
				low, high float64
				share     [3]float64
				from, to  int
			}{{0.74, 1.02, half, 0, 2}, {0.98, 1.39, away, 0, 2}, {0.89, 1.54, home, 2, 1}, {0.89 / 4, 1.88 / 4, both, 2, 1}, {1.22 / 4, 1.88 / 4, both, 0, 1}} {
				mean += math.Log((m.low+m.high)/2/teeK(m.share, m.from, m.to)) / 5
			}
			if !agree.Within(s.Middle, math.Exp(mean)*1.07-1, 0.015) {
				return false
			}
			return in(0.74, half, 0, 2) && in(1.02, half, 0, 2) && in(0.93, away, 0, 2) && in(1.39, away, 0, 2) && in(0.89, home, 2, 1) && in(1.54, home, 2, 1) &&
				in(0.89/4, both, 2, 1) && in(1.88/4, both, 2, 1) && in(1.22/4, both, 0, 1) && in(1.88/4, both, 0, 1)
		}},
	{tables.SpreadTeeStraight, "assumed", true, "0.12 to 0.26 straight on where the branch is idle (the same), of which the joints of the pipes are 0.04 to 0.2",
		func(s tables.Span) bool { return s.Low <= 0 && s.High >= 0.26-0.04 }},
	{tables.SpreadPumpFlow, "data-sheet", false, "grade 2 of ISO 9906 allows 8 % of flow at a head (read in a pump lexicon), of what is made in equal shares nine in ten 7.2 %; rings in time a twentieth of it, half of that in the mean",
		func(s tables.Span) bool {
			return s.Low < -0.025-0.072+0.001 && s.High > -0.025+0.072
		}},
	{tables.SpreadOldCheck, "assumed", false, "a foot valve with a poppet 420 f_T, a straight flap 50, where the rows have 100 (Crane TP-410, read in an open library of its formulas)",
		func(s tables.Span) bool { return s.High > 4.2-1 && s.Low <= 0.5-1 }},
	{tables.SpreadGateKv, "assumed", false, "half open a gate has K 4.5 in the table, 2.06 by Weisbach and 5.6 by a data handbook",
		func(s tables.Span) bool { return s.High > math.Sqrt(4.5/2.06)-1 && s.Low < math.Sqrt(4.5/5.6)-1 }},
	{tables.SpreadButterflyKv, "assumed", false, "makes of a type differ by a third in loss either way (common practice, no source)",
		func(s tables.Span) bool { return s.High > math.Sqrt(1.5)-1 && s.Low < math.Sqrt(1/1.5)-1 }},
	{tables.SpreadBallOpen, "assumed", false, "K of the row, 0.057 in 2 in, to 0.39 of a Kv of 66 at DN 32 as makers print it",
		func(s tables.Span) bool { return s.Low < 0 && 0.057*(1+s.High) > 1.6e-3*math.Pow(32, 4)/66/66 }},
	{tables.SpreadFlapOpen, "assumed", false, "K 0.2 of a thin disc to 1.5 of a thick one, of 0.855 by 45 f_T in 2 in",
		func(s tables.Span) bool { return s.Low < 0.23/0.855-1 && s.High > 1.45/0.855-1 }},
	{tables.SpreadUnlisted, "assumed", true, "one old run in twelve has a corner of two elbows and more, of K 0.45 and more", func(s tables.Span) bool { return s.High > 2*0.45 }},
	{tables.SpreadLegs, "measured", false, "a leg of 250 mm read to 5 mm", func(s tables.Span) bool { return s.High >= 5./250-1e-9 && s.Low <= -5./250+1e-9 }},
}

// A span reaches as far as the standard or the trade it comes from, and half of it does not.
func TestSpansReachTheirEnds(t *testing.T) {
	for _, e := range ends {
		span := tables.Spread(e.class, e.known)
		if !e.holds(span) {
			t.Errorf("%s, %s: %+v falls short of %s", e.class, e.known, span, e.from)
		}
		if half := narrowed(span, e.adds); e.holds(half) {
			t.Errorf("%s, %s: half of it, %+v, reaches as far as %s", e.class, e.known, half, e.from)
		}
	}
}

// Where two streams combine at right angles the stream straight on keeps its momentum, and that of the branch has none
// that way: it loses no more than 1 - (1-q)² of the whole flow's velocity head, 0.75 where half comes from either side.
// The measured 1.22 to 1.88 of moulded tees and 2.94 to 3.32 of one welded up (table 9) keep to that as K on the
// velocity of the leg, half that of the whole, and not as K on that of the whole; as do the handbook's curves.
func TestTeesOfTheTableKeepMomentum(t *testing.T) {
	most := func(q float64) float64 { return 1 - (1-q)*(1-q) }
	const wall = 0.1 // friction of the few bores of pipe in which the two mix, and a share for two digits
	for _, k := range []float64{1.22, 1.88, 2.94, 3.32} {
		if k/4 > most(0.5)+wall {
			t.Errorf("K %g on the leg's velocity is %.2f on that of the whole: more than momentum allows, %.2f", k, k/4, most(0.5))
		}
		if k <= most(0.5)+wall {
			t.Errorf("K %g might be on the velocity of the whole", k)
		}
	}
	for q := 0.05; q < 1; q += 0.05 {
		if k, least := teeK([3]float64{1 - q, -1, q}, 0, 1), most(q); k > least+1e-9 {
			t.Errorf("the handbook's K straight on with %.2f from the branch is %.3f, of which momentum allows %.3f", q, k, least)
		}
	}
}

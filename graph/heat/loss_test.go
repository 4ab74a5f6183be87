package heat

import (
	"math"
	"testing"
)

// Source: equation evaluated with the coefficients of IAPWS-IF97's saturation line, from
// steam tables: 28, 38 and 40 °C.
func TestVapourPressure(t *testing.T) {
	for _, c := range []struct{ t, want float64 }{{28, 3783}, {38, 6633}, {40, 7385}} {
		if got := VapourPressure(c.t); !near(got, c.want, 0.0005*c.want) {
			t.Errorf("VapourPressure(%g) = %.1f Pa, want %g ± 0.05 %%", c.t, got, c.want)
		}
	}
}

// Source: a public table of the enthalpy of saturated air, kJ/kg.
func TestEnthalpyOfSaturatedAir(t *testing.T) {
	for _, c := range []struct{ t, want float64 }{{40, 166.4}, {10, 29.5}, {0, 9.5}} {
		if got := Enthalpy(c.t, HumidityRatio(VapourPressure(c.t))) / 1e3; !near(got, c.want, 0.3) {
			t.Errorf("saturated air at %g °C: %.2f kJ/kg, want %.1f ± 0.3", c.t, got, c.want)
		}
	}
}

// Carrier's equation in SI form, worked by hand for the evaporation, with Bowen's ratio and
// clear and overcast skies beside it; the sky lies a quarter of the way between the two.
func TestCoverOff(t *testing.T) {
	for _, c := range []struct{ water, air, humidity, wind, qe, kgh, qc, clear, overcast float64 }{
		{38, 10, 0.80, 0, 2012, 3.00, 668, 980, 635},
		{38, 10, 0.80, 1, 3779, 5.64, 1255, 980, 635},
		{38, -5, 0.85, 0.5, 3215, 4.80, 1476, 1269, 906},
		{38, 20, 0.50, 0.3, 2458, 3.67, 543, 739, 428},
		{40, 0, 0.80, 2, 6769, 10.13, 2631, 1234, 873},
	} {
		o := Surface{AreaM2: 4, Activity: 1}.Lose(c.water, Air{TempC: c.air, Humidity: c.humidity, Wind: c.wind})
		if !near(o.EvaporationW, c.qe, 0.01*c.qe) || !near(o.EvaporationKgH, c.kgh, 0.01*c.kgh) || !near(o.ConvectionW, c.qc, 0.01*c.qc) {
			t.Errorf("%+v: got %.0f W %.2f kg/h, %.0f W", c, o.EvaporationW, o.EvaporationKgH, o.ConvectionW)
		}
		if want := c.clear - 0.25*(c.clear-c.overcast); !near(o.RadiationW, want, 0.01*want) {
			t.Errorf("%+v: radiation %.0f W, want %.0f", c, o.RadiationW, want)
		}
	}
	// 3.5 m² of a tub and 50 m² of a pool, the same equation by hand
	if o := (Surface{AreaM2: 3.5, Activity: 1}).Lose(40, Air{TempC: 0, Humidity: 0.8, Wind: 2}); !near(o.EvaporationW, 5923, 0.01*5923) {
		t.Errorf("3.5 m²: %.0f W, want 5923", o.EvaporationW)
	}
	if o := (Surface{AreaM2: 50, Activity: 1}).Lose(28, Air{TempC: 30, Humidity: 0.5, Wind: 0.1}); !near(o.EvaporationW, 8034, 0.01*8034) {
		t.Errorf("50 m²: %.0f W, want 8034", o.EvaporationW)
	}
}

// Balance of enthalpies by hand: 10 l/s into water of 38 °C.
func TestBlown(t *testing.T) {
	for _, c := range []struct{ air, humidity, want float64 }{{0, 0.8, 1710}, {10, 0.8, 1500}, {20, 0.5, 1340}} {
		if got := Blown(0.010, 38, Air{TempC: c.air, Humidity: c.humidity}); !near(got, c.want, 0.01*c.want) {
			t.Errorf("air of %g °C: %.0f W, want %.0f ± 1 %%", c.air, got, c.want)
		}
	}
}

func TestStanding(t *testing.T) {
	// Source: an owner's page of 2010: 126 ft² at R 10 and 100 °F difference, 369.3 W exact
	w := Wall{AreaM2: 126 * 0.09290304, Resistance: 10 * 0.176110}
	if got := w.UA() * 100 / 1.8; !near(got, 369.3, 0.1) {
		t.Errorf("126 ft² of R 10: %.2f W, want 369.3", got)
	}
	// Source: California Code of Regulations, title 20, section 1605.3(g): 300 gal 224.1 W
	if got := TubUA(300 * 3.785411784e-3); !near(got, 9.60, 0.01) {
		t.Errorf("300 gal: %.3f W/K, want 9.60", got)
	}
	// Source: an owner's log, 14 kWh a day at 0 °C and 103 °F (39.4 °C): 14.8 W/K
	if got := StandingUA(14e3/24, 39.44, 0); !near(got, 14.8, 0.05) {
		t.Errorf("owner's log: %.2f W/K, want 14.8", got)
	}
}

// The logarithm by hand; 993 kg/m³ and 4179 J/(kg K).
func TestFall(t *testing.T) {
	for _, c := range []struct{ litres, from, to, air, hours, want float64 }{
		{1500, 38, 36, 10, 24, 5.339},
		{1200, 38, 36, 6, 24, 3.720},
		{1150, 38, 35.5, 2, 12, 7.950},
		{1000, 39.4, 33.9, 0, 12, 14.442},
	} {
		capacity := c.litres / 1e3 * water38.perK()
		f := Fall{FromC: c.from, ToC: c.to, AirC: c.air, Seconds: c.hours * 3600}
		got, err := f.UA(capacity)
		if err != nil || !near(got, c.want, 0.002) {
			t.Errorf("%+v: %.4f W/K, %v", c, got, err)
		}
		// with heat going in the answer must give the same fall back
		f.HeatW = 85
		ua, err := f.UA(capacity)
		rest := c.air + 85/ua
		if end := rest + (c.from-rest)*math.Exp(-ua*f.Seconds/capacity); err != nil || !near(end, c.to, 1e-9) || ua <= got {
			t.Errorf("%+v with 85 W: %.4f W/K ends at %.6f °C, %v", c, ua, end, err)
		}
	}
	if _, err := (Fall{FromC: 36, ToC: 38, AirC: 5, Seconds: 3600}).UA(5e6); err == nil {
		t.Error("a fall that rises is no error")
	}
	// ± 0.1 K at each end of 2 K is about ± 10 %, ± 0.07 K at each is ± 7 %: readings
	low, high := (Fall{FromC: 38, ToC: 36, AirC: 6, Seconds: 86400}).UARange(1.2*water38.perK(), 0.1)
	if !(low < 3.72*0.92 && low > 3.72*0.88 && high > 3.72*1.08 && high < 3.72*1.12) {
		t.Errorf("0.1 K at each end: %.3f to %.3f W/K around 3.720", low, high)
	}
	// 0.3 K read with 0.2 K at each end may be none; 0.1 K above the air, all the way down to it: by the readings alone
	if low, high := (Fall{FromC: 38, ToC: 37.7, AirC: 6, Seconds: 3600}).UARange(5e6, 0.2); low != 0 || !(high > 0) || math.IsInf(high, 1) {
		t.Errorf("a fall of less than the readings may be off: %g to %g W/K", low, high)
	}
	if low, high := (Fall{FromC: 38, ToC: 6.1, AirC: 6, Seconds: 1e6}).UARange(5e6, 0.2); !(low > 0) || !math.IsInf(high, 1) {
		t.Errorf("a fall to the air: %g to %g W/K", low, high)
	}
}

// Conduction through cylinders by hand: k 0.038, film 10; without and with the pipe's wall.
func TestPipes(t *testing.T) {
	for _, c := range []struct {
		od, bore, insulation float64
		without, with        float64
	}{
		{48.3, 40.9, 0, 1.52, 1.21}, {48.3, 40.9, 13, 0.448, 0.417}, {48.3, 40.9, 19, 0.357, 0.337}, {48.3, 40.9, 25, 0.303, 0.289}, {48.3, 40.9, 32, 0.262, 0.251},
		{60.3, 52.5, 0, 1.89, 1.50}, {60.3, 52.5, 13, 0.535, 0.498}, {60.3, 52.5, 19, 0.422, 0.399}, {60.3, 52.5, 25, 0.355, 0.338}, {60.3, 52.5, 32, 0.304, 0.292},
	} {
		p := OutsidePipe{OutsideM: c.od / 1e3, InsulationM: c.insulation / 1e3}
		if got := p.UAPerMetre(); !near(got, c.without, 0.01*c.without) {
			t.Errorf("%g mm, %g mm foam, no wall: %.4f W/(m K), want %g", c.od, c.insulation, got, c.without)
		}
		p.BoreM = c.bore / 1e3
		if got := p.UAPerMetre(); !near(got, c.with, 0.02*c.with) {
			t.Errorf("%g mm, %g mm foam: %.4f W/(m K), want %g", c.od, c.insulation, got, c.with)
		}
	}
	if got := (OutsidePipe{OutsideM: 0.050, BuriedM: 0.6}).UAPerMetre(); !near(got, 2.43, 0.01) {
		t.Errorf("buried: %.4f W/(m K), want 2.43", got)
	}
}

// Foam in the ground adds to what the soil holds back, as it does in the air: by hand from the
// resistances of soil and insulation in EN 13941, the soil's there ln(4 z/D) in place of
// arccosh(2 z/D), which at these depths is the same within 0.1 % (from memory). Conductivities of
// the foam 0.038, of the soil 1.5 W/(m K).
//
//	60.3 mm, 25 mm of it, 0.60 m deep   ln(2.4/0.1103)/(2π 1.5) = 0.3268   ln(110.3/60.3)/(2π 0.038) = 2.5292   1/2.8560 = 0.3501
//	48.3 mm, 13 mm of it, 0.45 m deep   ln(1.8/0.0743)/(2π 1.5) = 0.3382   ln(74.3/48.3)/(2π 0.038) = 1.8038    1/2.1420 = 0.4669
func TestFoamInTheGround(t *testing.T) {
	for _, c := range []struct{ od, insulation, depth, want float64 }{{60.3, 25, 0.60, 0.3501}, {48.3, 13, 0.45, 0.4669}} {
		p := OutsidePipe{OutsideM: c.od / 1e3, InsulationM: c.insulation / 1e3, BuriedM: c.depth}
		if got := p.UAPerMetre(); !near(got, c.want, 0.002*c.want) {
			t.Errorf("%g mm, %g mm foam, %g m deep: %.4f W/(m K), want %g", c.od, c.insulation, c.depth, got, c.want)
		}
	}
}

package quantity

import (
	"math"
	"testing"

	"dryfit/graph/agree"
)

func TestFormat(t *testing.T) {
	for _, c := range []struct {
		v            float64
		d            Dimension
		metric, inch string
	}{
		{450, Length, "450 mm", "1 ft 5-11/16 in"},
		{0.008, Air, "8.0 l/s", "17 cfm"}, // never gpm: air is no water
		{34.925, Length, "35 mm", "1-3/8 in"},
		{3822.7, Length, "3823 mm", "12 ft 6-1/2 in"},
		{304.8, Length, "305 mm", "1 ft"},
		{304.7, Length, "305 mm", "1 ft"},
		{-38.1, Length, "-38 mm", "-1-1/2 in"},
		{0.2, Length, "0 mm", "0 in"},
		{-0.2, Length, "0 mm", "0 in"},
		{1.15, Volume, "1150 l", "304 gal"},
		{0.0032, Volume, "3.20 l", "0.85 gal"},
		{5.8 / 3600, Flow, "5.8 m3/h", "25.5 gpm"},
		{0.35 / 3600, Flow, "0.35 m3/h", "1.5 gpm"},
		{0, Flow, "0.00 m3/h", "0.0 gpm"},
		{13790, Pressure, "13.8 kPa", "2.0 psi"},
		{120, Pressure, "0.12 kPa", "0.02 psi"},
		{1.41, Head, "1.41 m", "4.6 ft"},
		{38, Temperature, "38 °C", "100.4 °F"},
		{2.5, TemperatureDifference, "2.5 K", "4.5 °F"},
		{240, Power, "240 W", "240 W"},
		{2900, Power, "2.9 kW", "2.9 kW"},
		{14.5, Current, "14.5 A", "14.5 A"},
		{230, Voltage, "230 V", "230 V"},
		{48, Mass, "48.0 kg", "105.8 lb"},
		{993, Density, "993.0 kg/m3", "62.0 lb/ft3"},
		{0.00068, Viscosity, "0.680 mPa s", "0.680 cP"},
		{45, Time, "45 s", "45 s"},
		{1500, Time, "25 min", "25 min"},
		{15624, Time, "4.3 h", "4.3 h"},
		{0.5, Share, "50 %", "50 %"},
		{31, Kv, "31.0 m3/h", "31.0 m3/h"},
		{31.1392, Cv, "36.0 gpm", "36.0 gpm"},
		{4.18063680, Area, "4.18 m2", "45.0 ft2"},
		{9.1, Conductance, "9.1 W/K", "5.1 W/°F"},
		{2.1, Insulance, "2.10 m2 K/W", "2.10 m2 K/W"},
		{1.8288, Velocity, "1.83 m/s", "6.0 ft/s"},
		{2.5, Section, "2.5 mm2", "2.5 mm2"},
		{18, CableDrop, "18.0 mV/A/m", "18.0 mV/A/m"},
		{0.4, Resistance, "0.40 ohm", "0.40 ohm"},
		{0.2, Energy, "0.20 kWh", "0.20 kWh"},
		{math.NaN(), Length, "?", "?"},
		{math.Inf(1), Flow, "?", "?"},
	} {
		if got := Format(c.v, c.d, MetricSystem); got != c.metric {
			t.Errorf("Format(%g, %v, metric) = %q, want %q", c.v, c.d, got, c.metric)
		}
		if got := Format(c.v, c.d, InchSystem); got != c.inch {
			t.Errorf("Format(%g, %v, inch) = %q, want %q", c.v, c.d, got, c.inch)
		}
	}
}

// checkRoundTrip formats a value and reads it back: it must come out within half of the
// last figure printed.
func checkRoundTrip(t *testing.T, v float64, d Dimension, s System) {
	t.Helper()
	text := Format(v, d, s)
	q, err := Parse(text, d)
	if err != nil {
		if len(text) > longestDigits {
			return // a number nobody could have meant prints longer than Parse reads
		}
		t.Fatalf("Parse(Format(%g, %v)) = Parse(%q): %v", v, d, text, err)
	}
	step := 25.4 / 16
	if d != Length || s != InchSystem {
		p := printOf(v, d, s)
		step = math.Abs(toBase(1, d, p.unit)-toBase(0, d, p.unit)) * math.Pow(10, -float64(p.decimals))
	}
	if !agree.Within(q.Value, v, 0.500001*step+1e-12*math.Abs(v)) {
		t.Fatalf("Parse(Format(%g, %v)) = Parse(%q) = %g: more than half of %g off", v, d, text, q.Value, step)
	}
}

// toBase is the other way round from fromBase, by Parse's table.
func toBase(v float64, d Dimension, unit string) float64 {
	for _, u := range unitTable {
		if u.Dimension == d && u.Symbol == unit {
			f, _ := product(u.Factor).Float64()
			offset := 0.0
			if u.Offset != "" {
				offset, _ = product(u.Offset).Float64()
			}
			return (v - offset) * f
		}
	}
	return math.NaN()
}

func TestRoundTrip(t *testing.T) {
	for d := Dimension(0); d < dimensions; d++ {
		for _, s := range []System{MetricSystem, InchSystem} {
			// A fixed spread of values over ten decades, either sign.
			for i := range 2000 {
				v := math.Pow(10, -6+float64(i%1000)/100) * math.Mod(float64(i)*0.6180339887498949, 1)
				if i >= 1000 {
					v = -v
				}
				checkRoundTrip(t, v, d, s)
			}
		}
	}
}

// What a tape reads is what is printed: 67.71 mm as 68 mm, and as 2-11/16 in, which are 68.2625 mm.
func TestTape(t *testing.T) {
	if got := Tape(67.71, MetricSystem); got != 68 || Format(67.71, Length, MetricSystem) != "68 mm" {
		t.Errorf("metric: %g", got)
	}
	if got := Tape(67.71, InchSystem); !agree.Within(got, 68.2625, 1e-9) || Format(67.71, Length, InchSystem) != "2-11/16 in" {
		t.Errorf("inch: %g, %s", got, Format(67.71, Length, InchSystem))
	}
}

func TestFraction(t *testing.T) {
	for _, c := range []struct {
		v    float64
		den  int
		want string
	}{
		{1.5, 16, "1-1/2"}, {0.75, 16, "3/4"}, {3, 16, "3"}, {0, 16, "0"}, {2.99, 16, "3"}, {-1.25, 16, "-1-1/4"},
		{1.0 / 64, 64, "1/64"}, {1.0 / 64, 16, "0"}, {11.0 / 16, 16, "11/16"}, {1.375, 0, "1"}, {-0.01, 16, "0"},
		{math.NaN(), 16, "?"}, {math.Inf(-1), 16, "?"},
	} {
		if got := Fraction(c.v, c.den); got != c.want {
			t.Errorf("Fraction(%g, %d) = %q, want %q", c.v, c.den, got, c.want)
		}
	}
}

func TestTrimAndRound(t *testing.T) {
	for v, want := range map[float64]string{1.5: "1.5", 2: "2", 0: "0", 1e21: "1000000000000000000000", 1e-7: "0.0000001", -2.25: "-2.25"} {
		if got := Trim(v); got != want {
			t.Errorf("Trim(%g) = %q, want %q", v, got, want)
		}
	}
	if got := Trim(math.Copysign(0, -1)); got != "0" {
		t.Errorf("minus zero prints as %q", got)
	}
	for _, c := range []struct {
		v        float64
		decimals int
		want     float64
	}{{439.675, 2, 439.68}, {-439.675, 2, -439.68}, {0.5, 0, 1}, {0.4999, 0, 0}, {-0.4, 0, 0}, {2.5, 0, 3}, {math.Inf(1), 2, math.Inf(1)}} {
		if got := Round(c.v, c.decimals); got != c.want || math.Signbit(got) && got == 0 {
			t.Errorf("Round(%g, %d) = %g, want %g", c.v, c.decimals, got, c.want)
		}
	}
}

package tables

import (
	"sync"
	"time"

	"dryfit/catalog"
	"dryfit/catalog/data"
	"dryfit/catalog/quantity"
)

// ToolKerf is what one cut with a tool takes out of the pipe.
type ToolKerf struct {
	Tool              string
	MM, LowMM, HighMM float64
	Source            string
}

var kerfs = sync.OnceValue(func() []ToolKerf {
	s := data.Read("kerf.csv")
	var out []ToolKerf
	for _, l := range s.Lines {
		out = append(out, ToolKerf{l[0], s.Amount(l[1], quantity.Length), s.Amount(l[2], quantity.Length), s.Amount(l[3], quantity.Length), l[4]})
	}
	return out
})

// DefaultTool is the tool a fitter is taken to cut with when nobody said.
const DefaultTool = "PVC hand saw"

// Kerf returns the kerf of a tool; "" means DefaultTool.
func Kerf(tool string) (ToolKerf, bool) {
	if tool == "" {
		tool = DefaultTool
	}
	for _, k := range kerfs() {
		if k.Tool == tool {
			return k, true
		}
	}
	return ToolKerf{}, false
}

// JointCement is what one joint (one socket) takes.
type JointCement struct {
	CementML, PrimerML float64
	Source             string
}

// SmallJobFactor is how much more cement a small job takes than the joints alone.
// Source: judgement.
const SmallJobFactor = 1.5

// cements is what one joint of each inch size takes.
var cements = sync.OnceValue(func() map[catalog.Size]JointCement {
	s := data.Read("cement.csv")
	out := map[catalog.Size]JointCement{}
	for _, l := range s.Lines {
		out[sizeIn(s, l[0])] = JointCement{s.Number(l[1]), s.Number(l[2]), l[3]}
	}
	return out
})

// Cement returns what one joint of the size takes. A metric size goes by the inch size that
// it stands beside (50 mm by 1-1/2 in), and the source says so.
func Cement(size catalog.Size) (JointCement, bool) {
	near, guess := catalog.InchBeside(size)
	c, ok := cements()[near]
	c.Source += guess
	return c, ok
}

// Cure is how long a cemented joint wants. In damp weather it is half as long again.
type Cure struct {
	Handling time.Duration // before it is moved
	To11Bar  time.Duration // before a pressure of up to 11 bar
	To25Bar  time.Duration // before a pressure of up to 25 bar
	Source   string
}

// cureLine is one line of the two tables of cure times.
type cureLine struct {
	from, to         catalog.Size
	coldest, hottest float64 // °C
	cure             Cure
}

var cures = sync.OnceValue(func() []cureLine {
	s := data.Read("cure.csv")
	var out []cureLine
	for _, l := range s.Lines {
		out = append(out, cureLine{
			sizeIn(s, l[1]), sizeIn(s, l[2]), s.Amount(l[3], quantity.Temperature), s.Amount(l[4], quantity.Temperature),
			Cure{durationOf(s, l[5]), durationOf(s, l[6]), durationOf(s, l[7]), l[8]},
		})
	}
	return out
})

// hottestCure is where the tables of cure times end, °C.
const hottestCure = 38

// CureTimes returns how long a joint of the size wants at the temperature of the air (°C):
// the slower of two tables. Where a temperature stands on the border of two lines the
// warmer counts; above 38 °C the line up to 38 °C does. ok is false below -18 °C and for
// sizes without a line.
func CureTimes(size catalog.Size, tempC float64) (c Cure, ok bool) {
	near, guess := catalog.InchBeside(size)
	if near.IsZero() {
		return Cure{}, false
	}
	at := min(tempC, hottestCure)
	for _, l := range cures() {
		if near.Nominal < l.from.Nominal || near.Nominal > l.to.Nominal {
			continue
		}
		if at < l.coldest || at > l.hottest || at == l.hottest && at != hottestCure {
			continue
		}
		if l.cure.To11Bar >= c.To11Bar {
			c.Source = l.cure.Source + guess
		}
		c.Handling = max(c.Handling, l.cure.Handling)
		c.To11Bar = max(c.To11Bar, l.cure.To11Bar)
		c.To25Bar = max(c.To25Bar, l.cure.To25Bar)
		ok = true
	}
	return c, ok
}

func durationOf(s data.Sheet, text string) time.Duration {
	return time.Duration(s.Amount(text, quantity.Time) * float64(time.Second))
}

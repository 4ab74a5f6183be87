package tables

import (
	"fmt"
	"math"
	"sync"

	"dryfit/catalog"
	"dryfit/catalog/data"
	"dryfit/catalog/quantity"
)

// Join says whether two pipes can be cemented into the two ends of one fitting.
type Join struct {
	Direct       bool
	DifferenceMM float64 // outside diameter of the first less that of the second; 0 where either is not known
	Needs        string  // what goes between them, in words; "" for a direct joint
	Why          string
}

// CanJoin says whether pipe of one spec and size joins pipe of another with a fitting of one
// size. Inch and metric never do: solvent cement fills a few tenths of a millimetre (from
// memory), and the nearest sizes differ by more than one.
func CanJoin(a catalog.Spec, sizeA catalog.Size, b catalog.Spec, sizeB catalog.Size) Join {
	var j Join
	rowA, okA := catalog.Embedded().Pipe(a, sizeA)
	rowB, okB := catalog.Embedded().Pipe(b, sizeB)
	if okA && okB {
		j.DifferenceMM = rowA.OutsideMM - rowB.OutsideMM
	}
	switch {
	case a.IsHose() && b.IsHose():
		j.Direct = sizeA == sizeB
		j.Needs, j.Why = "a double-ended barb", "hose of two bores"
	case a.IsHose() || b.IsHose():
		j.Needs, j.Why = "a barb", "hose goes on a barb, not into a socket"
	case a.Family() != b.Family():
		j.Needs = "an inch to metric transition, a union with one inch and one metric end, or a pair of threads of one family"
		j.Why = fmt.Sprintf("%s is %s pipe and %s is %s pipe", a, a.Family(), b, b.Family())
		if okA && okB {
			j.Why += fmt.Sprintf(": outside diameters %.2f and %.2f mm, %.2f mm apart", rowA.OutsideMM, rowB.OutsideMM, math.Abs(j.DifferenceMM))
		}
	case sizeA != sizeB:
		j.Needs, j.Why = "a reducing bush or reducer", fmt.Sprintf("%s and %s are two sizes", sizeA, sizeB)
	default:
		j.Direct = true
	}
	if j.Direct {
		j.Needs, j.Why = "", "same family and size"
	}
	return j
}

// Thread is one pipe thread.
type Thread struct {
	Family         string // "BSP" or "NPT"
	Name           string // of the standard
	Size           catalog.Size
	MajorMM        float64
	ThreadsPerInch float64
	AngleDeg       float64
	Source         string
}

// Threads returns the table of threads. Two of different families do not mate.
func Threads() []Thread {
	s := data.Read("threads.csv")
	var out []Thread
	for _, l := range s.Lines {
		out = append(out, Thread{l[0], l[1], sizeIn(s, l[2]), s.Amount(l[3], quantity.Length), s.Number(l[4]), s.Number(l[5]), l[6]})
	}
	return out
}

// Outside is a pipe that an outside diameter may belong to.
type Outside struct {
	Pipe         string       // "pvc-sch40 2 in", "waste pipe 1-1/2 in"
	Spec         catalog.Spec // "" for pipe the catalogue has no rows for
	Size         catalog.Size
	OutsideMM    float64
	DifferenceMM float64 // measured less this
	Pressure     bool    // made for pressure
	Source       string
}

var otherOutsides = sync.OnceValue(func() []Outside {
	s := data.Read("outsides.csv")
	var out []Outside
	for _, l := range s.Lines {
		out = append(out, Outside{Pipe: l[0], OutsideMM: s.Amount(l[1], quantity.Length), Pressure: l[2] == "yes", Source: l[3]})
	}
	return out
})

package stock

import (
	"math"
	"math/bits"
	"math/rand/v2"
	"testing"

	"github.com/shopspring/decimal"
)

// exhaustive returns the least cost in whole units by dynamic programming over all subsets
// of the pieces and all counts of counted stock; math.MaxInt where the stock does not
// suffice. It shares nothing with the planner.
func exhaustive(pieces []Demand, stock []Supply, kerf float64) int {
	n := len(pieces)
	width := make([]int64, 1<<n)
	for m := 1; m < 1<<n; m++ {
		low := bits.TrailingZeros(uint(m))
		width[m] = width[m&(m-1)] + int64(math.Round(100*(pieces[low].LengthMM+kerf)))
	}
	// state: subset cut so far, number used of each counted stock, in mixed radix
	radix := []int{1}
	for _, s := range stock {
		radix = append(radix, radix[len(radix)-1]*(s.Count+1))
	}
	states := radix[len(radix)-1]
	best := make([][]int, 1<<n)
	for m := range best {
		best[m] = make([]int, states)
		for u := range best[m] {
			best[m][u] = math.MaxInt
		}
	}
	best[0][0] = 0
	full := 1<<n - 1
	for m := range full {
		for u, c := range best[m] {
			if c == math.MaxInt {
				continue
			}
			rest := full &^ m
			first := rest & -rest // some bar holds the first piece left
			for sub := rest; sub > 0; sub = (sub - 1) & rest {
				if sub&first == 0 {
					continue
				}
				for i, s := range stock {
					if width[sub] > int64(math.Round(100*(s.LengthMM+kerf))) {
						continue
					}
					v := u
					if s.Count > 0 {
						if u/radix[i]%(s.Count+1) == s.Count {
							continue
						}
						v += radix[i]
					}
					cost := c + int(s.Price.Decimal.IntPart())
					if cost < best[m|sub][v] {
						best[m|sub][v] = cost
					}
				}
			}
		}
	}
	least := math.MaxInt
	for _, c := range best[full] {
		least = min(least, c)
	}
	return least
}

// Expected values come from the exhaustive search above.
func TestAgainstExhaustiveSearch(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 11)) // fixed seeds: the same instances every time
	enough := 0
	for i := range 1500 {
		kerf := []float64{0, 1.3, 3}[rng.IntN(3)]
		var pieces []Demand
		for range 1 + rng.IntN(9) {
			l := float64(100 + rng.IntN(1600))
			if rng.IntN(3) == 0 {
				l += float64(rng.IntN(100)) / 100
			}
			pieces = append(pieces, Demand{Number: len(pieces) + 1, LengthMM: l})
		}
		var stock []Supply
		for range 1 + rng.IntN(3) {
			l := 1700 + 100*rng.IntN(20)
			s := Supply{LengthMM: float64(l), Count: rng.IntN(3),
				Price: decimal.NewNullDecimal(decimal.NewFromInt(int64(l/5 + rng.IntN(200))))}
			if s.Count > 0 && rng.IntN(2) == 0 {
				s.Offcut, s.Price.Decimal = true, decimal.Zero
			}
			stock = append(stock, s)
		}
		want := exhaustive(pieces, stock, kerf)
		got := Plan(pieces, stock, kerf)
		if bad := sound(pieces, stock, kerf, got); bad != "" {
			t.Fatalf("instance %d: %s\n%v\n%v kerf %g\n%+v", i, bad, pieces, stock, kerf, got)
		}
		if want == math.MaxInt {
			if len(got.Unplaced) == 0 || len(got.Problems) == 0 {
				t.Fatalf("instance %d: the stock does not suffice, but %+v", i, got)
			}
			continue
		}
		enough++
		if len(got.Unplaced) > 0 || !got.ProvedOptimal || !got.Cost.Decimal.Equal(decimal.NewFromInt(int64(want))) {
			t.Fatalf("instance %d: cost %s (proved %v, unplaced %v), exhaustive search %d\n%v\n%v kerf %g",
				i, got.Cost.Decimal, got.ProvedOptimal, got.Unplaced, want, pieces, stock, kerf)
		}
	}
	if enough < 500 {
		t.Errorf("only %d instances had stock enough; the test tests too little", enough)
	}
}

// jobSize is 40 pieces and three lengths on sale, invented.
func jobSize(seed uint64) ([]Demand, []Supply) {
	rng := rand.New(rand.NewPCG(seed, 3))
	var pieces []Demand
	for i := range 40 {
		pieces = append(pieces, Demand{Number: i + 1, LengthMM: 80 + float64(rng.IntN(140000))/100})
	}
	price := func(s string) decimal.NullDecimal { return decimal.NewNullDecimal(decimal.RequireFromString(s)) }
	return pieces, []Supply{
		{LengthMM: 2000, Price: price("6.95")},
		{LengthMM: 3000, Price: price("9.60")},
		{LengthMM: 5000, Price: price("14.90")},
	}
}

func TestJobSizeIsProved(t *testing.T) {
	for seed := range uint64(40) {
		pieces, stock := jobSize(seed)
		r := Plan(pieces, stock, 1.3)
		if bad := sound(pieces, stock, 1.3, r); bad != "" {
			t.Fatalf("seed %d: %s", seed, bad)
		}
		if !r.ProvedOptimal {
			t.Errorf("seed %d: %s", seed, r.Proof)
		}
	}
}

// Over the forty jobs in turn: the mean is not that of one easy job.
func BenchmarkJobSize(b *testing.B) {
	for i := 0; b.Loop(); i++ {
		pieces, stock := jobSize(uint64(i % 40))
		Plan(pieces, stock, 1.3)
	}
}

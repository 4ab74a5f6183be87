package graph

import "testing"

func TestSideBySide(t *testing.T) {
	for _, n := range []int{0, 1, 100} {
		out := make([]int, n)
		SideBySide(n, func(i int) { out[i] = i + 1 })
		for i, v := range out {
			if v != i+1 {
				t.Errorf("of %d: number %d gave %d", n, i, v)
			}
		}
	}
	defer func() {
		if r := recover(); r != "no" {
			t.Errorf("the panic of one came out as %v", r)
		}
	}()
	SideBySide(3, func(i int) {
		if i == 1 {
			panic("no")
		}
	})
}

package quantity

import (
	"testing"

	"dryfit/graph/agree"
)

// What is printed of two marks and of the length between them adds up, where each rounded by itself
// would not. Worked by hand: 616.6 and 158.5 mm are 617 and 159, and 617 + 159 = 776, where 775.1 by
// itself is 775; 15.1719 in is 15-3/16 and 15.7188 in is 15-3/4, together 30-15/16, where 30.8907 in
// by itself is 30-7/8.
func TestBeyond(t *testing.T) {
	for _, c := range []struct {
		first, behind float64
		system        System
		want, alone   string
	}{
		{616.6, 158.5, MetricSystem, "776 mm", "775 mm"},
		{15.1719 * 25.4, 15.7188 * 25.4, InchSystem, "2 ft 6-15/16 in", "2 ft 6-7/8 in"},
		{358.88, 366.94, MetricSystem, "726 mm", "726 mm"},
	} {
		if got := Format(Beyond(c.first, c.behind, c.system), Length, c.system); got != c.want {
			t.Errorf("%v behind %v: %s, want %s", c.behind, c.first, got, c.want)
		}
		if got := Format(c.first+c.behind, Length, c.system); got != c.alone {
			t.Errorf("%v by itself: %s, want %s", c.first+c.behind, got, c.alone)
		}
	}
}

// What a piece is left over adds up with it in both systems. By hand: 55.9 mm are 56 mm and 2.2008 in,
// 2-3/16 in; with 42 mm more 97.9 mm, 98 mm, and 3.8543 in, 3-7/8 in, but 42 mm are 1.6535 in, 1-5/8 in, and
// 2-3/16 + 1-5/8 = 3-13/16. With 42.1 mm, 98 mm = 56 + 42 still, 3.8583 in is 3-7/8, and 1.6575 in 1-11/16.
func TestAddsUp(t *testing.T) {
	if got := AddsUp(55.9, 42); !agree.Within(got, 42.1, 1e-9) {
		t.Errorf("%v mm over 55.9", got)
	}
	for first := 20.0; first < 120; first += 0.37 {
		for least := 5.0; least < 90; least += 7 {
			more := AddsUp(first, least)
			if !agree.Between(more, least, least+6.4) {
				t.Fatalf("%v behind %v: %v", least, first, more)
			}
			for _, s := range []System{MetricSystem, InchSystem} {
				sum, err := Parse(Format(first, Length, s), Length)
				part, err2 := Parse(Format(more, Length, s), Length)
				whole, err3 := Parse(Format(first+more, Length, s), Length)
				if err != nil || err2 != nil || err3 != nil || !agree.Within(sum.Value+part.Value, whole.Value, 1e-6) {
					t.Fatalf("%s + %s are not %s", Format(first, Length, s), Format(more, Length, s), Format(first+more, Length, s))
				}
			}
		}
	}
}

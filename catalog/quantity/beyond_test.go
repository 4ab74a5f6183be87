package quantity

import "testing"

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

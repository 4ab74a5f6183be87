package catalog

import "testing"

// A length of ten times the catalogue's, or a tenth, is asked about in a row over the catalogue's own and in a
// new one for the same pipe; what makers differ by is not, nor a short part that is somewhat longer, nor what
// the row leaves to the one below. Follows from the numbers.
func TestALengthFarFromTheUsualIsAskedAbout(t *testing.T) {
	inch := func(nominal string) Size {
		s, err := ParseSize(nominal, false)
		if err != nil {
			t.Fatal(err)
		}
		return s
	}
	over := func(r Row) Row { r.Own, r.Source = true, "measured"; return r }
	elbow, coupling := "elbow-90 pvc-sch40 2 in", "coupling pvc-sch40 2 in"
	of := func(name string) Row {
		r, ok := Embedded().Row(name)
		if !ok {
			t.Fatal(name)
		}
		return r
	}
	usual := of(elbow).TakeOffMM
	long := of(coupling).LengthMM
	if usual <= 0 || long <= 0 {
		t.Fatalf("nothing is usual: %v, %v", usual, long)
	}
	for _, c := range []struct {
		row Row
		key string // asked about; "" for nothing
	}{
		{Row{Kind: "elbow-90", Name: elbow, TakeOffMM: 10 * usual}, "take-off"},
		{Row{Kind: "elbow-90", Name: elbow, TakeOffMM: usual / 10}, "take-off"},
		{Row{Kind: "elbow-90", Name: elbow, TakeOffMM: 1.5 * usual}, ""},
		{Row{Kind: "elbow-90", Name: elbow, LoverD: 20}, ""},
		{Row{Kind: "elbow-90", Name: "long ell", Spec: "pvc-sch40", Size: inch("2 in"), Ends: "socket", SocketMM: 38, LoverD: 30, TakeOffMM: 10 * usual}, "take-off"},
		{Row{Kind: "elbow-90", Name: "short ell", Spec: "pvc-sch40", Size: inch("2 in"), Ends: "socket", SocketMM: 38, LoverD: 30, TakeOffMM: usual}, ""},
		{Row{Kind: "coupling", Name: coupling, LengthMM: long + 100}, ""},
		{Row{Kind: "coupling", Name: coupling, LengthMM: 10*long + 200}, "length"},
	} {
		problems := Check([]Row{over(c.row)})
		asked := len(problems) == 1 && problems[0].Key == c.key && problems[0].Hint != ""
		if c.key == "" && len(problems) > 0 || c.key != "" && !asked {
			t.Errorf("%s, take-off %v, length %v: %v", c.row.Name, c.row.TakeOffMM, c.row.LengthMM, problems)
		}
	}
}

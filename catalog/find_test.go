package catalog

import (
	"dryfit/catalog/data"
	"slices"
	"testing"
)

func TestFind(t *testing.T) {
	in := func(v float64) Size { return Size{Nominal: v} }
	mm := func(v float64) Size { return Size{true, v} }
	c := Embedded()
	for _, f := range []struct {
		name string
		row  func() (Row, bool)
		want string // "" for none
	}{
		{"pipe", func() (Row, bool) { return c.Pipe(PVCSch40, in(1.5)) }, "pipe pvc-sch40 1-1/2 in"},
		{"pipe of no size", func() (Row, bool) { return c.Pipe(PVCSch40, in(7)) }, ""},
		{"own fitting", func() (Row, bool) { return c.Fitting("elbow-90", PVCSch80, in(2)) }, "elbow-90 pvc-sch80 2 in"},
		{"fitting of any spec", func() (Row, bool) { return c.Fitting("elbow-90", PVCPN10, mm(50)) }, "elbow-90 50 mm"},
		{"fitting of the family", func() (Row, bool) { return c.Fitting("elbow-90", FlexInch, in(2)) }, "elbow-90 pvc-sch40 2 in"},
		{"no inch fitting on metric pipe", func() (Row, bool) { return c.Fitting("elbow-90", PVCPN10, in(2)) }, ""},
		{"plain ball valve", func() (Row, bool) { return c.Fitting("ball-valve", PVCSch40, in(2)) }, "ball-valve 2 in"},
		{"true-union ball valve", func() (Row, bool) { return c.Fitting("true-union-ball-valve", PVCSch40, in(2)) }, "true-union-ball-valve 2 in"},
		{"check valve is a spring check", func() (Row, bool) { return c.Fitting("check-valve", PVCSch40, in(2)) }, "spring-check 2 in"},
		{"swing check", func() (Row, bool) { return c.Fitting("swing-check", PVCSch40, in(2)) }, "swing-check 2 in"},
		{"a tee is no reducing tee", func() (Row, bool) { return c.Fitting("reducing-tee", PVCSch40, in(2)) }, ""},
		{"reducing tee", func() (Row, bool) { return c.Reducing("reducing-tee", PVCSch40, in(2), in(1.5)) }, "reducing-tee pvc-sch40 2 x 1-1/2 in"},
		{"bush", func() (Row, bool) { return c.Reducing("reducing-bush", PVCPN10, mm(63), mm(50)) }, "reducing-bush 63 x 50 mm"},
		{"bush of the family", func() (Row, bool) { return c.Reducing("reducing-bush", FlexInch, in(2), in(1)) }, "reducing-bush pvc-sch40 2 x 1 in"},
		{"step without a bush", func() (Row, bool) { return c.Reducing("reducing-bush", PVCSch40, in(3), in(0.5)) }, ""},
		{"bush the wrong way round", func() (Row, bool) { return c.Reducing("reducing-bush", PVCSch40, in(1), in(2)) }, ""},
		{"transition", func() (Row, bool) { return c.Transition(PVCSch80, in(1.5), PVCPN10, mm(50)) }, "transition pvc-sch40 1-1/2 in x 50 mm"},
		{"transition turned", func() (Row, bool) { return c.Transition(PVCPN16, mm(63), PVCSch40, in(2)) }, "transition pvc-sch40 2 in x 63 mm"},
		{"no such transition", func() (Row, bool) { return c.Transition(PVCPN16, mm(63), PVCSch40, in(1)) }, ""},
		{"barb", func() (Row, bool) { return c.Transition(HosePipe, mm(38), PVCSch40, in(1.5)) }, "barb pvc-sch40 1-1/2 in x 38 mm"},
		{"barb for a part", func() (Row, bool) { return c.Fitting("barb", PVCSch40, in(1)) }, "barb pvc-sch40 1 x 1 in"},
		{"generic pump", func() (Row, bool) { return c.Generic("pump") }, "two-speed-pump"},
		{"generic filter", func() (Row, bool) { return c.Generic("filter") }, "cartridge-filter"},
		{"sand filter", func() (Row, bool) { return c.Generic("sand-filter") }, "sand-filter"},
		{"generic unit", func() (Row, bool) { return c.Generic("heat-pump") }, "heat-pump 9 kW"},
		{"generic check", func() (Row, bool) { return c.Generic("check-valve") }, "spring-check 2 psi"},
		{"no generic pipe", func() (Row, bool) { return c.Generic("pipe") }, ""},
	} {
		r, ok := f.row()
		if ok != (f.want != "") || r.Name != f.want {
			t.Errorf("%s: %q, %v, want %q", f.name, r.Name, ok, f.want)
		}
	}
	for _, kind := range []string{"jet-group", "element-heater", "suction", "manifold", "diverter-valve", "feeder", "salt-cell", "ozone-injector", "blower", "air-control", "strainer", "flow-switch", "pressure-switch", "pressure-gauge", "uv-chamber", "heat-exchanger", "thermometer-pocket", "drain-valve", "air-bleed"} {
		if _, ok := c.Generic(kind); !ok {
			t.Errorf("no generic %s", kind)
		}
	}
}

func TestNearestRow(t *testing.T) {
	c := Embedded()
	if got := c.Nearest("spring-chek 2 psi"); got != "spring-check 2 psi" {
		t.Errorf("nearest is %q", got)
	}
	if got := c.Nearest("quantum flange"); got != "" {
		t.Errorf("nearest is %q", got)
	}
	if k := c.Kinds(); !slices.IsSorted(k) || !slices.Contains(k, "pipe") || !slices.Contains(k, "check-valve") {
		t.Errorf("kinds: %v", k)
	}
}

func TestPipeSizesRise(t *testing.T) {
	sizes := Embedded().PipeSizes(PVCSch40)
	if len(sizes) != 8 || sizes[0].String() != "1/2 in" || sizes[7].String() != "3 in" {
		t.Errorf("sizes: %v", sizes)
	}
}

func TestParseSize(t *testing.T) {
	for text, want := range map[string]string{
		"1-1/2 in": "1-1/2 in", "1 1/2 in": "1-1/2 in", "1.5 in": "1-1/2 in", "2in": "2 in", "50 mm": "50 mm", "5 cm": "50 mm", "3/4 in": "3/4 in",
	} {
		size, err := ParseSize(text, false)
		if err != nil || size.String() != want {
			t.Errorf("ParseSize(%q) = %s, %v", text, size, err)
		}
	}
	if a, _ := ParseSize("1.5 in", false); a != (Size{Nominal: 1.5}) {
		t.Errorf("1.5 in is %v", a)
	}
	for _, text := range []string{"", "2", "-2 in", "0 mm", "2 ft", "1 m", "900 mm", "two in", "1 3/7 in", "2.38 in", "1.9 in"} {
		if size, err := ParseSize(text, true); err == nil {
			t.Errorf("ParseSize(%q) = %s", text, size)
		}
	}
	for _, s := range Specs() {
		if s.Family() == "" || !s.IsKnown() {
			t.Errorf("%s has no family", s)
		}
	}
	if Spec("copper").Family() != "" || Spec("copper").IsKnown() {
		t.Error("copper has a family")
	}
}

func BenchmarkLoad(b *testing.B) {
	for b.Loop() {
		rows, _ := load(data.Files)
		newCatalog(rows)
	}
}

// A hose that nothing is pushed on can be described and not fitted: each smooth one has a barb. Its
// bore is the catalogue's assumption, and no wider than the hose.
func TestEveryHoseHasABarb(t *testing.T) {
	c := Embedded()
	for _, pipe := range c.Rows() {
		if pipe.Kind != "pipe" || pipe.Spec != HosePipe {
			continue
		}
		found := false
		for _, row := range c.Rows() {
			if row.Kind != "barb" || row.Spec2 != HosePipe || row.Size2 != pipe.Size {
				continue
			}
			found = true
			if row.BoreMM <= 0 || row.BoreMM >= pipe.BoreMM {
				t.Errorf("%s: bore %v mm in hose of %v mm", row.Name, row.BoreMM, pipe.BoreMM)
			}
		}
		if !found {
			t.Errorf("%s has no barb", pipe.Name)
		}
	}
}

// Of pipe of one spec and size the user's row goes first, the first of several; the catalogue's where he
// has none, and none where there is none.
func TestPipeIsTheUsersFirst(t *testing.T) {
	c := Embedded()
	two := Size{Nominal: 2}
	plain, ok := c.Pipe("pvc-sch40", two)
	if !ok || plain.Own {
		t.Fatalf("the catalogue's own: %v, %t", plain.Name, ok)
	}
	own := func(name string, spec Spec) Row { return Row{Name: name, Kind: "pipe", Spec: spec, Size: two} }
	with := c.With([]Row{own("mine", "pvc-sch40"), own("another", "pvc-sch40"), own("other", "pvc-sch80")})
	if r, _ := with.Pipe("pvc-sch40", two); r.Name != "mine" {
		t.Errorf("%q, not the user's first", r.Name)
	}
	if r, _ := with.Pipe("pvc-sch40", Size{Nominal: 1.5}); r.Own || r.Name == "" {
		t.Errorf("in another size %q", r.Name)
	}
	if r, ok := c.Pipe("pvc-sch40", Size{Nominal: 2, Metric: true}); ok {
		t.Errorf("a metric size of an inch spec: %q", r.Name)
	}
}

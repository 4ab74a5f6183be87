package pack

import (
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph/description"
	"dryfit/graph/plan"
	"dryfit/render/pack/planfile"
	"dryfit/render/table/form"
)

// A leg of the pipe to the unit is 40 mm longer, so the piece in it is, by hand; everything
// else of pieces and marks stays, and the other revision is named.
func TestWhatHasChanged(t *testing.T) {
	style := form.Style{Units: quantity.MetricSystem}
	source := string(readDemo(t, "two-speed"))
	data, err := planfile.JSON(demoPlan(t, "two-speed"), style)
	if err != nil {
		t.Fatal(err)
	}
	was, err := planfile.Read(data)
	if err != nil {
		t.Fatal(err)
	}
	longer := strings.NewReplacer(`"down 260 mm", "right 2300 mm"`, `"down 300 mm", "right 2300 mm"`, `"up 160 mm", "back 460 mm"`, `"up 200 mm", "back 460 mm"`,
		`reference = "demo-two-speed"`, "reference = \"demo-two-speed\"\nrevision = \"B\"").Replace(source)
	c := planfile.Changed(wanted(t, "two-speed.toml", []byte(longer), plan.Findings|plan.Flows|plan.Lists), was, style)
	said := ""
	for _, it := range c.Items {
		said += it.Text + "\n" + strings.Join(it.Lines, "\n") + "\n"
	}
	for _, want := range []string{"revision B", "Piece 6 is 249 mm long, was 209 mm.", "Piece 12 is 149 mm long, was 109 mm."} {
		if !strings.Contains(said, want) {
			t.Errorf("nothing is said of %q:\n%s", want, said)
		}
	}
	for _, no := range []string{"Piece 5 ", "Cuts X1", "joints are others", "is new", "no more"} {
		if strings.Contains(said, no) {
			t.Errorf("%q is said:\n%s", no, said)
		}
	}
	same := planfile.Changed(demoPlan(t, "two-speed"), was, style)
	if n := len(same.Items); n == 0 || !strings.HasPrefix(same.Items[n-1].Lines[0], "Nothing of the pieces") {
		t.Errorf("the same pack: %+v", same.Items)
	}
	for _, bad := range []string{"", "[]", `{"format":"x"}`, `{"format":"dryfit-plan-1","cuts":7}`} {
		if _, err := planfile.Read([]byte(bad)); err == nil {
			t.Errorf("%q is read", bad)
		}
	}
}

// The work that a plan writes out has the plan's own marks: what was cut elsewhere is told of it, and
// nothing where nothing was. The first line lies at 430.32 mm and the second 265.25 mm behind it: 430
// and 265 are 695, and so it is told, as on the saw bands.
func TestMarksOfDrawnWork(t *testing.T) {
	style := form.Style{Units: quantity.MetricSystem}
	planned := demoPlan(t, "circulation")
	data, err := planfile.JSON(planned, style)
	if err != nil {
		t.Fatal(err)
	}
	was, err := planfile.Read(data)
	if err != nil {
		t.Fatal(err)
	}
	drawn := string(description.Write(planned.Circuit))
	moved := strings.NewReplacer("right 462.4625 mm", "right 470 mm", "right 457.2125 mm", "right 449.675 mm").Replace(drawn)
	if moved == drawn {
		t.Fatalf("the legs at the cut are others:\n%s", drawn)
	}
	for source, want := range map[string]string{drawn: "", moved: "Cuts X1 and X2: at 430 mm and 695 mm, before at 423 mm and 688 mm."} {
		said := wordsOf(planfile.Changed(wanted(t, "drawn.toml", []byte(source), plan.Findings|plan.Flows|plan.Lists), was, style))
		if want == "" && strings.Contains(said, "Cuts X1") || !strings.Contains(said, want) {
			t.Errorf("want %q said of the cuts:\n%s", want, said)
		}
	}
}

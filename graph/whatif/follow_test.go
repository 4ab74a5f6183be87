package whatif

import (
	"math"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph/agree"
	"dryfit/graph/plan"
)

// The scale of the spring stands at the spring that is picked, as it does once that is put into
// the file, and can stand at each; where the bypass has none it stands nowhere.
func TestScaleFollowsWhatIsPicked(t *testing.T) {
	s := demo(t, "two-speed")
	crack := s.Control("crack-bypass")
	if crack == nil || crack.Of != bypassID {
		t.Fatalf("the spring is turned by %+v", crack)
	}
	picked := 0
	for _, ch := range s.Control(bypassID).Choices {
		v := Values{bypassID: ch.Value}
		a, err := s.Ask(v, plan.Flows)
		if err != nil || a.Plan == nil {
			t.Fatal(ch.Label, err)
		}
		got, other := s.Following(a, v)[crack.ID]
		put := Of(a.Job, a.Plan).Control(crack.ID)
		switch name, isSpring := strings.CutPrefix(ch.Value, "spring "); {
		case isSpring:
			picked++
			if put == nil {
				t.Fatalf("%s: no spring is turned once it is in the file", name)
			}
			if !other {
				got = crack.Now
			}
			if !agree.Within(got, put.Now, 0) || got < crack.Low || got > crack.High {
				t.Errorf("%s: stands at %g, put into the file at %g; it goes from %g to %g", name, got, put.Now, crack.Low, crack.High)
			}
		case ch.Value == "valve" || ch.Value == "none":
			if !other || !math.IsNaN(got) || put != nil {
				t.Errorf("%s: a spring stands at %g", ch.Label, got)
			}
		}
	}
	if picked < 3 {
		t.Errorf("%d springs were picked", picked)
	}
}

// With another spring picked the scale can be turned to where the file has it, and is heard; what
// is turned itself does not follow.
func TestScaleIsTurnedBack(t *testing.T) {
	s := demo(t, "two-speed")
	crack := s.Control("crack-bypass")
	springs := s.Plan.Asked.Catalog.Springs()
	softest := springs[0]
	if quantity.Round(softest.CrackingPa/1000, 3) >= crack.Now {
		t.Fatalf("the demo has the softest spring, %g kPa", crack.Now)
	}
	v := Values{bypassID: "spring " + softest.Name, crack.ID: quantity.Trim(crack.Now)}
	a, err := s.Ask(v, plan.Flows)
	if err != nil || a.Plan == nil {
		t.Fatal(err)
	}
	if got := crack.standsAt(a.Plan.After.Layout.Stage); !agree.Within(got, crack.Now, 1e-9) {
		t.Errorf("turned to %g, it stands at %g", crack.Now, got)
	}
	if got, ok := s.Following(a, v)[crack.ID]; ok {
		t.Errorf("what is turned itself follows to %g", got)
	}
	if _, only, err := s.Text(v); err != nil || len(only) != 1 {
		t.Errorf("only tried: %q, %v", only, err)
	}
}

// A valve the tool sets stands where it would set it with something else turned.
func TestSetValveFollows(t *testing.T) {
	text, _, err := demo(t, "two-speed").Text(Values{bypassID: "valve"})
	if err != nil {
		t.Fatal(err)
	}
	s := studyOf(t, string(text))
	valve := s.Control("valve-bypass")
	if valve == nil || valve.Of != bypassID {
		t.Fatalf("the valve of the bypass is turned by %+v", valve)
	}
	v := Values{"drop-unit": quantity.Trim(s.Control("drop-unit").High)}
	a, err := s.Ask(v, plan.Flows)
	if err != nil || a.Plan == nil {
		t.Fatal(err)
	}
	got, ok := s.Following(a, v)[valve.ID]
	want := Of(a.Job, a.Plan).Control(valve.ID)
	if !ok || want == nil || !agree.Within(got, want.Now, 0) || agree.Within(got, valve.Now, 0.1) {
		t.Errorf("it follows from %g to %g (%v), and is set to %+v", valve.Now, got, ok, want)
	}
}

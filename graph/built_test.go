package graph

import "testing"

// Old pipe is printed ABS or is not read; what was put in beside it is PVC-U and says so once it is
// there, hose does not, and in a cabinet of PVC-U nothing has to be said. What stood before keeps
// what it said.
func TestBuiltPipeSaysWhatItIs(t *testing.T) {
	for _, c := range []struct{ old, want string }{{"abs", "pvc-u"}, {"", "pvc-u"}, {"pvc-u", ""}} {
		circuit := &Circuit{
			Pipe:  PipeDefault{Material: c.old},
			Parts: []*Part{{ID: "a", Existing: true}, {ID: "b"}},
			Runs: []*Run{
				{ID: "old", From: PortRef{Part: "a"}, To: PortRef{Part: "a"}, Spec: "pvc-sch40", Existing: true},
				{ID: "new", From: PortRef{Part: "a"}, To: PortRef{Part: "b"}, Spec: "pvc-sch40"},
				{ID: "soft", From: PortRef{Part: "a"}, To: PortRef{Part: "b"}, Spec: "hose"},
			},
		}
		for i, want := range []string{"", c.want, ""} {
			if r := circuit.Built().Runs[i]; r.Material != want {
				t.Errorf("old pipe %q: run %s says %q, want %q", c.old, r.ID, r.Material, want)
			}
		}
	}
}

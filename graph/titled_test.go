package graph

import "testing"

// What nobody named is headed by the file it is described in: no paper is without a title.
func TestTitled(t *testing.T) {
	for _, c := range []struct{ file, name, want string }{
		{"jobs/swim-spa.toml", "", "swim-spa"}, {`C:\jobs\swim spa.v2.toml`, "", "swim spa.v2"}, {"jobs/swim-spa.toml", "Long tub", "Long tub"}, {"", "", ""}, {"<stdin>", "", ""},
	} {
		circuit := Circuit{File: c.file, Job: Job{Name: c.name, Reference: "R-1"}}
		if got := circuit.Titled(); got.Name != c.want || got.Reference != "R-1" || circuit.Job.Name != c.name {
			t.Errorf("%q in %s is headed %q, not %q", c.name, c.file, got.Name, c.want)
		}
	}
}

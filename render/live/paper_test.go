package live

import (
	"strings"
	"testing"

	"dryfit/graph/whatif"
)

// The page says the command that makes the pack of the same job, as a shell reads it.
func TestPageSaysHowThePackIsMade(t *testing.T) {
	for _, c := range []struct {
		job  whatif.Job
		want string // "": nothing is said
	}{
		{whatif.Job{File: "job.toml"}, "dryfit pack -o pack job.toml"},
		{whatif.Job{File: "jobs/müller 2.toml"}, `dryfit pack -o pack &#34;jobs/müller 2.toml&#34;`},
		{whatif.Job{File: "job.toml", Units: "inch", Catalogs: []whatif.File{{Name: "my rows.csv"}, {Name: "b.toml"}}}, `dryfit pack -o pack --units inch --catalog &#34;my rows.csv&#34; --catalog b.toml job.toml`},
		{whatif.Job{File: "$(rm x).toml"}, ""},
		{whatif.Job{File: "-x.toml"}, ""},
	} {
		got := paperHTML(&c.job)
		_, said, _ := strings.Cut(got, "<kbd>")
		said, _, _ = strings.Cut(said, "</kbd>")
		if said != c.want || (c.want == "") != (got == "") {
			t.Errorf("%s: %s, want %s", c.job.File, got, c.want)
		}
	}
}

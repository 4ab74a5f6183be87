package retrofit

import (
	"os"
	"strings"
	"testing"

	"dryfit/graph/description"
)

// How long the way to the unit is decides the size of its pipes, whether its legs are written or only
// where it stands: 10 m is carried by 1-1/2 in, more by 2 in (catalog.UsualBranch). By hand: 6.1 m
// across and 3.9 m down are 10 m of pipe at right angles, though 7.2 m as the crow flies.
func TestBranchIsSizedByTheWayAsTold(t *testing.T) {
	data, err := os.ReadFile("../../testdata/two-speed.toml")
	if err != nil {
		t.Fatal(err)
	}
	const legs = "to-unit = [\"front 300 mm\", \"down 260 mm\", \"right 2300 mm\"]\nfrom-unit = [\"left ?\", \"up 160 mm\", \"back 460 mm\"]"
	stand := func(at string) string {
		return "at = [" + at + "]\nat-from = \"element.out\"\nports-face = \"left\""
	}
	for _, x := range []struct {
		put  string
		want string
	}{
		{strings.Replace(legs, "2300 mm", "9400 mm", 1), "1-1/2 in"},
		{strings.Replace(legs, "2300 mm", "9500 mm", 1), "2 in"},
		{stand(`"right 6100 mm", "down 3900 mm"`), "1-1/2 in"},
		{stand(`"right 6100 mm", "down 3901 mm"`), "2 in"},
	} {
		text := strings.Replace(string(data), legs, x.put, 1)
		if text == string(data) {
			t.Fatal("the legs of the demo read otherwise")
		}
		c, ds := description.Read("job.toml", []byte(text))
		if c == nil {
			t.Fatal(ds)
		}
		if got := newWork(c, c.Run("return-line"), stops{}).branchSize.String(); got != x.want {
			t.Errorf("%s: pipes of %s, want %s", x.put, got, x.want)
		}
	}
}

package disk

import (
	"os"
	"path/filepath"
	"testing"
)

// One file has many names: through "." and "..", by a link to it or to its folder, and, before it is
// there, in other case where a disk doesn't tell cases apart.
func TestOneFile(t *testing.T) {
	dir := t.TempDir()
	t.Chdir(dir)
	for _, err := range []error{os.Mkdir("sub", 0o777), os.Symlink("sub", "linked"), os.WriteFile("there", nil, 0o666), os.WriteFile("other", nil, 0o666),
		os.Symlink("there", "link"), os.Symlink("sub/to-come", "ahead")} {
		if err != nil {
			t.Fatal(err)
		}
	}
	for _, c := range []struct {
		a, b string
		want bool
	}{
		{"plan.toml", "./plan.toml", true},
		{"plan.toml", filepath.Join(dir, "sub", "..", "plan.toml"), true},
		{"sub/plan.toml", "linked/plan.toml", true},
		{"plan.toml", "Plan.TOML", true},
		{"link", "there", true},
		{"ahead", "sub/to-come", true},
		{"plan.toml", "sub/plan.toml", false},
		{"there", "other", false},
		{"plan.toml", "plan.txt", false},
	} {
		if OneFile(c.a, c.b) != c.want || OneFile(c.b, c.a) != c.want {
			t.Errorf("%s and %s: one file should be %v", c.a, c.b, c.want)
		}
	}
}

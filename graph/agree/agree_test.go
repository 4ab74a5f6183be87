package agree

import (
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

func TestWithin(t *testing.T) {
	nan := math.NaN()
	for _, c := range []struct {
		got, want, tolerance float64
		yes                  bool
	}{
		{1, 1, 0, true}, {1, 1.01, 0.02, true}, {1.03, 1, 0.02, false}, {-1, 1, 1, false},
		{nan, 1, 10, false}, {1, nan, 10, false}, {1, 1, nan, false}, {nan, nan, 1, false}, {math.Inf(1), 1, 10, false},
	} {
		if got := Within(c.got, c.want, c.tolerance); got != c.yes {
			t.Errorf("Within(%g, %g, %g) is %t", c.got, c.want, c.tolerance, got)
		}
	}
}

func TestBetween(t *testing.T) {
	nan := math.NaN()
	for _, c := range []struct {
		got, low, high float64
		yes            bool
	}{{1, 1, 1, true}, {1.5, 1, 2, true}, {0.9, 1, 2, false}, {2.1, 1, 2, false}, {nan, 1, 2, false}, {1, nan, 2, false}, {1, 0, nan, false}} {
		if got := Between(c.got, c.low, c.high); got != c.yes {
			t.Errorf("Between(%g, %g, %g) is %t", c.got, c.low, c.high, got)
		}
	}
}

// No test of the house says "too far off" in a way that is false of NaN.
func TestNobodyComparesByHand(t *testing.T) {
	byHand := regexp.MustCompile(`math\.Abs\(.*\)\s*>`)
	outside := regexp.MustCompile(`([\w.\[\]]+) < ([^|&]+) \|\| ([\w.\[\]]+) > ([^|&{]+)`)
	fraction := regexp.MustCompile(`\d\.\d|\de-\d`)
	err := filepath.WalkDir("../..", func(path string, d os.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, "_test.go") || strings.HasSuffix(path, "agree_test.go") {
			return err
		}
		text, err := os.ReadFile(path)
		for i, line := range strings.Split(string(text), "\n") {
			code, _, _ := strings.Cut(line, "//")
			if strings.HasSuffix(strings.TrimSpace(line), "// apart on purpose") {
				continue
			}
			if byHand.MatchString(code) {
				t.Errorf("%s:%d: %s: write !agree.Within(got, want, tolerance), which fails on NaN", path, i+1, strings.TrimSpace(line))
			}
			if m := outside.FindStringSubmatch(code); m != nil && m[1] == m[3] && fraction.MatchString(m[2]+m[4]) {
				t.Errorf("%s:%d: %s: write !agree.Between(got, low, high), which fails on NaN", path, i+1, strings.TrimSpace(line))
			}
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
}

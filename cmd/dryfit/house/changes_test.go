package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// The small changes that .ci/mutate makes can still be made: each names a line that stands once in
// its file, and there are forty drawn by lot and thirty-one chosen, five at least in each of six rooms.
func TestChangesStand(t *testing.T) {
	data, err := os.ReadFile(filepath.Join(root, "testdata/changes.txt"))
	if err != nil {
		t.Fatal(err)
	}
	rooms, all := map[string]int{}, 0
	for _, block := range strings.Split(strings.TrimSpace(string(data)), "\n\n") {
		lines := strings.Split(block, "\n")
		if strings.HasPrefix(lines[0], "#") {
			continue
		}
		if n := len(lines); n < 4 || n > 5 || lines[2][:2] != "- " || lines[3][:2] != "+ " || n == 5 && lines[4][:2] != "? " {
			t.Errorf("not a change:\n%s", block)
			continue
		}
		file, old := lines[0], lines[2][2:]
		source, err := os.ReadFile(filepath.Join(root, file))
		if err != nil {
			t.Error(err)
			continue
		}
		found := 0
		for _, l := range strings.Split(string(source), "\n") {
			if strings.TrimSpace(l) == old {
				found++
			}
		}
		if found != 1 {
			t.Errorf("%s has %d lines %q: name another in testdata/changes.txt", file, found, old)
		}
		for _, p := range strings.Fields(lines[1]) {
			if tests, _ := filepath.Glob(filepath.Join(root, p, "*_test.go")); len(tests) == 0 {
				t.Errorf("%s: no tests in %s", file, p)
			}
		}
		if old == lines[3][2:] {
			t.Errorf("%s: %q is not changed", file, old)
		}
		rooms[strings.Split(file, "/")[1]]++
		all++
	}
	if all != 71 {
		t.Errorf("%d changes, want forty drawn and thirty-one chosen", all)
	}
	for _, room := range []string{"plan", "route", "retrofit", "rule", "hydraulic", "takeoff"} {
		if rooms[room] < 5 {
			t.Errorf("%d changes in %s", rooms[room], room)
		}
	}
}

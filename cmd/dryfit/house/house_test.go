package main

import (
	"bytes"
	"os"
	"slices"
	"testing"
)

// Every package stands on a floor, and every arrow leads down.
func TestNoArrowUp(t *testing.T) {
	all, err := imports(root)
	if err != nil {
		t.Fatal(err)
	}
	floor := map[string]int{}
	for f, names := range floors {
		for _, name := range names {
			if _, twice := floor[name]; twice {
				t.Errorf("%s stands on two floors", name)
			}
			floor[name] = f
			if _, ok := all[name]; !ok {
				t.Errorf("there is no package %s: take it out of floors.go", name)
			}
		}
	}
	for p, list := range all {
		from, ok := floor[p]
		if !ok && !slices.Contains(forTests, p) {
			t.Errorf("%s stands on no floor: give it one in floors.go", p)
			continue
		}
		for _, q := range list {
			to, ok := floor[q]
			switch {
			case slices.Contains(forTests, p) && (ok || slices.Contains(forTests, q)):
			case !ok:
				t.Errorf("%s imports %s, which is for tests or stands on no floor", p, q)
			case to <= from:
				t.Errorf("%s on floor %d imports %s on floor %d: imports lead down", p, from+1, q, to+1)
			}
		}
	}
}

// What is needed leads everywhere, and nothing of it leads where the rest leads too.
func TestNeeded(t *testing.T) {
	got := needed(map[string][]string{"a": {"b", "c", "d"}, "b": {"c"}, "c": nil, "d": {"c"}})
	if want := []string{"b", "d"}; !slices.Equal(got["a"], want) || !slices.Equal(got["b"], []string{"c"}) || len(got["c"]) > 0 {
		t.Errorf("got %v, want a to %v, b to c", got, want)
	}
}

func TestPictureIsCurrent(t *testing.T) {
	now, err := house()
	if err != nil {
		t.Fatal(err)
	}
	kept, err := os.ReadFile(picture)
	if err != nil || !bytes.Equal(now, kept) {
		t.Errorf("%s is old: go generate ./cmd/dryfit/house (%v)", picture, err)
	}
}

package lists

import (
	"testing"

	"dryfit/graph/takeoff"
)

// Spares are sorted by what they are for, each once; what is no spare is not there.
func TestSparesByWhatTheyAreFor(t *testing.T) {
	items := []takeoff.Item{
		{Name: "O-ring for a union", Kind: "o-ring", Size: "2 in", Spare: 3, Unit: "pc", New: true},
		{Name: "elbow 90", Kind: "elbow-90", Size: "2 in", Quantity: 4, Spare: 1, Unit: "pc", New: true},
		{Name: "tee", Kind: "tee", Size: "2 in", Quantity: 4, Unit: "pc", New: true},
		{Name: "something", Kind: "something", Spare: 2, Unit: "pc", New: true},
		{Name: "slip coupling", Kind: "slip-coupling", Size: "2 in", Spare: 2, Unit: "pc", New: true},
		{Name: "coupling", Kind: "coupling", Size: "2 in", Spare: 4, Unit: "pc", New: true},
		{Name: "old elbow", Kind: "elbow-90", Size: "2 in", Spare: 1, Unit: "pc"},
	}
	got := sparesBlock(items).Grid.Rows
	want := [][]string{
		{"a cut through old pipe that goes wrong", "2 pc", "slip coupling", "2 in"}, {"", "4 pc", "coupling", "2 in"},
		{"a joint of the new work that goes wrong", "1 pc", "elbow 90", "2 in"}, {"a union that weeps", "3 pc", "O-ring for a union", "2 in"},
		{"the rest", "2 pc", "something", ""},
	}
	if len(got) != len(want) {
		t.Fatalf("%q", got)
	}
	for i, row := range want {
		for k, cell := range row {
			if got[i][k] != cell {
				t.Errorf("row %d: %q, want %q", i, got[i], row)
				break
			}
		}
	}
	if sparesBlock(items[2:3]).Grid != nil {
		t.Error("spares where there are none")
	}
}

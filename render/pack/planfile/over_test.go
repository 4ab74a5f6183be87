package planfile

import (
	"strings"
	"testing"

	"dryfit/catalog/quantity"
)

// What is left on a piece until it is fitted is sawn with it: more or less of it is a change.
func TestPieceOverLengthHasChanged(t *testing.T) {
	was, now := &Earlier{}, &Earlier{}
	was.pieces = []earlierPiece{{Piece: 1, Cut: 72}, {Piece: 2, Cut: 72, Over: 52}}
	now.pieces = []earlierPiece{{Piece: 1, Cut: 72, Over: 30}, {Piece: 2, Cut: 72, Over: 52}}
	got := strings.Join(changedPieces(was, now, quantity.MetricSystem), "\n")
	if got != "Piece 1 is sawn 102 mm long, was 72 mm." {
		t.Errorf("%q", got)
	}
}

package pack

import (
	"testing"

	"dryfit/graph/route"
)

// Of the joints of the bench those of a piece that waits for the unit to stand are none that is made days before.
func TestWaitingJointsAreNotMadeBefore(t *testing.T) {
	a := &route.Assembly{Steps: []route.Step{
		{Phase: route.Bench, Joints: []int{1, 2}}, {Phase: route.Bench, Joints: []int{3, 4}}, {Phase: route.InLine, Joints: []int{5}}}}
	piece := func(onSite bool, from, to int) (p route.Piece) {
		p.OnSite, p.From.Joint, p.To.Joint = onSite, from, to
		return p
	}
	for _, c := range []struct {
		pieces []route.Piece
		want   int
	}{
		{[]route.Piece{piece(false, 1, 2), piece(false, 3, 4)}, 4},
		{[]route.Piece{piece(false, 1, 2), piece(true, 3, 4)}, 2},
		{[]route.Piece{piece(false, 1, 2), piece(true, 4, 5)}, 3},
	} {
		if got := daysBefore(a, c.pieces); got != c.want {
			t.Errorf("%d joints days before, want %d", got, c.want)
		}
	}
	if got := daysBefore(nil, nil); got != 0 {
		t.Errorf("%d joints without an order", got)
	}
}

package plan_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
)

// A piece that is left long to be fitted is sawn so much longer, comes out of a bar it is not
// the whole of, and is fitted when everything else of its loop stands but the union nuts: read
// from the joints and the bars, not from what the order says of itself.
func TestOverLength(t *testing.T) {
	seen := 0
	for _, name := range demos {
		p := work(t, readFile(t, "../../testdata/"+name+".toml"), everything)
		lay := p.After.Layout
		for _, loop := range p.Tolerances.Loops {
			if loop.LastPiece == 0 {
				continue
			}
			seen++
			piece := &lay.Pieces[loop.LastPiece-1]
			if want := quantity.AddsUp(piece.CutMM, loop.LeaveMM); piece.OverMM != want || want < loop.WorstMM || want >= loop.WorstMM+3 {
				t.Errorf("%s: piece %d is left %.1f mm long, the loop is off by %.1f at worst", name, piece.Number, piece.OverMM, loop.WorstMM)
			}
			own := []int{piece.From.Joint, piece.To.Joint}
			if piece.FitJoint != slices.Max(own) {
				t.Errorf("%s: fitted at joint %d, its joints are %v", name, piece.FitJoint, own)
			}
			for _, n := range loop.Loop.Joints {
				j := lay.Joints[n-1]
				if !slices.Contains(own, n) && !j.Nut && n > slices.Min(own) {
					t.Errorf("%s: joint %d (%s, %s) of the loop comes after the piece that is fitted last", name, n, j.A, j.B)
				}
			}
			sawn := false
			for _, stock := range p.Cuts.Plans {
				for _, bar := range stock.Bars {
					if !slices.Contains(bar.Pieces, piece.Number) {
						continue
					}
					sawn = true
					sum := bar.OffcutMM
					for _, n := range bar.Pieces {
						sum += lay.Pieces[n-1].CutMM + lay.Pieces[n-1].OverMM
					}
					if sum > bar.StockMM+0.01 || piece.CutMM+piece.OverMM >= bar.StockMM {
						t.Errorf("%s: piece %d and the others take %.1f of a bar of %.1f mm", name, piece.Number, sum, bar.StockMM)
					}
				}
			}
			words := fmt.Sprintf("cut piece %d to %.0f mm: %.0f mm over its %.0f mm; fit it at joint %d, last", piece.Number, piece.CutMM+piece.OverMM, piece.OverMM, piece.CutMM, piece.FitJoint)
			said := 0
			for _, d := range p.Findings {
				if d.Rule == "tolerance" && strings.HasSuffix(d.Hint.String(), words+" before those nuts") &&
					strings.Contains(d.Message.String(), "the loop that the union nuts of ") {
					said++
				}
			}
			step := p.Assembly.Steps[lay.Joints[piece.FitJoint-1].Step-1].Text
			if !sawn || said == 0 || !strings.Contains(step, fmt.Sprintf("hold piece %d, cut over length", piece.Number)) {
				t.Errorf("%s: sawn %t, said %d times (%s), step %q", name, sawn, said, words, step)
			}
		}
	}
	if seen < 3 {
		t.Errorf("%d pieces over length in the demos: too few to prove anything", seen)
	}
}

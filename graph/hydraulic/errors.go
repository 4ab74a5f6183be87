package hydraulic

import (
	"fmt"

	"dryfit/catalog/quantity"
)

// ConvergenceError says that no flows were found that close, and where they fail to.
type ConvergenceError struct {
	Iterations int
	Residual   float64 // m, largest imbalance of head
	Mass       float64 // m³/s, largest imbalance of flow
	Where      string  // id of the part or run where it is; "" not known
	Why        string
}

func (e *ConvergenceError) Error() string {
	where := ""
	if e.Where != "" {
		where = " at " + e.Where
	}
	return fmt.Sprintf("the flows do not converge: %s%s; after %d steps heads are off by %.3g m and flows by %.3g m³/s",
		e.Why, where, e.Iterations, e.Residual, e.Mass)
}

// BeyondCurveError says that a pump would run past the last point of its curve, where
// nothing is known of it.
type BeyondCurveError struct {
	Pump  string
	Speed string
	Flow  float64 // m³/s, where a straight line on from the curve would take it
	Last  float64 // m³/s, the curve's last point
}

// Text words the error, its flows in the units that are asked for.
func (e *BeyondCurveError) Text() quantity.Text {
	return quantity.Say("the pump %q at %q would run at about %s, past the last point of its curve at %s",
		e.Pump, e.Speed, quantity.Flow.Of(e.Flow), quantity.Flow.Of(e.Last))
}

// Hint says what would give an answer.
func (e *BeyondCurveError) Hint() quantity.Text {
	return quantity.Say("write more points of the curve of %q, from its sheet or read at the tub, beyond %s; where its sheet ends there, look for a loss in its line that the description leaves out", e.Pump, quantity.Flow.Of(e.Flow))
}

func (e *BeyondCurveError) Error() string { return e.Text().String() }

// InputError says what a circuit lacks to be solved.
type InputError struct {
	ID  string // part or run
	Why string
}

func (e *InputError) Error() string { return fmt.Sprintf("%q %s", e.ID, e.Why) }

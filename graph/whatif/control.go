package whatif

import (
	"fmt"
	"math"
	"strconv"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/retrofit"
	"dryfit/graph/settle"
)

// Control is something that may be turned: a choice of words, or a scale. Its value is text:
// the word, or a number in Unit.
type Control struct {
	ID                   string
	Group, Label         string
	Unit                 string
	Choices              []Choice         // empty: a scale
	Low, High, Step, Now float64          // of a scale, in Unit
	InFile               bool             // keys of the file say it; else it can only be tried
	Legs                 []retrofit.Place // of the place of the cut: the straights it may lie in, each with the best place there

	Of string // the control that chooses what this one turns; "": none

	follows  func(set *settle.Stage) (now float64, there bool) // of a scale of what the tool settles: where it stands in a stage; nil: where the file has it
	stands   *graph.Cut                                        // what the file says of the cut; nil where it leaves it open
	with     string                                            // controls of the same word are made edits of together
	together func(v Values) []edit                             // with all that is turned; nil: each by itself
	edits    func(value string) ([]edit, error)                // none where the value is the one that stands
}

// Choice is one word that can be chosen.
type Choice struct{ Value, Label string }

// AsItStands is the value of a choice that changes nothing.
const AsItStands = ""

// check reports a value that the control can't have, and whether it is the one that stands.
func (c *Control) check(value string) (stands bool, err error) {
	if len(c.Choices) > 0 {
		for _, ch := range c.Choices {
			if ch.Value == value {
				return value == AsItStands, nil
			}
		}
		return false, fmt.Errorf("%s can't be %q", c.Label, value)
	}
	if len(c.Legs) > 0 {
		cut, err := c.cut(value)
		return err == nil && c.stands != nil && cut.Run == c.stands.Run && cut.Leg == c.stands.Leg && cut.AtMM == c.stands.AtMM, err
	}
	x, err := strconv.ParseFloat(value, 64)
	if err != nil || math.IsNaN(x) || x < c.Low-1e-9 || x > c.High+1e-9 {
		return false, fmt.Errorf("%s can be %s to %s", c.Label, quantity.Trim(c.Low), quantity.Trim(c.High))
	}
	return math.Abs(x-c.Now) < 1e-9, nil
}

// scale makes a control of a number.
func scale(c Control, set func(x float64) []edit) Control {
	c.Now = quantity.Round(c.Now, 6)
	c.Low, c.High = math.Min(c.Low, c.Now), math.Max(c.High, c.Now)
	c.edits = func(value string) ([]edit, error) {
		x, err := strconv.ParseFloat(value, 64)
		if err != nil {
			return nil, err
		}
		return set(x), nil
	}
	return c
}

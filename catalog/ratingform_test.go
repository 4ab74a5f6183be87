package catalog

import (
	"reflect"
	"testing"
)

// A point of a heat pump's table is read as four values, and by name as a part says it: 5.4 kW for
// 1.55 kW in air of 7 °C and water of 38 °C, either way. What lacks one of them is refused.
func TestRatingsByNameAndInARow(t *testing.T) {
	var a, b, c Row
	inARow := []any{[]any{"7 °C", "38 °C", "5.4 kW", "1.55 kW"}}
	byName := []any{map[string]any{"air": "7 °C", "water": "38 °C", "output": "5.4 kW", "input": "1.55 kW"}}
	if err := setRatings(&a, inARow); err != nil {
		t.Fatal(err)
	}
	if err := setRatings(&b, byName); err != nil {
		t.Fatal(err)
	}
	if want := []RatingRow{{AirC: 7, WaterC: 38, OutputW: 5400, InputW: 1550}}; !reflect.DeepEqual(a.Ratings, want) || !reflect.DeepEqual(b.Ratings, want) {
		t.Errorf("%+v and %+v, want %+v", a.Ratings, b.Ratings, want)
	}
	for _, wrong := range []map[string]any{
		{"air": "7 °C", "water": "38 °C", "output": "5.4 kW"},
		{"air": "7 °C", "water": "38 °C", "output": "5.4 kW", "input": "1.55 kW", "fan": "2 kW"},
	} {
		if setRatings(&c, []any{wrong}) == nil {
			t.Errorf("%v is read", wrong)
		}
	}
}

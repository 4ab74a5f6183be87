package laying

import (
	"math"

	"dryfit/catalog/quantity"
)

// mm is a length of a finding, to a tenth of a mm.
func mm(v float64) quantity.Amount { return quantity.Closely(v) }

// degrees writes an angle for a finding, to a tenth of a degree.
func degrees(v float64) string { return quantity.Trim(math.Round(v*10)/10) + "°" }

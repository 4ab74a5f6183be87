package job

import "dryfit/graph"

// Ask is a question beside the description's own: one condition, or one day of the climate.
// What is left out is the description's.
type Ask struct {
	AirC, Humidity, WindMS graph.Amount // °C, share, m/s at the water
	FromC, ToC             graph.Amount // of the water, °C
	Month, Day             int          // of the climate, through which it heats up; 0: air that stays
}

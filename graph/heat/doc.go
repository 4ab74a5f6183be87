// Package heat answers what a tub loses, what a heat pump makes up of it and what that
// costs: standing loss, loss with the cover off, heating up, the year hour by hour, the
// cheapest hours of a tariff, whether a unit is large enough, and what the supply carries.
//
// Flows, lengths and powers come in as values; the package reads no description and solves
// no circuit. Temperatures are °C, heat flows W, energies J inside and kWh where the name
// says so, times s or h as named. All times of day are local standard time the whole year.
// Equal inputs give equal results: no clock, no chance.
package heat

// Joules in a kilowatt hour and seconds in an hour.
const (
	JoulesPerKWh = 3.6e6
	hourS        = 3600.0
)

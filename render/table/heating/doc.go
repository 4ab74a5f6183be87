// Package heating prints what a job comes to in heat and money, and the units held against it: what
// the tub loses, what the unit makes of it in each air, the year, the timer, sizes and supply, as text
// for a terminal and for papers, as CSV and as JSON. How it is rounded and written is package form's.
package heating

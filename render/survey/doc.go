// Package survey makes the sheets a fitter takes to a tub nobody has measured yet: the circuit of a
// template drawn, with every pipe numbered, and a blank for each value the template asks for,
// under its own key.
package survey

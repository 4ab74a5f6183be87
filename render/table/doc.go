// Package table prints parts of a plan as text for a terminal, as CSV and as JSON.
//
// All rounding of numbers happens in package form. JSON keys carry their unit, and keep
// the order they are written in. What a user's text contains is inert: control characters
// are shown as \x.., and a CSV cell that a spreadsheet would run is marked as text.
package table

// Package year draws what a year takes, month by month: today beside planned, as bars; and over
// the air what a tub loses and its unit gives, with the hours of the year that have such air.
package year

// Package year draws what a year takes, month by month: today beside planned, as bars.
package year

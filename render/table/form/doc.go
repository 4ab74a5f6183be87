// Package form is how lists are printed: blocks of grids and lines for a terminal or a page, cells
// safe for a spreadsheet, CSV and JSON, and the digits of numbers in each.
package form

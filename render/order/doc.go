// Package order writes a job's shopping as a workbook: a sheet to order from, one to pick by
// in the store, and one of the pieces to cut.
package order

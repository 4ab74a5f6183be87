// Package lists prints what is bought and cut: the bill with its spares, the cut list and its
// bars, equivalent lengths and what the head of a pump goes into; as blocks of text, CSV and JSON.
package lists

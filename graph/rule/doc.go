// Package rule holds the placement, geometry and flow rules of a good job and applies them. It computes
// no hydraulics of its own: it reads circuits, layouts and solutions, and reports findings.
//
// A rule is a value (see Rule), listed in All, with a failing and a passing description in
// testdata/NAME; the README's table of rules is written from them.
package rule

//go:generate go test -run ^TestReadmeTable$ -update .

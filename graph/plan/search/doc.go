// Package search looks for the place where a unit goes in and for the bypass that suits it: it
// builds the work in at each place there is, the cheap steps first, judges it, ranks the
// places, and says of those ruled out what would make them possible, which was tried.
package search

// Package disk reads and writes the user's files so that nothing of his is lost: a file is
// written whole or not at all, a pack takes the place of an older one in one step, an input is
// never an output, and what a killed command left lying is taken away by the next.
package disk

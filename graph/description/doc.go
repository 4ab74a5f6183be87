// Package description reads the TOML description of a circuit and writes it again.
//
// Read looks at the whole file before it answers: every mistake is reported at its line
// and column, with what would be right, and only a file without one yields a circuit. The
// tables a description may hold are written as data, one file each: a list of fields that
// say how a key is read and how it is written, so the two can't drift apart.
//
// Nothing is opened here: bytes come in, values go out.
package description

// Package located reads TOML so that every key and value knows where it stands, and says what
// is wrong with one at its line and column.
//
// What would cost a decoder too much is refused before it is decoded. What a table may hold
// is for the package that reads it; here a value is text, a number, a list or a table.
package located

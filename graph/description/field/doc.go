// Package field makes a key of a table one value: how it is read, within which bounds, how it
// is written again and what the schema says of it. A table is a list of fields; package
// description and its pipework are made of them.
package field

// Package pipework holds the tables of what a tub is plumbed with and of what is to be done to
// it: parts, runs, modes, the cabinet and the retrofit, and how they join.
package pipework

// Package live makes the page that dryfit serve shows: its frame, its script and its styles,
// and its sections, each from a plan. It only makes text: what listens and watches is
// cmd/dryfit/live.
//
// Everything a user wrote is inert in it. The page needs no script or style inside its text,
// and loads nothing but its own.
package live

// Package draft is a circuit being changed, and what the changing of it is reckoned with: parts
// and runs added, taken out and named so that nothing clashes (Draft, Names); what a leg meets
// at its ends (End); and parts standing in the legs of a pipe with room between them (Strand).
// Lengths are mm.
package draft

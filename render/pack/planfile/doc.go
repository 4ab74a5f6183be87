// Package planfile is plan.json, all of a pack for other programs: it writes it, reads that of
// an earlier pack back, and says what has changed since. DEVELOPERS.md lists its keys.
package planfile

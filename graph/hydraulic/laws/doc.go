// Package laws holds what everything water passes does to it at a flow: runs, parts, checks,
// tees and pumps, each a law the network solves with. Flows are m³/s, heads m of the water
// pumped, bores m.
package laws

// Package spread solves a circuit again over a fixed sample of what is not known exactly, and
// says how far the flows lie, how often each promise is kept, and what would be worth measuring
// first. Flows are m³/s, pressures Pa; shares count from 0 to 1.
package spread

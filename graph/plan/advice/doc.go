// Package advice compares what could be in the bypass of a unit: every spring of the
// catalogue, a throttle valve at its setting, the bypass shut; and where none of them keeps the
// unit's flow, what else would help. Each is the stage solved again with that in it. Flows are
// m³/s.
package advice

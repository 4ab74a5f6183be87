// Package rule holds the placement, geometry and flow rules of a good job and applies them. It computes
// no hydraulics of its own: it reads circuits, layouts and solutions, and reports findings.
package rule

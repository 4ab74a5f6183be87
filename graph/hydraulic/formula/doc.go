// Package formula holds the formulas the hydraulic computation is made of: water,
// friction, fittings, changes of section, tees, pump curves. Each names its source, its
// units and its range. Pure functions of SI values.
package formula

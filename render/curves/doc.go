// Package curves draws what decides the flow: the pump's head at each speed, the head the
// circuit asks for before and after the work, and the duty points where they meet, with the
// range that what is not known exactly leaves. Black and greys; every curve is named where it
// runs.
package curves

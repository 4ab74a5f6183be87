// Package members is what an isometric is made of: the legs and bodies of a circuit, which of
// them stand side by side or share a place, how far they are set apart so that no two lines lie
// in one, how much room their labels want, and the words of those. Lengths are mm.
package members

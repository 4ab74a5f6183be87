package graph

// Tell is told what is being done, and which step of how many, from 0; of is 0 where nobody
// knows. It decides nothing.
type Tell func(what string, done, of int)

// Step tells where there is somebody to tell.
func (t Tell) Step(what string, done, of int) {
	if t != nil {
		t(what, done, of)
	}
}

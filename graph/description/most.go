package description

// What a description may hold at most; see package located for what any file may.
const (
	MaxParts  = 5000
	MaxLegs   = 20000
	maxPhotos = 24
	maxPorts  = 200 // of one part
	maxModes  = 200
	maxSpeeds = 50  // of one pump
	maxText   = 200 // characters of a quantity or a leg
)

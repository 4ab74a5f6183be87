package field

// What a description may hold at most; see package located for what any file may.
const (
	MaxParts    = 5000
	MaxLegs     = 20000
	MaxPhotos   = 24
	MaxPorts    = 200 // of one part
	MaxModes    = 200
	MaxSpeeds   = 50 // of one pump
	MaxStock    = 100
	MaxReadings = 200
	MaxAccepted = 1000 // a promise or two of every mode
	MaxShells   = 200
	MaxSupplies = 50
	maxText     = 200 // characters of a quantity or a leg
)

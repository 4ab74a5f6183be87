package hydraulic

import "dryfit/graph"

// chatterShare is the share of its cracking pressure within which a spring check that is
// about to open or to shut chatters. Common practice, no source.
const chatterShare = 0.1

// Chatters reports whether the part is a spring check that stands so near to its other state
// that it will chatter: less than a tenth of its cracking pressure away.
func (f *PartFlow) Chatters() bool {
	if f.Part.Kind != graph.CheckValve {
		return false
	}
	switch f.State {
	case "shut":
		crack := f.Drop + f.MarginPa
		return f.Drop > 0 && f.MarginPa < chatterShare*crack
	case "lifting":
		return f.MarginPa < chatterShare*(f.Drop-f.MarginPa)
	}
	return false
}

package pack

// fault is one line of the fault finder, in the order to look.
type fault struct{ Sign, Look string }

// faults is common practice, no source.
func faults() []fault {
	return []fault{
		{"Flow error at the unit", "1 filter dirty · 2 air at the unit: bleed it at its union · 3 isolators not fully open · 4 spring check seized or its arrow against the flow · 5 jets or diverter shut · 6 low speed too slow: compare with the flows of this pack"},
		{"Flow error only with jets on", "the controller changed pumps or polls them: its set point belongs above the unit's, so that the pump keeps running"},
		{"Water feels no warmer at the return", "that is right: the rise across the unit is only a few degrees; measure it"},
		{"Rise across the unit too large", "too little flow: filter, air, isolators; for a throttled bypass shut the bypass valve a little"},
		{"Puddle under the unit", "condensate is usual: switch the compressor off and see whether it stops"},
		{"Jets feel weaker than this pack says", "bypass element not lifting or fitted backwards; a valve part shut; filter"},
	}
}

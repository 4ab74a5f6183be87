package pack

// record lists the blanks of the commissioning sheet; %d is filled with the number of joints.
// Common practice, no source.
func record() []string {
	return []string{
		"Date", "Fitter", "Filter clean (yes/no)", "Air temperature",
		"Low speed: water in", "Low speed: water out", "Low speed: rise (one thermometer, moved)", "Low speed: flow (meter, or from the rise)",
		"High speed: water in", "High speed: water out", "Jets feel: before / after",
		"Bypass valve angle (throttled bypass)", "Spring check: cracking pressure on its label", "Current, A", "Supply voltage, V",
		"Flow switch tried by shutting the isolator to the unit slowly: stops within (s)",
		"Controller errors", "Leaks at every joint at 0 h (dry tissue)", "Leaks at every joint at 24 h",
		"Condensate runs away", "Element isolated by (name, licence)", "Residual current device tested by",
		"Owner's signature", "Fitter's signature",
	}
}

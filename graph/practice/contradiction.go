package practice

// The acts that were found to be told and forbidden on one page.
const (
	SetElementBelow    Act = "set the element below the unit"
	SetControllerAbove Act = "set the controller above the unit"
	TakePoppetOut      Act = "take the poppet out of a check in the line"
	LeavePoppetIn      Act = "leave the poppet in"
	RunWithoutUnit     Act = "use the tub with the unit laid up, on an element that is off"
	ReconnectFirst     Act = "have the element reconnected before the unit is laid up"
	UseCompressor      Act = "blow out with compressed air"
	UseVacuum          Act = "suck out, no compressor"
	MarkCuts           Act = "mark and saw the old pipe"
	LeaveOldPipe       Act = "cut nothing of the old pipe"
	PumpInPowerCut     Act = "keep the pump moving through a power cut"
	EaseUnionDry       Act = "ease a union above the water with the pump off"
	BleedRunning       Act = "bleed with the pump running"
	FlushThroughUnit   Act = "flush through the unit"
	FlushPastUnit      Act = "flush past the unit"
	QuarterTurn        Act = "turn the pipe a quarter in its socket"
	PushStraight       Act = "push the pipe straight home"
	UnitAloneInFrost   Act = "heat by the unit alone below its least air"
)

// Contradictions lists the pairs of which a job may be told one at the most.
func Contradictions() [][2]Act {
	return [][2]Act{
		{SetElementBelow, SetControllerAbove},
		{TakePoppetOut, LeavePoppetIn},
		{UseCompressor, UseVacuum},
		{MarkCuts, LeaveOldPipe},
		{EaseUnionDry, BleedRunning},
		{FlushThroughUnit, FlushPastUnit},
	}
}

// Forbidden lists acts no job may ever be told.
func Forbidden() []Act {
	return []Act{RunWithoutUnit, UseCompressor, PumpInPowerCut, UnitAloneInFrost}
}

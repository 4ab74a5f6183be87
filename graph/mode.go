package graph

// Mode is one way the tub is run.
type Mode struct {
	Name      string
	Speeds    map[string]string  // part id of a pump -> name of its speed; pumps not named are off unless always-on
	Positions map[string]Opening // part id of a hand valve -> position
	JetsOpen  float64            // share of the jets open, 0 to 1; 1 where not said
	Dirty     bool               // filter = "dirty"
	Pos       Pos
}

// Opening is the position of a hand valve: 0 shut, 1 open.
type Opening float64

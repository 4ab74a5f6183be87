package catalog

import "dryfit/catalog/quantity"

// Spec names what pipe is made of: "pvc-sch40", "pvc-sch80" (sizes in inch), "pvc-pn10",
// "pvc-pn16" (sizes in mm), "flex-inch", "flex-metric" (flexible hose that glues into
// sockets), "hose" (on barbs).
type Spec string

// Family is what can be glued together: parts of one family and size join directly.
type Family string

// The families.
const (
	Inch   Family = "inch"
	Metric Family = "metric"
	Hose   Family = "hose"
)

// Row is one line of the catalogue. A length of 0 means "does not apply"; the table in
// catalog/check.go says which kinds need which fields.
type Row struct {
	Name  string // unique, e.g. "elbow-90 pvc-sch80 2 in", "spring-check 2 psi"
	Kind  string // "pipe", "elbow-90", "elbow-45", "elbow-22.5", "elbow-90-sweep", or a kind of the description
	Spec  Spec   // pipe spec it belongs to; "" for any
	Size  Size   // nominal size; of the run, at a tee
	Size2 Size   // the other size of a reducing tee, bush or transition
	Spec2 Spec   // the other spec of a transition
	Style string // variant within the kind: "spring-check", "swing-check", "true-union-ball-valve", "sand-filter", …; "" for the plain one

	OutsideMM, WallMM, BoreMM, BoreMinWallMM float64 // pipe; BoreMM is the mean bore, BoreMinWallMM outside - 2·least wall
	RoughnessMM                              float64
	TakeOffMM                                float64 // centre to socket stop: elbows, a tee's run half; for a bush the length it adds
	BranchTakeOffMM                          float64 // a tee's branch
	LengthMM                                 float64 // socket stop to socket stop, in-line parts; for a coupling the gap at its stop
	SocketMM                                 float64 // depth of the socket, or of the spigot where it has one
	OverallMM                                float64 // from end to end, of a slip coupling (its LengthMM is 0: pipes may butt in it)
	TolMinusMM, TolPlusMM                    float64 // of the take-off or length; how far the part in hand may differ
	Measure                                  bool    // the take-off or length is a guess: measure the part first
	Ends                                     string  // "socket", "spigot", "thread", "union", "barb"; two ends that differ: "socket/thread"

	LoverD                                    float64      // handbook L/D: K = L/D · f_T
	LoverDBranch                              float64      // a tee's branch, fixed-K form
	K, KLow, KHigh                            float64      // loss coefficient on the bore, with its range; used where LoverD is 0
	Kv                                        float64      // m³/h; used where both above are 0
	LossFlow, LossDropPa                      float64      // one point of a sheet (m³/s, Pa), by Exponent
	LossLowPa, LossHighPa                     float64      // nine in ten parts of this kind lie between these at that flow; 0: by the class of Spread
	Exponent                                  float64      // of the loss over the flow; 0: that of the kind (ExponentOf)
	Sized                                     string       // the maker sizes it to its line: LossFlow is the best flow of the line's pump at its "low" or "high" speed; "": at LossFlow itself
	HeadShare, HeadShareLow, HeadShareHigh    float64      // jets nobody measured: what they take of the head at the best flow of their pump
	CrackingPa, CrackingLowPa, CrackingHighPa float64      // spring checks
	Opening                                   [][2]float64 // hand valves of the user's: share open -> share of the full-open Kv
	RatingPa                                  float64      // pressure at 20..23 °C
	Curve                                     [][2]float64 // pumps: flow m³/s, head m (one speed); several speeds: Speeds
	Speeds                                    []SpeedRow
	Least, Rated, Most                        float64     // heat pumps, m³/s; filters and elements: Least
	SpreadPct                                 float64     // how far the loss (or the curve's head) may be off when only this row is known, ±%; of pipe: its bore
	StockMM                                   []float64   // pipe: lengths on sale
	PowerW                                    float64     // element heaters: electric power; heat pumps: rated output
	Ratings                                   []RatingRow // heat pumps
	LeastAirC, MostWaterC                     *float64    // heat pumps, °C; nil: not said
	RatingsSource                             quantity.Text
	VoltageV                                  float64 // that the currents of a heat pump are at; 0: 230 V
	FullLoadA, StartingA, FuseA               float64 // heat pumps, A at VoltageV: the most it draws, for a moment at a start, and the rating of its fuse or breaker
	ElectricSource                            quantity.Text
	DirtyFactor                               float64 // filters: of the clean drop, when it wants cleaning; 0: 3
	Clips                                     float64 // barbs: hose clips on one tail; 0: two
	RoomMM                                    float64 // hand-room: free beyond the pipe, the nut or the stem
	BodyLongMM, BodyThickMM, BodyHighMM       float64 // equipment: how far its body goes behind a port, how thick and (0: as thick) how high it is about its ports
	Ways                                      int     // manifolds and diverters: how many outlets
	Default                                   bool    // the row a part of its kind is given when none is named

	Source  quantity.Text // standard and table, or "common practice, no source", or "from memory"; of a built-in row its amounts are read in any units (quantity.Prose)
	Grade   string        // read, xcheck, memory, computed, common
	Note    quantity.Text
	Own     bool          // came from the user, not from the embedded files
	Below   quantity.Text // source of the row it is laid over
	Mine    []bool        // of a row laid over another, by column: said by the user himself; nil: all that it says (see Row.Owns)
	Origin  string        // file (and line) it came from
	Pressed []int         // points of Curve given as pressures (see Catalog.InWater)
	Heads   heads         // what was given in the way that hangs on the water (see Catalog.InWater)
}

// RatingRow is what a heat pump gives in air and water of a temperature.
type RatingRow struct{ AirC, WaterC, OutputW, InputW float64 }

// SpeedRow is one speed of a generic pump.
type SpeedRow struct {
	Name    string
	PowerW  float64
	Ratio   float64      // of the speed whose curve this one's was made from; 0: its own
	Curve   [][2]float64 // flow m³/s, head m
	Pressed []int        // points of Curve given as pressures (see Catalog.InWater)
}

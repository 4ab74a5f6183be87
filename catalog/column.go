package catalog

import (
	"fmt"
	"slices"
	"strconv"

	"dryfit/catalog/quantity"
)

// column is one key of a row, whole: how it is read, said again, printed, checked and laid
// over the row below. A new key is a field of Row and a line in columns.
type column struct {
	name    string
	heading string // what it is called where a row is shown; "": the name, without hyphens
	form    form
	dim     quantity.Dimension // of an amount

	// set takes what TOML decodes: string, number, bool, list or table. get returns what set
	// takes, a table as a Table; nil where the row says nothing. There is no get where
	// another column says the same.
	set func(r *Row, v any) error
	get func(r *Row) any

	num    func(r *Row) float64        // of a column with a number, for Check
	prose  func(r *Row) *quantity.Text // of words about amounts, which are read in any units
	fill   func(r *Row, below *Row)
	unless []string // columns that, where the row says one of them, keep this from being filled from below
}

// form says how a column's value is written.
type form int

const (
	text   form = iota // a string
	amount             // a string with a unit
	number             // a bare number
	truth              // true or false; yes or empty in CSV
	points             // pairs of quantities
	table              // tables, in TOML only
)

// Table is a table as a column says it again: keys in the order in which they are written.
type Table []struct {
	Key   string
	Value any
}

// losses are the columns that say a loss, each in a form of its own. A row that says one puts
// every form of the row below aside, and what belongs to it.
var losses = []string{"l-over-d", "l-over-d-branch", "k", "kv", "loss-flow"}

// lengths are the columns that say how long a part is: one that is given is no guess.
var lengths = []string{"take-off", "branch-take-off", "length"}

// columns is every column there is, in the order in which they are read, written and named.
var columns = []column{
	words("name", func(r *Row) *string { return &r.Name }).own(),
	words("kind", func(r *Row) *string { return &r.Kind }),
	words("style", func(r *Row) *string { return &r.Style }),
	specOf("spec", func(r *Row) *Spec { return &r.Spec }),
	sizeOf("size", func(r *Row) *Size { return &r.Size }),
	specOf("spec2", func(r *Row) *Spec { return &r.Spec2 }).called("other spec"),
	sizeOf("size2", func(r *Row) *Size { return &r.Size2 }).called("other size"),

	lengthOf("outside", func(r *Row) *float64 { return &r.OutsideMM }).called("outside diameter"),
	lengthOf("wall", func(r *Row) *float64 { return &r.WallMM }).called("wall (least)"),
	lengthOf("bore", func(r *Row) *float64 { return &r.BoreMM }).called("bore (mean)"),
	lengthOf("bore-least-wall", func(r *Row) *float64 { return &r.BoreMinWallMM }).called("bore (least wall)"),
	lengthOf("roughness", func(r *Row) *float64 { return &r.RoughnessMM }),
	lengthOf("take-off", func(r *Row) *float64 { return &r.TakeOffMM }).called("take-off"),
	lengthOf("branch-take-off", func(r *Row) *float64 { return &r.BranchTakeOffMM }).called("branch take-off"),
	lengthOf("length", func(r *Row) *float64 { return &r.LengthMM }).called("length, stop to stop"),
	lengthOf("socket", func(r *Row) *float64 { return &r.SocketMM }).called("socket depth"),
	lengthOf("overall", func(r *Row) *float64 { return &r.OverallMM }).called("length overall"),
	lengthOf("tol-minus", func(r *Row) *float64 { return &r.TolMinusMM }).called("tolerance, less").with(append([]string{"tol-plus"}, lengths...)...),
	lengthOf("tol-plus", func(r *Row) *float64 { return &r.TolPlusMM }).called("tolerance, more").with(append([]string{"tol-minus"}, lengths...)...),
	truthOf("measure", func(r *Row) *bool { return &r.Measure }).called("measure the part first").with(lengths...),
	words("ends", func(r *Row) *string { return &r.Ends }),

	numberOf("l-over-d", func(r *Row) *float64 { return &r.LoverD }).called("L/D").with(losses...),
	numberOf("l-over-d-branch", func(r *Row) *float64 { return &r.LoverDBranch }).called("L/D, branch").with(losses...),
	numberOf("k", func(r *Row) *float64 { return &r.K }).called("K").with(losses...),
	numberOf("k-low", func(r *Row) *float64 { return &r.KLow }).called("K, lowest").with(losses...),
	numberOf("k-high", func(r *Row) *float64 { return &r.KHigh }).called("K, highest").with(losses...),
	amountOf("kv", func(r *Row) *float64 { return &r.Kv }, quantity.Kv).called("Kv").with(losses...),
	amountOf("cv", func(r *Row) *float64 { return &r.Kv }, quantity.Cv).also(),
	amountOf("loss-flow", func(r *Row) *float64 { return &r.LossFlow }, quantity.Flow).called("loss, at flow").with(losses...),
	pressureOf("loss-drop", headDrop, func(r *Row) *float64 { return &r.LossDropPa }).called("loss").with(losses...),
	pressureOf("loss-low", headDropLow, func(r *Row) *float64 { return &r.LossLowPa }).called("loss, lowest").with(losses...),
	pressureOf("loss-high", headDropHigh, func(r *Row) *float64 { return &r.LossHighPa }).called("loss, highest").with(losses...),
	numberOf("exponent", func(r *Row) *float64 { return &r.Exponent }).called("exponent of the loss").with(losses...),
	column{name: "loss", form: table, set: setLoss}.also(),
	oneOf("sized", []string{"low", "high"}, func(r *Row) *string { return &r.Sized }).called("sized for the speed").with(losses...),
	numberOf("head-share", func(r *Row) *float64 { return &r.HeadShare }).called("share of the head").with(losses...),
	numberOf("head-share-low", func(r *Row) *float64 { return &r.HeadShareLow }).called("share of the head, lowest").with(losses...),
	numberOf("head-share-high", func(r *Row) *float64 { return &r.HeadShareHigh }).called("share of the head, highest").with(losses...),
	pressureOf("cracking", headCracking, func(r *Row) *float64 { return &r.CrackingPa }).called("cracking pressure"),
	pressureOf("cracking-low", headCrackingLow, func(r *Row) *float64 { return &r.CrackingLowPa }).called("cracking pressure, lowest").with("cracking"),
	pressureOf("cracking-high", headCrackingHigh, func(r *Row) *float64 { return &r.CrackingHighPa }).called("cracking pressure, highest").with("cracking"),
	openingOf("opening", func(r *Row) *[][2]float64 { return &r.Opening }),
	pressureOf("rating", headRating, func(r *Row) *float64 { return &r.RatingPa }).called("pressure rating"),
	curveColumn.with("speeds"),
	speedsColumn.with("curve"),
	amountOf("least", func(r *Row) *float64 { return &r.Least }, quantity.Flow).called("least flow"),
	amountOf("rated", func(r *Row) *float64 { return &r.Rated }, quantity.Flow).called("rated flow"),
	amountOf("most", func(r *Row) *float64 { return &r.Most }, quantity.Flow).called("most flow"),
	powerColumn(),
	ratingsColumn,
	proseOf("ratings-source", func(r *Row) *quantity.Text { return &r.RatingsSource }).with("ratings"),
	temperatureOf("least-air", func(r *Row) **float64 { return &r.LeastAirC }),
	temperatureOf("most-water", func(r *Row) **float64 { return &r.MostWaterC }),
	amountOf("full-load", func(r *Row) *float64 { return &r.FullLoadA }, quantity.Current).called("full-load current"),
	amountOf("voltage", func(r *Row) *float64 { return &r.VoltageV }, quantity.Voltage).called("voltage its currents are at").with("full-load"),
	amountOf("starting", func(r *Row) *float64 { return &r.StartingA }, quantity.Current).called("starting current").with("full-load"),
	amountOf("fuse", func(r *Row) *float64 { return &r.FuseA }, quantity.Current).called("fuse or breaker").with("full-load"),
	proseOf("electric-source", func(r *Row) *quantity.Text { return &r.ElectricSource }).with("full-load"),
	numberOf("dirty-factor", func(r *Row) *float64 { return &r.DirtyFactor }).called("drop when dirty, of the clean one"),
	numberOf("clips", func(r *Row) *float64 { return &r.Clips }),
	lengthOf("body-long", func(r *Row) *float64 { return &r.BodyLongMM }).called("body, behind a port"),
	lengthOf("body-thick", func(r *Row) *float64 { return &r.BodyThickMM }).called("body, thick"),
	lengthOf("body-high", func(r *Row) *float64 { return &r.BodyHighMM }).called("body, high").with("body-thick"),
	lengthOf("room", func(r *Row) *float64 { return &r.RoomMM }).called("room for the hand"),
	countOf("ways", 100, func(r *Row) *int { return &r.Ways }),
	truthOf("default", func(r *Row) *bool { return &r.Default }),
	numberOf("spread", func(r *Row) *float64 { return &r.SpreadPct }).called("spread of the loss, %").with(losses...),
	lengthsOf("stock", func(r *Row) *[]float64 { return &r.StockMM }),

	proseOf("source", func(r *Row) *quantity.Text { return &r.Source }).own(),
	words("tag", func(r *Row) *string { return &r.Grade }).own(),
	proseOf("note", func(r *Row) *quantity.Text { return &r.Note }).own(),
}

// called gives the column a name where a row is shown.
func (c column) called(label string) column { c.heading = label; return c }

// with names the columns it is taken from below together with.
func (c column) with(names ...string) column { c.unless = names; return c }

// own is a column that is never taken from the row below.
func (c column) own() column { c.fill = nil; return c }

// also is a column that says what another one says.
func (c column) also() column { c.get, c.num, c.fill = nil, nil, nil; return c }

// says reports whether the row says anything in the column.
func (c *column) says(r *Row) bool { return c.get != nil && c.get(r) != nil }

// filling fills a field from the row below.
func filling[T any](field func(*Row) *T) func(r, below *Row) {
	return func(r, below *Row) { *field(r) = *field(below) }
}

// said returns a value, or nil where it is nothing.
func said[T comparable](v T, as any) any {
	var nothing T
	if v == nothing {
		return nil
	}
	return as
}

// ColumnNames returns the keys a [[catalog.KIND]] table may have.
func ColumnNames() []string {
	out := make([]string, len(columns))
	for i, c := range columns {
		out[i] = c.name
	}
	return out
}

// Prose reports whether a row's key is words that are only shown, compared with nothing.
func Prose(name string) bool {
	c, ok := findColumn(name)
	return ok && c.prose != nil
}

// Form says how the value of a row's key is written: as "text", "amount" (a text with a unit),
// "number", "truth", "points" (a list) or "table" (one, or a list of them); "" for no key.
func Form(name string) string {
	c, ok := findColumn(name)
	if !ok {
		return ""
	}
	return [...]string{text: "text", amount: "amount", number: "number", truth: "truth", points: "points", table: "table"}[c.form]
}

func findColumn(name string) (column, bool) {
	i := columnAt(name)
	if i < 0 {
		return column{}, false
	}
	return columns[i], true
}

// columnAt returns the index of a column; -1 where there is none.
func columnAt(name string) int {
	for i := range columns {
		if columns[i].name == name {
			return i
		}
	}
	return -1
}

// longestWords is the longest text a row may hold, in bytes.
const longestWords = 400

func words(name string, field func(*Row) *string) column {
	return column{name: name, form: text, set: func(r *Row, v any) error {
		s, ok := v.(string)
		if !ok {
			return fmt.Errorf("%s is a text in quotes", name)
		}
		if len(s) > longestWords {
			return fmt.Errorf("%s is longer than %d bytes", name, longestWords)
		}
		*field(r) = s
		return nil
	}, get: func(r *Row) any { return said(*field(r), quantity.Text(*field(r)).String()) }, fill: filling(field)}
}

// proseOf is words about amounts.
func proseOf(name string, field func(*Row) *quantity.Text) column {
	c := words(name, func(r *Row) *string { return (*string)(field(r)) })
	c.prose = field
	return c
}

// oneOf reads one of a few words.
func oneOf(name string, list []string, field func(*Row) *string) column {
	c := words(name, field)
	c.set = func(r *Row, v any) error {
		s, _ := v.(string)
		if !slices.Contains(list, s) {
			return unknown(name, s, list)
		}
		*field(r) = s
		return nil
	}
	return c
}

func specOf(name string, field func(*Row) *Spec) column {
	return column{name: name, form: text, set: func(r *Row, v any) error {
		s, _ := v.(string)
		if !Spec(s).IsKnown() {
			return unknown("pipe spec", s, specNames())
		}
		*field(r) = Spec(s)
		return nil
	}, get: func(r *Row) any { return said(*field(r), string(*field(r))) }, fill: filling(field)}
}

func specNames() []string {
	var out []string
	for _, s := range Specs() {
		out = append(out, string(s))
	}
	return out
}

func sizeOf(name string, field func(*Row) *Size) column {
	return column{name: name, form: text, set: func(r *Row, v any) error {
		s, err := textOf(v, quantity.Length)
		if err != nil {
			return err
		}
		size, err := ParseSize(s, r.Spec.Family() == Metric)
		if err != nil {
			return err
		}
		*field(r) = size
		return nil
	}, get: func(r *Row) any { return said(*field(r), field(r).Exact()) }, num: func(r *Row) float64 { return field(r).Nominal }, fill: filling(field)}
}

func amountOf(name string, field func(*Row) *float64, dim quantity.Dimension) column {
	return column{name: name, form: amount, dim: dim, set: func(r *Row, v any) error {
		q, err := amountIn(v, dim)
		if err != nil {
			return err
		}
		*field(r) = q.Value
		return nil
	}, get: func(r *Row) any { return said(*field(r), quantity.Exact(*field(r), dim)) }, num: func(r *Row) float64 { return *field(r) }, fill: filling(field)}
}

// powerColumn is a power; of a pump what it draws by its label.
func powerColumn() column {
	c := amountOf("power", func(r *Row) *float64 { return &r.PowerW }, quantity.Power)
	c.set = func(r *Row, v any) error {
		q, err := amountIn(v, quantity.Power)
		if r.PowerW = q.Value; r.Kind == "pump" {
			r.PowerW = Draws(q)
		}
		return err
	}
	return c
}

func lengthOf(name string, field func(*Row) *float64) column {
	return amountOf(name, field, quantity.Length)
}

// pressureOf reads a pressure; a head of water counts as 9806.65 Pa for each metre until it is
// known of what water (see Catalog.InWater).
func pressureOf(name string, given heads, field func(*Row) *float64) column {
	c := amountOf(name, field, quantity.Pressure)
	c.set = func(r *Row, v any) error {
		p, head, err := pressure(v)
		if err != nil {
			return err
		}
		*field(r) = p
		r.say(given, head)
		return nil
	}
	c.fill = func(r, below *Row) {
		*field(r) = *field(below)
		r.say(given, below.Heads&given != 0)
	}
	return c
}

func numberOf(name string, field func(*Row) *float64) column {
	return column{name: name, form: number, set: func(r *Row, v any) error {
		n, err := bare(v)
		if err != nil {
			return err
		}
		*field(r) = n
		return nil
	}, get: func(r *Row) any { return said(*field(r), *field(r)) }, num: func(r *Row) float64 { return *field(r) }, fill: filling(field)}
}

func truthOf(name string, field func(*Row) *bool) column {
	return column{name: name, form: truth, set: func(r *Row, v any) error {
		b, ok := v.(bool)
		if !ok {
			return fmt.Errorf("%s is true or false, without quotes", name)
		}
		*field(r) = b
		return nil
	}, get: func(r *Row) any { return said(*field(r), true) }, fill: filling(field)}
}

// countOf reads a whole number from 1.
func countOf(name string, most int, field func(*Row) *int) column {
	return column{name: name, form: number, set: func(r *Row, v any) error {
		n, err := bare(v)
		if err != nil {
			return err
		}
		if n != float64(int(n)) || n < 1 || n > float64(most) {
			return fmt.Errorf("%s is a whole number from 1 to %d, not %s", name, most, quantity.Trim(n))
		}
		*field(r) = int(n)
		return nil
	}, get: func(r *Row) any { return said(*field(r), float64(*field(r))) }, num: func(r *Row) float64 { return float64(*field(r)) }, fill: filling(field)}
}

// unknown is the error of a word that is not in a list.
func unknown(what, word string, known []string) error {
	hint := ""
	if near, ok := quantity.Nearest(word, known); ok {
		hint = fmt.Sprintf("did you mean %q?", near)
	}
	return &quantity.Error{Text: word, Message: "unknown " + what + " " + strconv.Quote(word), Hint: hint}
}

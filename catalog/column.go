package catalog

import (
	"fmt"
	"slices"
	"strconv"

	"dryfit/catalog/quantity"
)

// column is one key of a row: the name of a column in data/*.csv and of a key in a
// [[catalog.KIND]] table. set takes what TOML decodes: string, number, bool, list or table.
type column struct {
	name string
	form form
	set  func(r *Row, v any) error
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

// columns is every column there is, in the order in which Check and the help name them.
var columns = []column{
	words("name", func(r *Row) *string { return &r.Name }),
	words("kind", func(r *Row) *string { return &r.Kind }),
	words("style", func(r *Row) *string { return &r.Style }),
	specOf("spec", func(r *Row) *Spec { return &r.Spec }),
	sizeOf("size", func(r *Row) *Size { return &r.Size }),
	specOf("spec2", func(r *Row) *Spec { return &r.Spec2 }),
	sizeOf("size2", func(r *Row) *Size { return &r.Size2 }),

	lengthOf("outside", func(r *Row) *float64 { return &r.OutsideMM }),
	lengthOf("wall", func(r *Row) *float64 { return &r.WallMM }),
	lengthOf("bore", func(r *Row) *float64 { return &r.BoreMM }),
	lengthOf("bore-least-wall", func(r *Row) *float64 { return &r.BoreMinWallMM }),
	lengthOf("roughness", func(r *Row) *float64 { return &r.RoughnessMM }),
	lengthOf("take-off", func(r *Row) *float64 { return &r.TakeOffMM }),
	lengthOf("branch-take-off", func(r *Row) *float64 { return &r.BranchTakeOffMM }),
	lengthOf("length", func(r *Row) *float64 { return &r.LengthMM }),
	lengthOf("socket", func(r *Row) *float64 { return &r.SocketMM }),
	lengthOf("overall", func(r *Row) *float64 { return &r.OverallMM }),
	lengthOf("tol-minus", func(r *Row) *float64 { return &r.TolMinusMM }),
	lengthOf("tol-plus", func(r *Row) *float64 { return &r.TolPlusMM }),
	truthOf("measure", func(r *Row) *bool { return &r.Measure }),
	words("ends", func(r *Row) *string { return &r.Ends }),

	numberOf("l-over-d", func(r *Row) *float64 { return &r.LoverD }),
	numberOf("l-over-d-branch", func(r *Row) *float64 { return &r.LoverDBranch }),
	numberOf("k", func(r *Row) *float64 { return &r.K }),
	numberOf("k-low", func(r *Row) *float64 { return &r.KLow }),
	numberOf("k-high", func(r *Row) *float64 { return &r.KHigh }),
	amountOf("kv", func(r *Row) *float64 { return &r.Kv }, quantity.Kv),
	amountOf("cv", func(r *Row) *float64 { return &r.Kv }, quantity.Cv),
	amountOf("loss-flow", func(r *Row) *float64 { return &r.LossFlow }, quantity.Flow),
	pressureOf("loss-drop", headDrop, func(r *Row) *float64 { return &r.LossDropPa }),
	pressureOf("loss-low", headDropLow, func(r *Row) *float64 { return &r.LossLowPa }),
	pressureOf("loss-high", headDropHigh, func(r *Row) *float64 { return &r.LossHighPa }),
	numberOf("exponent", func(r *Row) *float64 { return &r.Exponent }),
	{"loss", table, setLoss},
	oneOf("sized", []string{"low", "high"}, func(r *Row) *string { return &r.Sized }),
	numberOf("head-share", func(r *Row) *float64 { return &r.HeadShare }),
	numberOf("head-share-low", func(r *Row) *float64 { return &r.HeadShareLow }),
	numberOf("head-share-high", func(r *Row) *float64 { return &r.HeadShareHigh }),
	pressureOf("cracking", headCracking, func(r *Row) *float64 { return &r.CrackingPa }),
	pressureOf("cracking-low", headCrackingLow, func(r *Row) *float64 { return &r.CrackingLowPa }),
	pressureOf("cracking-high", headCrackingHigh, func(r *Row) *float64 { return &r.CrackingHighPa }),
	{"opening", points, setOpening},
	pressureOf("rating", headRating, func(r *Row) *float64 { return &r.RatingPa }),
	{"curve", points, setCurve},
	{"speeds", table, setSpeeds},
	amountOf("least", func(r *Row) *float64 { return &r.Least }, quantity.Flow),
	amountOf("rated", func(r *Row) *float64 { return &r.Rated }, quantity.Flow),
	amountOf("most", func(r *Row) *float64 { return &r.Most }, quantity.Flow),
	amountOf("power", func(r *Row) *float64 { return &r.PowerW }, quantity.Power),
	numberOf("dirty-factor", func(r *Row) *float64 { return &r.DirtyFactor }),
	numberOf("clips", func(r *Row) *float64 { return &r.Clips }),
	{"ways", number, setWays},
	truthOf("default", func(r *Row) *bool { return &r.Default }),
	numberOf("spread", func(r *Row) *float64 { return &r.SpreadPct }),
	{"stock", points, setStock},

	words("source", func(r *Row) *string { return &r.Source }),
	words("tag", func(r *Row) *string { return &r.Tag }),
	words("note", func(r *Row) *string { return &r.Note }),
}

// ColumnNames returns the keys a [[catalog.KIND]] table may have.
func ColumnNames() []string {
	out := make([]string, len(columns))
	for i, c := range columns {
		out[i] = c.name
	}
	return out
}

func findColumn(name string) (column, bool) {
	i := slices.IndexFunc(columns, func(c column) bool { return c.name == name })
	if i < 0 {
		return column{}, false
	}
	return columns[i], true
}

// longestWords is the longest text a row may hold, in bytes.
const longestWords = 400

func words(name string, field func(*Row) *string) column {
	return column{name, text, func(r *Row, v any) error {
		s, ok := v.(string)
		if !ok {
			return fmt.Errorf("%s is a text in quotes", name)
		}
		if len(s) > longestWords {
			return fmt.Errorf("%s is longer than %d bytes", name, longestWords)
		}
		*field(r) = s
		return nil
	}}
}

// oneOf reads one of a few words.
func oneOf(name string, list []string, field func(*Row) *string) column {
	return column{name, text, func(r *Row, v any) error {
		s, _ := v.(string)
		if !slices.Contains(list, s) {
			return unknown(name, s, list)
		}
		*field(r) = s
		return nil
	}}
}

func specOf(name string, field func(*Row) *Spec) column {
	return column{name, text, func(r *Row, v any) error {
		s, _ := v.(string)
		if !Spec(s).IsKnown() {
			return unknown("pipe spec", s, specNames())
		}
		*field(r) = Spec(s)
		return nil
	}}
}

func specNames() []string {
	var out []string
	for _, s := range Specs() {
		out = append(out, string(s))
	}
	return out
}

func sizeOf(name string, field func(*Row) *Size) column {
	return column{name, amount, func(r *Row, v any) error {
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
	}}
}

func amountOf(name string, field func(*Row) *float64, want ...quantity.Dimension) column {
	return column{name, amount, func(r *Row, v any) error {
		q, err := amountIn(v, want...)
		if err != nil {
			return err
		}
		*field(r) = q.Value
		return nil
	}}
}

func lengthOf(name string, field func(*Row) *float64) column {
	return amountOf(name, field, quantity.Length)
}

// pressureOf reads a pressure; a head of water counts as 9806.65 Pa for each metre until it is
// known of what water (see Catalog.InWater).
func pressureOf(name string, given heads, field func(*Row) *float64) column {
	return column{name, amount, func(r *Row, v any) error {
		p, head, err := pressure(v)
		if err != nil {
			return err
		}
		*field(r) = p
		r.say(given, head)
		return nil
	}}
}

func numberOf(name string, field func(*Row) *float64) column {
	return column{name, number, func(r *Row, v any) error {
		n, err := bare(v)
		if err != nil {
			return err
		}
		*field(r) = n
		return nil
	}}
}

func truthOf(name string, field func(*Row) *bool) column {
	return column{name, truth, func(r *Row, v any) error {
		b, ok := v.(bool)
		if !ok {
			return fmt.Errorf("%s is true or false, without quotes", name)
		}
		*field(r) = b
		return nil
	}}
}

func setWays(r *Row, v any) error {
	n, err := bare(v)
	if err != nil {
		return err
	}
	if n != float64(int(n)) || n < 1 || n > 100 {
		return fmt.Errorf("ways is a whole number from 1 to 100, not %s", quantity.Trim(n))
	}
	r.Ways = int(n)
	return nil
}

// unknown is the error of a word that is not in a list.
func unknown(what, word string, known []string) error {
	hint := ""
	if near, ok := quantity.Nearest(word, known); ok {
		hint = fmt.Sprintf("did you mean %q?", near)
	}
	return &quantity.Error{Text: word, Message: "unknown " + what + " " + strconv.Quote(word), Hint: hint}
}

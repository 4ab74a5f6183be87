package catalog

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"dryfit/catalog/quantity"
)

// Check returns what is wrong with the rows: no source; a number the kind needs missing; a
// number below nothing; a bore that does not fit into its pipe; an unknown kind, spec or
// tag; two rows of one name; a take-off longer than that of the next size without a note. A
// user's row that is laid over an embedded one is judged as the two together.
func Check(rows []Row) []Problem {
	var out []Problem
	seen := map[string]bool{}
	laid := make([]Row, len(rows))
	of := map[string]int{} // rows of a kind so far
	for i, r := range rows {
		index := of[r.Kind]
		of[r.Kind]++
		below, known := Embedded().Row(r.Name)
		otherKind := known && r.Own && below.Kind != r.Kind
		if known && r.Own && !otherKind {
			r = r.Over(below)
		}
		laid[i] = r
		say := func(key, format string, args ...any) {
			out = append(out, Problem{Kind: r.Kind, Index: index, Row: r.Name, Key: key, Origin: r.Origin, Message: quantity.Say(format, args...)})
		}
		if otherKind {
			say("name", "the catalogue has a row of this name, of kind %s", below.Kind)
		}
		if seen[r.Name] {
			say("name", "there are two rows of this name")
		}
		seen[r.Name] = true
		checkWords(r, say)
		from := len(out)
		checkNeeds(r, say)
		if r.Own && !known && len(out) > from {
			if kin := Embedded().kin(r.Kind, r.Name); kin != nil {
				out = append(out[:from], meantFor(kin, out[from:]))
			}
		}
		checkNumbers(r, say)
		checkRanges(r, say)
		checkCurves(r, say)
		hint := func(words string) { out[len(out)-1].Hint = words }
		checkSense(r, say, hint)
		if r.Own {
			checkUsual(r, say, hint)
		}
	}
	for _, p := range checkOrder(laid) {
		p.Index = indexOf(rows, p)
		out = append(out, p)
	}
	return out
}

// meantFor makes one problem of all that a row of the user's lacks whose name is all but that of rows the
// catalogue has: it was to lie over one of them, and to say no more than it does.
func meantFor(kin []string, lacks []Problem) Problem {
	keys := make([]string, len(lacks))
	for i, p := range lacks {
		keys[i] = p.Key
	}
	p := lacks[0]
	p.Key = "name"
	p.Message = quantity.Say("no row of the catalogue has the name %q: a new one of kind %s needs %s besides", p.Row, p.Kind, strings.Join(keys, ", "))
	p.Hint = `did you mean "` + strings.Join(kin, `" or "`) + `"? a row of that name keeps what it does not say itself`
	return p
}

// indexOf returns which of its kind's rows a problem is with.
func indexOf(rows []Row, p Problem) int {
	n := 0
	for _, r := range rows {
		switch {
		case r.Kind != p.Kind:
		case r.Name == p.Row:
			return n
		default:
			n++
		}
	}
	return 0
}

type sayFunc func(key, format string, args ...any)

// tags are how a number was come by.
var tags = []string{"read", "xcheck", "memory", "computed", "common", "own"}

func checkWords(r Row, say sayFunc) {
	if r.Name == "" {
		say("name", "the row has no name")
	}
	if !isKind(r.Kind) {
		say("kind", "unknown kind %q", r.Kind)
	}
	if strings.TrimSpace(string(r.Source)) == "" {
		say("source", `the row has no source: name the standard, the sheet, or "measured on the part"`)
	}
	if r.Grade != "" && !slices.Contains(tags, r.Grade) {
		say("tag", "unknown tag %q: one of %s", r.Grade, strings.Join(tags, ", "))
	}
	if r.Grade == "" && !r.Own {
		say("tag", "the row has no tag")
	}
	if r.Spec != "" && !r.Spec.IsKnown() {
		say("spec", "unknown pipe spec %q", string(r.Spec))
	}
	if r.Spec2 != "" && !r.Spec2.IsKnown() {
		say("spec2", "unknown pipe spec %q", string(r.Spec2))
	}
	for end := range strings.SplitSeq(r.Ends, "/") {
		if r.Ends != "" && !slices.Contains([]string{"socket", "spigot", "thread", "union", "barb", "flange"}, end) {
			say("ends", "unknown end %q", end)
		}
	}
	if f := r.Spec.Family(); r.Kind == "pipe" && f != Hose && !r.Size.IsZero() && (f == Metric) != r.Size.Metric {
		say("size", "%s does not go by sizes such as %s", r.Spec, r.Size)
	}
}

func checkNeeds(r Row, say sayFunc) {
	need := needsOf(r.Kind)
	for _, key := range need.needs {
		if !r.saysIn(key) {
			say(key, "a row of kind %s needs this", r.Kind)
		}
	}
	if need.sized && r.Size.IsZero() {
		say("size", "a row of kind %s needs this", r.Kind)
	}
	if need.loss && !r.hasLoss() {
		say("loss", "a row of kind %s needs a loss: l-over-d, k, kv, or a flow and its drop", r.Kind)
	}
	if r.Kind == "tee" && r.LoverD != 0 && r.LoverDBranch == 0 {
		say("l-over-d-branch", "the branch of a tee needs one too")
	}
	if r.Kind == "pump" && len(r.Curve) == 0 && len(r.Speeds) == 0 {
		say("curve", "a pump needs a curve, or speeds")
	}
	if r.Style == "spring-check" && r.Size.IsZero() && r.CrackingPa == 0 {
		say("cracking", "a spring needs its cracking pressure")
	}
}

func checkNumbers(r Row, say sayFunc) {
	for _, c := range columns {
		if c.num == nil {
			continue
		}
		switch v := c.num(&r); {
		case math.IsNaN(v) || math.IsInf(v, 0):
			say(c.name, "is not a number")
		case v < 0 && c.dim != quantity.Temperature:
			dim := c.dim
			if c.form == number {
				dim = noUnit
			}
			say(c.name, "is negative: %s", worded(v, dim))
		}
	}
	if r.OutsideMM == 0 {
		return
	}
	inside := r.OutsideMM - 2*r.WallMM
	const slack = 0.06 // mm: outside and wall are rounded to 0.01 each, some to 0.001 in
	if r.WallMM > 0 && r.BoreMM > inside+slack {
		say("bore", "%s is more than the outside less two walls, %s", quantity.Length.Finely(r.BoreMM), quantity.Length.Finely(inside))
	}
	if r.WallMM > 0 && r.BoreMM > 0 && r.BoreMM < inside-0.3*r.WallMM-slack {
		say("bore", "%s is far below the outside less two walls, %s", quantity.Length.Finely(r.BoreMM), quantity.Length.Finely(inside))
	}
	if r.WallMM > 0 && r.BoreMinWallMM > 0 && math.Abs(r.BoreMinWallMM-inside) > slack {
		say("bore-least-wall", "%s is not the outside less two walls, %s", quantity.Length.Finely(r.BoreMinWallMM), quantity.Length.Finely(inside))
	}
	if r.BoreMM >= r.OutsideMM {
		say("bore", "%s is not inside %s", quantity.Length.Finely(r.BoreMM), quantity.Length.Finely(r.OutsideMM))
	}
}

// noUnit is the dimension of a bare number.
const noUnit quantity.Dimension = -1

// worded is a number of a row for a message, in the units that will be asked for.
func worded(v float64, dim quantity.Dimension) any {
	if dim == noUnit {
		return quantity.Trim(v)
	}
	return dim.Finely(v)
}

func checkRanges(r Row, say sayFunc) {
	ordered := func(key string, dim quantity.Dimension, low, likely, high float64) {
		if high != 0 && (low > likely || likely > high) {
			say(key, "the range %s to %s does not hold the likely %s", worded(low, dim), worded(high, dim), worded(likely, dim))
		}
	}
	ordered("k", noUnit, r.KLow, r.K, r.KHigh)
	ordered("loss-low", quantity.Pressure, r.LossLowPa, r.LossDropPa, r.LossHighPa)
	ordered("head-share", quantity.Share, r.HeadShareLow, r.HeadShare, r.HeadShareHigh)
	if r.Exponent != 0 && (r.Exponent < 1 || r.Exponent > 2.2) {
		say("exponent", "%g is not from 1 to 2.2", r.Exponent)
	}
	ordered("cracking", quantity.Pressure, r.CrackingLowPa, r.CrackingPa, r.CrackingHighPa)
	if r.Least > 0 && r.Rated > 0 && r.Least > r.Rated {
		say("least", "is more than the rated flow")
	}
	if r.Most > 0 && r.Rated > r.Most {
		say("rated", "is more than the most")
	}
	if (r.LossFlow == 0) != (r.LossDropPa == 0) {
		say("loss-flow", "flow and drop go together")
	}
	if r.TakeOffMM > 0 && r.TolMinusMM > r.TakeOffMM {
		say("tol-minus", "is more than the take-off itself")
	}
	if r.K > 0 && r.LoverD > 0 {
		say("k", "says the same as l-over-d: leave one out")
	}
	if !r.Size2.IsZero() && r.Size2.Metric == r.Size.Metric && r.Spec2 == "" && r.Size2.Nominal >= r.Size.Nominal {
		say("size2", "%s is not smaller than %s", r.Size2, r.Size)
	}
}

func checkCurves(r Row, say sayFunc) {
	if r.Curve != nil {
		checkCurve("curve", r.Curve, say)
	}
	names := map[string]bool{}
	for _, s := range r.Speeds {
		checkCurve("speeds", s.Curve, say)
		if names[s.Name] {
			say("speeds", "there are two speeds called %q", s.Name)
		}
		names[s.Name] = true
	}
	for i, p := range r.Opening {
		if i > 0 && p[1] < r.Opening[i-1][1] {
			say("opening", "a valve that opens further does not pass less")
		}
	}
	if n := len(r.Opening); n > 0 && (r.Opening[0] != [2]float64{} || r.Opening[n-1] != [2]float64{1, 1}) {
		say("opening", "the curve goes from 0 %% at 0 %% to 100 %% at 100 %%")
	}
}

func checkCurve(key string, c [][2]float64, say sayFunc) {
	if len(c) < 2 {
		say(key, "a curve needs two points")
		return
	}
	if c[0][0] != 0 {
		say(key, "the curve does not start at no flow")
	}
	for i := 1; i < len(c); i++ {
		if c[i][1] > c[i-1][1] {
			say(key, "the head rises with the flow at %s", quantity.Flow.Of(c[i][0]))
		}
	}
}

// checkOrder looks for take-offs, branch take-offs and sockets longer than the next size's.
func checkOrder(rows []Row) []Problem {
	type series struct {
		kind, style string
		spec        Spec
		metric      bool
	}
	groups := map[series][]Row{}
	var order []series
	for _, r := range rows {
		if r.Size.IsZero() || !r.Size2.IsZero() {
			continue
		}
		key := series{r.Kind, r.Style, r.Spec, r.Size.Metric}
		if groups[key] == nil {
			order = append(order, key)
		}
		groups[key] = append(groups[key], r)
	}
	var out []Problem
	for _, key := range order {
		g := groups[key]
		slices.SortStableFunc(g, func(a, b Row) int { return cmp.Compare(a.Size.Nominal, b.Size.Nominal) })
		for i := 1; i < len(g); i++ {
			small, large := g[i-1], g[i]
			if small.Note != "" {
				continue
			}
			for _, c := range []struct {
				key  string
				a, b float64
			}{{"take-off", small.TakeOffMM, large.TakeOffMM}, {"branch-take-off", small.BranchTakeOffMM, large.BranchTakeOffMM}, {"socket", small.SocketMM, large.SocketMM}} {
				if c.b > 0 && c.a > c.b {
					out = append(out, Problem{Kind: small.Kind, Row: small.Name, Key: c.key, Origin: small.Origin,
						Message: quantity.Say("%s is longer than the %s of the next size, %s, and no note says why", quantity.Length.Finely(c.a), quantity.Length.Finely(c.b), large.Size)})
				}
			}
		}
	}
	return out
}

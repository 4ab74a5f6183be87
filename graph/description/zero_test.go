package description

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/description/field"
	"dryfit/graph/description/located"
	"dryfit/graph/description/pipework"
)

// digits is the number at the start of an example of a value.
var digits = regexp.MustCompile(`^("?)-?[0-9][0-9. /-]*`)

// zeroOf returns a key's example with its number made zero; false where it has none.
func zeroOf(like string) (string, bool) {
	if !digits.MatchString(like) {
		return "", false
	}
	return digits.ReplaceAllString(like, "${1}0 "), true
}

// sameWithout are the keys that add something, so that zero and nothing said are one; and
// the ratio of a speed, whose zero is refused with the speed as a whole.
var sameWithout = map[string]bool{"[[run]] k": true, "[retrofit] extra": true, "speeds ratio": true}

// keepsZero reads each key of a table as zero, and writes it where zero was taken. A key that
// takes a zero and does not write it again has lost it: nothing after the reader can tell it
// from a key that was left out.
func keepsZero[T any](t *testing.T, table string, fields []field.Field[T], empty func() *T) (taken []string) {
	t.Helper()
	for _, f := range fields {
		zero, ok := zeroOf(f.Like)
		if !ok || f.Foreign {
			continue
		}
		if !strings.HasPrefix(zero, `"`) {
			zero = strings.TrimSpace(zero)
		}
		file := located.New("zero.toml", []byte(f.Key+" = "+zero+"\n"))
		r := &field.Reader{File: file, Circuit: &graph.Circuit{}, Catalog: catalog.Embedded(), Metre: 9800, Spots: map[any]field.Spots{}}
		top, ok := r.Decode()
		if !ok {
			t.Fatalf("%s %s = %s: %v", table, f.Key, zero, r.Findings())
		}
		v, _ := top.In(f.Key)
		into := empty()
		if f.Read(r, v, into); len(r.Found) > 0 {
			continue // zero is no answer, and is refused
		}
		taken = append(taken, table+" "+f.Key)
		if same := sameWithout[table+" "+f.Key]; f.Write(into) == "" && !same {
			t.Errorf("%s: %s = %s is taken, and lost", table, f.Key, zero)
		}
	}
	return taken
}

// Wherever zero is an answer it is kept apart from a key that was left out.
func TestZeroIsAValue(t *testing.T) {
	var taken []string
	taken = append(taken, keepsZero(t, "[job]", jobFields, func() *graph.Job { return &graph.Job{} })...)
	taken = append(taken, keepsZero(t, "[water]", waterFields, func() *graph.Water { return &graph.Water{} })...)
	taken = append(taken, keepsZero(t, "[pipe]", pipeFields, func() *graph.PipeDefault { return &graph.PipeDefault{} })...)
	for _, k := range graph.Kinds() {
		taken = append(taken, keepsZero(t, string(k), slices.Concat(pipework.PartFields, pipework.KindFields[k], pipework.MorePartFields), func() *graph.Part { return pipework.NewPart(k) })...)
	}
	taken = append(taken, keepsZero(t, "speeds", pipework.SpeedFields, func() *graph.Speed { return &graph.Speed{} })...)
	taken = append(taken, keepsZero(t, "ratings", pipework.RatingFields, func() *graph.Rating { return &graph.Rating{} })...)
	taken = append(taken, keepsZero(t, "flow", pipework.UnitFlowFields, func() *graph.UnitData { return &graph.UnitData{} })...)
	taken = append(taken, keepsZero(t, "electric", pipework.ElectricFields, func() *graph.UnitData { return &graph.UnitData{} })...)
	taken = append(taken, keepsZero(t, "a leg", pipework.LegFields, func() *graph.Leg { return &graph.Leg{Surroundings: graph.NothingSaid()} })...)
	taken = append(taken, keepsZero(t, "[[run]]", pipework.RunFields, func() *pipework.Draft { return &pipework.Draft{Run: graph.Run{Surroundings: graph.NothingSaid()}} })...)
	taken = append(taken, keepsZero(t, "[[mode]]", pipework.ModeFields, func() *graph.Mode { return &graph.Mode{} })...)
	taken = append(taken, keepsZero(t, "[retrofit]", pipework.RetrofitFields, func() *graph.Retrofit { return &graph.Retrofit{} })...)
	taken = append(taken, keepsZero(t, "cut", pipework.CutFields, func() *graph.Cut { return &graph.Cut{} })...)
	taken = append(taken, keepsZero(t, "[[stock]]", stockFields, func() *graph.Stock { return &graph.Stock{} })...)
	taken = append(taken, keepsZero(t, "[prices]", offerFields, func() *graph.Offer { return &graph.Offer{} })...)
	taken = append(taken, keepsZero(t, "[site]", siteFields, func() *graph.Site { return &graph.Site{} })...)
	taken = append(taken, keepsZero(t, "fall", fallFields, func() *graph.LossFall { return &graph.LossFall{} })...)
	taken = append(taken, keepsZero(t, "standing", standingFields, func() *graph.LossStanding { return &graph.LossStanding{} })...)
	taken = append(taken, keepsZero(t, "[heat-loss]", heatLossFields, func() *graph.HeatLoss { return &graph.HeatLoss{} })...)
	taken = append(taken, keepsZero(t, "[cover]", coverFields, func() *graph.Cover { return &graph.Cover{} })...)
	taken = append(taken, keepsZero(t, "[[shell]]", shellFields, func() *graph.Shell { return &graph.Shell{} })...)
	taken = append(taken, keepsZero(t, "[use]", useFields, func() *graph.Use { return &graph.Use{} })...)
	taken = append(taken, keepsZero(t, "[climate]", climateFields, func() *graph.Climate { return &graph.Climate{} })...)
	taken = append(taken, keepsZero(t, "bands", bandFields, func() *graph.TariffBand { return &graph.TariffBand{} })...)
	taken = append(taken, keepsZero(t, "[tariff]", tariffFields, func() *graph.Tariff { return &graph.Tariff{} })...)
	taken = append(taken, keepsZero(t, "cable", cableFields, func() *graph.Cable { return &graph.Cable{} })...)
	taken = append(taken, keepsZero(t, "[[supply]]", supplyFields, func() *graph.Supply { return &graph.Supply{} })...)
	t.Logf("zero is an answer in: %s", strings.Join(taken, ", "))
	for _, want := range []string{"heat-pump standby", "[use] times-a-week", "[site] air", "pump below-water", "union length", "check-valve cracking"} {
		if !slices.Contains(taken, want) {
			t.Errorf("%s takes no zero", want)
		}
	}
}

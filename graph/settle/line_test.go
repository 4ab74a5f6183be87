package settle_test

import (
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"dryfit/catalog"
	"dryfit/catalog/tables"
	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/description"
	"dryfit/graph/settle"
)

// A heater nobody described asks for what its pump can give: 30 l/min behind a pump that runs
// day and night, whose curve ends at some 3 m³/h; 20 US gpm (controller makers' notes), 4.54 m³/h,
// behind a 1.5 in one. What is named stays as named.
func TestHeaterOfTheLine(t *testing.T) {
	const text = `
[pipe]
spec = "pvc-sch40"
size = "1-1/2 in"
[[part]]
id = "tub"
kind = "tub"
ports = ["a", "b"]
[[part]]
id = "pump"
kind = "pump"
type = "PUMP"
[[part]]
id = "element"
kind = "element-heater"
HEATER
[[run]]
from = "tub.a"
to = "pump.in"
length = "1 m"
[[run]]
from = "pump.out"
to = "element.in"
length = "1 m"
[[run]]
from = "element.out"
to = "tub.b"
length = "1 m"
`
	for _, c := range []struct {
		pump, heater string
		want         float64 // m³/h
	}{
		{"circulation-pump-24h", "", 1.8},
		{"plug-in-pump", "", 1.8},
		{"circulation-pump-1.5in", "", 4.542},
		{"two-speed-pump", "", 4.542},
		{"circulation-pump-24h", `type = "element-heater"`, 4.542},
	} {
		read, ds := description.Read("heater.toml", []byte(strings.NewReplacer("PUMP", c.pump, "HEATER", c.heater).Replace(text)))
		if graph.HasErrors(ds) {
			t.Fatal(ds)
		}
		if got := settle.Of(read).Part("element").Least.V * 3600; !agree.Within(got, c.want, 0.001) {
			t.Errorf("%s %s: the heater asks for %.3f m³/h, want %.3f", c.pump, c.heater, got, c.want)
		}
	}
}

// Openings and a filter nobody described are what the trade has in such a line: in a pool that a
// pump of one speed filters one to four inlets and sand or cartridges in a vessel, in a tub many
// jets and a cartridge, behind a pump for circulation open returns; a pump that only drives jets
// drives jets, however few. Common practice, no source; what is named stays as named.
func TestRowsOfTheLine(t *testing.T) {
	const text = `
[pipe]
spec = "pvc-sch40"
size = "1-1/2 in"
[[part]]
id = "tub"
kind = "tub"
ports = [PORTS]
[[part]]
id = "pump"
kind = "pump"
PUMP
[[part]]
id = "filter"
kind = "filter"
FILTER
[[part]]
id = "jets"
kind = "jet-group"
JETS
[[run]]
from = "tub.a"
to = "pump.in"
length = "1 m"
[[run]]
from = "pump.out"
to = "filter.in"
length = "1 m"
[[run]]
from = "filter.out"
to = "jets.in"
length = "1 m"
[[run]]
from = "jets.out"
to = "tub.b"
length = "1 m"
`
	const river = `
[[part]]
id = "river"
kind = "pump"
curve = [["0 m3/h", "16 m"], ["30 m3/h", "0 m"]]
[[part]]
id = "nozzles"
kind = "jet-group"
count = 2
[[run]]
from = "tub.c"
to = "river.in"
length = "1 m"
[[run]]
from = "river.out"
to = "nozzles.in"
length = "1 m"
[[run]]
from = "nozzles.out"
to = "tub.d"
length = "1 m"
`
	const steep = `curve = [["0 m3/h", "13 m"], ["17 m3/h", "0 m"]]`
	for _, c := range []struct{ pump, filter, jets, more, wantFilter, wantJets, wantNozzles string }{
		{`type = "pool-pump"`, "", "count = 2", "", "filter-in-vessel", "pool-inlet", ""},
		{`type = "pool-pump"`, "", "count = 6", "", "filter-in-vessel", "pool-inlet", ""},
		{`type = "pool-pump"`, `media = "cartridge"`, "count = 2\ntype = \"jet\"", "", "cartridge-in-vessel", "jet", ""},
		{`power = "750 W"`, "", "count = 4", "", "filter-in-vessel", "pool-inlet", ""},
		{`power = "750 W"`, "", "count = 5", "", "cartridge-filter", "jet", ""},
		{steep, "", "count = 2", "", "filter-in-vessel", "pool-inlet", ""},
		{steep, `media = "sand"`, "count = 12", "", "sand-filter", "pool-inlet", ""},
		{`curve = [["0 m3/h", "8.9 m"], ["17 m3/h", "0 m"]]`, "", "count = 2", "", "cartridge-filter", "pool-inlet", ""}, // a line about a pump that shuts off below 9 m is no pool's
		{`curve = [["0 m3/h", "9.1 m"], ["17 m3/h", "0 m"]]`, "", "count = 2", "", "filter-in-vessel", "pool-inlet", ""},
		{`curve = [["0 m3/h", "9.1 m"], ["17 m3/h", "0 m"]]`, "", "count = 6", "", "cartridge-filter", "jet", ""},
		{`curve = [["0 m3/h", "127 kPa"], ["17 m3/h", "0 kPa"]]`, "", "count = 2", "", "filter-in-vessel", "pool-inlet", ""},
		{`curve = [["0 m3/h", "70 kPa"], ["9 m3/h", "0 kPa"]]`, "", "count = 12", "", "cartridge-filter", "return-jet", ""},
		{`type = "circulation-pump-1.5in"`, "", "count = 3", "", "cartridge-filter", "return-jet", ""},
		{`type = "circulation-pump-1.5in"`, "", "count = 2", "", "cartridge-filter", "pool-inlet", ""},
		{`type = "two-speed-pump"`, "", "count = 4", "", "cartridge-filter", "jet", ""},
		{`type = "circulation-pump-24h"`, "", "count = 1", "", "cartridge-filter", "pool-inlet", ""},
		{`power = "60 W"`, "", "count = 1", river, "cartridge-filter", "pool-inlet", "jet"},
	} {
		ports := `"a", "b"`
		if c.more != "" {
			ports += `, "c", "d"`
		}
		read, ds := description.Read("line.toml", []byte(strings.NewReplacer("PORTS", ports, "PUMP", c.pump, "FILTER", c.filter, "JETS", c.jets).Replace(text)+c.more))
		if graph.HasErrors(ds) {
			t.Fatal(ds)
		}
		stage := settle.Of(read)
		for id, want := range map[string]string{"filter": c.wantFilter, "jets": c.wantJets, "nozzles": c.wantNozzles} {
			if want == "" {
				continue
			}
			if got := stage.Part(id).Loss.Row.Name; got != want {
				t.Errorf("%s, %s, %s: %s is taken for %q, want %q", c.pump, c.filter, c.jets, id, got, want)
			}
		}
	}
}

// The drop of a pool's filter bends between sand's and paper's where nothing says what is in it; a row of the user's
// that does not say it either bends as what would stand in its place without it.
func TestBendOfAFilter(t *testing.T) {
	const row = `
[[catalog.filter]]
name = "mine"
loss = { flow = "10 m3/h", drop = "12 kPa" }
rating = "3.5 bar"
source = "its plate"
tag = "own"
`
	const line = `
[pipe]
spec = "pvc-sch40"
size = "2 in"
[[part]]
id = "tub"
kind = "tub"
ports = ["a", "b"]
[[part]]
id = "pump"
kind = "pump"
PUMP
[[part]]
id = "filter"
kind = "filter"
FILTER
[[run]]
from = "tub.a"
to = "pump.in"
length = "1 m"
[[run]]
from = "pump.out"
to = "filter.in"
length = "1 m"
[[run]]
from = "filter.out"
to = "tub.b"
length = "1 m"
`
	either, paper, sand := tables.ExponentOf("filter-in-vessel", "filter"), tables.ExponentOf("cartridge-filter", "filter"), tables.ExponentOf("sand-filter", "filter")
	if !(sand.Low <= either.Low && either.Low < paper.Low && either.High > sand.High && either.High <= paper.High && sand.Likely < either.Likely && either.Likely < paper.Likely) {
		t.Errorf("either %v, sand %v, paper %v", either, sand, paper)
	}
	for _, c := range []struct {
		pump, filter string
		want         tables.Exponent
	}{
		{"pool-pump", "", either},
		{"pool-pump", `type = "mine"`, either},
		{"pool-pump", `loss = { flow = "10 m3/h", drop = "12 kPa" }`, either},
		{"pool-pump", `media = "sand"`, sand},
		{"pool-pump", "type = \"mine\"\nmedia = \"sand\"", sand},
		{"pool-pump", "type = \"mine\"\nmedia = \"cartridge\"", paper},
		{"two-speed-pump", "", paper},
		{"two-speed-pump", `type = "mine"`, paper},
	} {
		text := row + strings.NewReplacer("PUMP", fmt.Sprintf("type = %q", c.pump), "FILTER", c.filter).Replace(line)
		read, ds := description.Read("line.toml", []byte(text))
		if graph.HasErrors(ds) {
			t.Fatal(ds)
		}
		got := settle.Of(read).Part("filter").Loss.Exponent
		if got.V != c.want.Likely || !agree.Within(got.V*(1+got.Low), c.want.Low, 1e-9) || !agree.Within(got.V*(1+got.High), c.want.High, 1e-9) {
			t.Errorf("%s, %q: %g, %g to %g, want %v", c.pump, c.filter, got.V, got.V*(1+got.Low), got.V*(1+got.High), c.want)
		}
	}
}

// A filter whose row says what is in it is that of one whose key says it: sand in the line of a pump
// makes it a pool's, named or written. The property of every row that names a style.
func TestMediaByRowOrByKey(t *testing.T) {
	data, err := os.ReadFile("../../testdata/two-speed.toml")
	if err != nil {
		t.Fatal(err)
	}
	c, ds := description.Read("two-speed", data)
	if c == nil {
		t.Fatal(ds)
	}
	rows := 0
	for r := range catalog.Embedded().All() {
		media := strings.TrimSuffix(r.Style, "-filter")
		if r.Kind != string(graph.Filter) || media == r.Style {
			continue
		}
		rows++
		of := func(media string) *settle.Stage {
			now, filter := *c, *c.Part("filter")
			filter.Type, filter.Loss, filter.Filter = r.Name, nil, &graph.FilterData{Media: media}
			now.Parts = slices.Clone(c.Parts)
			now.Parts[slices.Index(c.Parts, c.Part("filter"))] = &filter
			return settle.Of(&now)
		}
		named, said := of(""), of(media)
		sameValues(t, r.Name, said, named)
		if pool := named.Pool(c.Part("pump")); pool != (media == settle.Sand) || pool != said.Pool(c.Part("pump")) {
			t.Errorf("%s: a pool's pump: %v by the row, %v by the key", r.Name, pool, said.Pool(c.Part("pump")))
		}
		if got, want := named.Part("filter").Media(), media; got != want {
			t.Errorf("%s holds %q, want %q", r.Name, got, want)
		}
	}
	if rows < 3 {
		t.Errorf("only %d rows", rows)
	}
}

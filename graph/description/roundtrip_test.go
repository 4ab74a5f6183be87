package description

import (
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"github.com/pelletier/go-toml/v2"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/description/located"
)

// demos returns the five whole descriptions.
func demos(t testing.TB) map[string][]byte {
	t.Helper()
	files, err := filepath.Glob(filepath.Join("..", "..", "testdata", "*.toml"))
	if err != nil || len(files) != 5 {
		t.Fatalf("%d demos, want 5: %v", len(files), err)
	}
	out := map[string][]byte{}
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		out[filepath.Base(file)] = data
	}
	return out
}

// sameCircuit compares circuits but for the places in the file and the file's name.
var sameCircuit = cmp.Options{
	cmpopts.EquateEmpty(),
	cmpopts.IgnoreTypes(graph.Pos{}, map[string]graph.Pos{}, graph.Written("")),
	cmpopts.IgnoreFields(graph.Circuit{}, "File"),
	cmpopts.IgnoreFields(catalog.Row{}, "Origin"),
	cmp.Transformer("ownRows", func(c *catalog.Catalog) []catalog.Row {
		var own []catalog.Row
		for _, r := range c.Rows() {
			if r.Own {
				own = append(own, r)
			}
		}
		return own
	}),
}

// roundTrip fails where a circuit is not the same once written and read again.
func roundTrip(t *testing.T, c *graph.Circuit) {
	t.Helper()
	text := Write(c)
	again, ds := Read("again.toml", text)
	if again == nil {
		t.Fatalf("what Write wrote can't be read:\n%s\n%s", located.Render(ds, map[string][]byte{"again.toml": text}, quantity.MetricSystem, false), text)
	}
	if d := cmp.Diff(c, again, sameCircuit); d != "" {
		t.Fatalf("another circuit came back (-read +read again):\n%s\n%s", d, text)
	}
	if d := cmp.Diff(string(text), string(Write(again))); d != "" {
		t.Fatalf("written twice, it differs:\n%s", d)
	}
}

func TestDemos(t *testing.T) {
	for name, data := range demos(t) {
		t.Run(name, func(t *testing.T) {
			c, ds := Read(name, data)
			if c == nil {
				t.Fatalf("not clean:\n%s", located.Render(ds, map[string][]byte{name: data}, quantity.MetricSystem, false))
			}
			if !bytes.Contains(data, []byte("Everything in this file is invented")) {
				t.Error("the demo does not say that it is invented")
			}
			roundTrip(t, c)
			// Windows line ends and a byte order mark change nothing.
			windows := append([]byte("\xef\xbb\xbf"), bytes.ReplaceAll(data, []byte("\n"), []byte("\r\n"))...)
			w, ds := Read(name, windows)
			if w == nil {
				t.Fatalf("not clean with Windows line ends: %v", ds)
			}
			if d := cmp.Diff(c, w, cmp.Options{sameCircuit[0], sameCircuit[4], sameCircuit[3]}); d != "" {
				t.Errorf("Windows line ends move or change something:\n%s", d)
			}
		})
	}
}

// everything uses every key a description can have.
const everything = `
[job]
name = "all \"keys\""
reference = "r"
prepared-by = "p"
revision = "B"
date = 2026-01-31
notes = ["one", "two\nlines"]
units = "inch"
kerf = "1/16 in"
currency = "EUR"
photos = ["cabinet.jpg", "left/behind.png"]

[water]
volume = "300 gal"
temperature = "100 °F"
density = "993 kg/m3"
viscosity = "0.68 mPa s"
notes = "n"

[pipe]
spec = "pvc-sch40"
size = "1 1/2 in"
measured-outside-diameter = "48.3 mm"

material = "abs"

[site]
region = "uk"
earthing = "tn-c-s"
air = "0 °C"
heat-up-in = "12 h"
fill = "50 °F"
room = "24 °C"
sheltered = "30 %"

[heat-loss]
fall = { from = "38 °C", to = "36 °C", in = "24 h", air = "0 °C", plus-minus = "0.2 K", heat = "0 W" }
standing = { power = "310 W", water = "38 °C", air = "15 °C" }
ua = "9.1 W/K"

[cover]
area = "45 ft2"
r = 12

[[shell]]
name = "walls"
area = "7.4 m2"
resistance = "1.9 m2 K/W"

[[shell]]
area = "3 m2"
r = 0.5

[use]
open = "45 min"
times-a-week = 0
at = "20:00"
area = "4 m2"
activity = 0.5
wind = "0 m/s"
bathers = 3
between = ["36 °C", "39.5 °C"]
heating = ["00:30-04:30", "23:00-24:00"]
refills = 3

[climate]
file = "weather.epw"
zone = "+1"
swing = "8 K"
humidity = "80 %"
wind = ["4 m/s", "4 m/s", "4 m/s", "4 m/s", "4 m/s", "4 m/s", "4 m/s", "4 m/s", "4 m/s", "4 m/s", "4 m/s", "0 m/s"]
day-to-day = "2.5 K"

[tariff]
price = "0"
standing = "0.45"
work = "420"
bands = [{ from = "23:00", to = "07:00", price = "0.15" }]

[[supply]]
feeds = ["pump"]
voltage = "230 V"
rating = "16 A"
continuous = "80 %"
connection = "own-circuit"
impedance = "0.4 ohm"
cable = { size = "2.5 mm2", length = "22 m", kind = "flexible", drop = "18 mV/A/m" }

[[supply]]
rating = "13 A"

[[catalog.jet-group]]
name = "my jet"
bore = "7.1 mm"
k = 1.05
source = "measured here"

[[catalog.elbow-90]]
spec = "pvc-sch40"
size = "1 1/2 in"
take-off = "31 mm"
source = "measured here"

[[catalog.pump]]
name = "my pump"
speeds = [{ name = "slow", ratio = 0.5 }, { name = "fast", power = "1 hp", curve = [["0 gpm", "40 ft"], ["60 gpm", "20 ft"]] }]
source = "its sheet"

[[part]]
id = "tub"
kind = "tub"
ports = ["a", "b", "c", "d e"]
loss = "none"
below-water = "1 ft 6 in"
port.b = { at = ["right 12 in", "down 4 in", "front 1/3 in"], faces = "front", size = "2 in", cover-rating = "95 l/min" }

[[part]]
id = "pump"
kind = "pump"
existing = true
type = "my pump"
always-on = true
runs-for-heat = "contact"
check = true
npsh = [["8 m3/h", "2 m"], ["12 m3/h", "30 kPa"]]
highest-pressure = "12 m"
note = "n"
clear = "0 mm"
reachable = false
play = "1 in"
pushes-aside = true

[[part]]
id = "Düse"
kind = "jet-group"
existing = true
type = "my jet"
count = 8
bore = "6.5 mm"
k = 0
rated = { flow = "9 gpm", drop = "12 psi" }
port.air = { faces = "up", air = true }

[[part]]
id = "spare"
kind = "jet-group"
existing = true
removed = true
count = 1

[[part]]
id = "check"
kind = "check-valve"
type = "spring-check 2 psi"
style = "spring"
cracking = "2 psi"
loss = { k = 4.5, bore = "40 mm" }
spec = "pvc-sch40"
size = "1 1/2 in"
length = "95 mm"
known = "measured"

[[part]]
id = "valve"
kind = "gate-valve"
position = "33.3 %"
kv = "20 m3/h"

[[part]]
id = "diverter"
kind = "diverter-valve"
ports = ["in", "left", "right"]
ways = { left = "open", right = "12.5 %" }
loss = { cv = "36 gpm" }

[[part]]
id = "filter"
kind = "filter"
media = "sand"
dirty-factor = 2.5
outside-diameter = "14 in"
box = { from = ["left 3 in", "down 10 mm", "front 0.5 in"], to = ["right 250 mm", "up 1 ft", "back 9 in"] }
keep-clear = [{ from = ["left 2 ft"], to = ["right 250 mm", "up 1 ft", "front 9 in"], what = "hatch" }]
least-flow = "20 gpm"
loss = { points = [["5 m3/h", "2 kPa"], ["10 m3/h", "0.7 m"]] }

[[part]]
id = "element"
kind = "element-heater"
ends = "thread"
power = "2.25 kW"
interlock = "controller-mode"
set-point = "98 °F"
disconnected = true
starting = "0 A"
power-factor = 1
phases = 1
loss = { kv = "31 m3/h" }

[[part]]
id = "tee"
kind = "tee"
branch-size = "1 in"

[[part]]
id = "pump 2"
kind = "pump"
starting = "20 A"
power-factor = 0.8
phases = 3
speeds = { low = { ratio = 0.55, amps = "2.2 A", volts = "230 V", hours-a-day = 0 }, high = { power = "1.9 kW", curve = [["0 l/min", "1.2 bar"], ["300 l/min", "0.4 bar"]], efficiency = 0.41 } }

[[part]]
id = "pump 3"
kind = "pump"
curve = [["0 m3/h", "3 m"], ["2 m3/h", "1 m"]]
power = "90 W"
amps = "0.6 A"
volts = "230 V"
efficiency = 0.3
hours-a-day = 12

[[part]]
id = "unit"
kind = "heat-pump"
known = "data-sheet"
ports-size = "1 in"
flow = { least = "20 l/min", rated = "25 imp-gpm", most = "2 l/s" }
ratings = [{ air = "0 °C", water = "5 °C", output = "5 kW", cop = 3.5, humidity = "0 %", defrost = true, water-is = "entering" }, { air = "-7 °C", water = "38 °C", output = "4.5 kW", input = "1.5 kW" }]
electric = { voltage = "230 V", phases = 3, full-load = "14.5 A", fuse = "20 A" }
set-point = "0 °C"
least-air = "0 °C"
most-water = "104 °F"
called-by = "controller"
stops-at-high-limit = false
drain-plug = true
refrigerant = "R290"
stands-on = "feet"
outside = false
from-water = "0 mm"
blows = "front"
service-side = "left"
clearances = { behind = "0 mm", fan = "2 m", service = "24 in" }
inverter = true
least-output = "2 kW"
standby = "0 W"
start-loss = "0.05 kWh"
humidity = "70 %"
defrost = false
water-is = "leaving"
port.out = { at = ["up 220 mm"], faces = "left" }
loss = { flow = "25 l/min", drop = "3 ft", exponent = 1.85 }

[[part]]
id = "manifold"
kind = "manifold"
ports = ["in", "a"]

[[part]]
id = "blower"
kind = "blower"
power = "700 W"
air = "8 l/s"
existing = true

[[run]]
from = "tub.a"
to = "pump.in"
existing = true
legs = ["right 12 ft 6 1/2 in", { leg = "up 275 mm back 275 mm", clear = "50 mm", reachable = true, play = "0 mm", spring-aside = false }, { leg = "right 1 m", pushes-aside = true }]
measured = "faces"
measured-outside-diameter = "48.2 mm"
known = "measured"
insulated = true
outside = true
insulation = "0 mm"
buried = "600 mm"
through-wall = true

[[run]]
id = "old"
from = "pump.out"
to = "Düse.in"
existing = true
removed = true
length = "2.5 m"
fittings = { elbow-90 = 2, "elbow-22.5" = 1 }

[[run]]
id = "rest"
from = "pump.out"
to = "check.in"
remains-of = "old"
length = "1.1 m"

[[run]]
from = "check.out"
to = "valve.in"
size = "2 in"
length = "0 mm"

[[run]]
from = "valve.out"
to = "diverter.in"
bore = "39.9 mm"
roughness = "0 mm"
k = 1.5
spec = "flex-inch"
length = "1 m"

[[run]]
from = "diverter.left"
to = "filter.in"
length = "1 m"

[[run]]
from = "filter.out"
to = "element.in"
length = "1 m"

[[run]]
from = "element.out"
to = "tee.run-in"
length = "1 m"

[[run]]
from = "tee.run-out"
to = "Düse.in"
length = "1 m"

[[run]]
from = "Düse.out"
to = "tub.b"
existing = true
length = "0 mm"

[[run]]
from = "diverter.right"
to = "pump 2.in"
length = "1 m"

[[run]]
from = "pump 2.out"
to = "pump 3.in"
length = "1 m"

[[run]]
from = "pump 3.out"
to = "tub.c"
adaptors-kept = ["tub.c"]
length = "1 m"

[[run]]
from = "tee.branch"
to = "manifold.in"
length = "1 m"
material = "cpvc"
fittings = { elbow-45 = 1, elbow-90-sweep = 3, coupling = 4, slip-coupling = 1, union = 2 }
clear = "80 mm"
reachable = false
play = "0 mm"
pushes-aside = false

[[run]]
from = "manifold.a"
to = "tub.d e"
legs = ["up 1 m"]

[[run]]
from = "blower.in"
to = "Düse.air"
existing = true
air = true
length = "1 m"

[[mode]]
name = "one"
speeds = { pump = "slow", "pump 2" = "high" }
positions = { valve = "7 %" }
jets = "62.5 %"
filter = "dirty"

[[mode]]
name = "two"

[retrofit]
inside = true
unit = "unit"
remove = true
cut = { run = "old", leg = 1, at = "350 mm" }
bypass = "spring"
spring = "1.5 psi"
branch = "front"
spec = "pvc-sch80"
size = "1 1/2 in"
bypass-size = "2 in"
isolators = "gate-valve"
true-union = false
extra = "100 mm"
drains = true
feeder-check = false
to-unit = ["front 300 mm", { leg = "up 1 m", clear = "0 mm", reachable = true, play = "3 mm", pushes-aside = true }, "right ?"]
from-unit = [{ leg = "back 300 mm", clear = "5 mm", reachable = false, play = "0 mm", pushes-aside = false }]
bleeds = false
adaptors-kept = ["pump.out", "Düse.in"]
slip-coupling = true
service-valve = true
at = ["front 300 mm", "right 1800 mm", "down 9 7/8 in"]
at-from = "tub.a"
ports-face = "left"
keep-clear = [{ from = ["right 600 mm"], to = ["right 1400 mm", "front 900 mm", "down 800 mm"], what = "door" }, { from = [], to = ["left 1 m", "up 1 m", "back 1 m"] }]
along = [{ leg = "down 250 mm", clear = "5 mm", reachable = false, play = "0 mm", pushes-aside = false }]

[[stock]]
spec = "pvc-sch40"
size = "2 in"
length = "10 ft"
price = "14.20"
count = 3
offcut = true

[cabinet]
at-from = "tub.b"
from = ["left 200 mm", "down 700 mm", "front 1 ft"]
to = ["right 1900 mm", "back 100 mm"]

[[reading]]
at = "pump.out"
mode = "one"
flow = "5.2 m3/h"
pressure = "0.4 bar"
plus-minus = "0.05 bar"

[[accept]]
promise = "least-flow"
mode = "one"
reason = "the owner will have the pump measured"

[prices]
margin = "0 %"
tax = "19 %"
tee = "4"
"elbow-90 pvc-sch40 2 in" = { price = "1.10", code = "E\u00e9" }
unit = "1000.50"
`

// instead are the keys that can't stand beside others: the lines of everything that they replace.
var instead = strings.NewReplacer("r = 12\n", "resistance = \"2.1 m2 K/W\"\n",
	"curve = [[\"0 m3/h\", \"3 m\"], [\"2 m3/h\", \"1 m\"]]\npower = \"90 W\"\namps = \"0.6 A\"\nvolts = \"230 V\"\nefficiency = 0.3\nhours-a-day = 12\n",
	`speeds = [{ name = "low", ratio = 0.5, hours-a-day = 12 }, { name = "high", curve = [["0 m3/h", "3 m"], ["2 m3/h", "1 m"]], power = "90 W", amps = "0.6 A", volts = "230 V", efficiency = 0.3 }]`+"\n",
	"file = \"weather.epw\"\nzone = \"+1\"\n", "air = ["+strings.Repeat("\"9 °C\", ", 12)+"]\n")

// otherwise are keys that are written back in another form, and which.
var otherwise = map[string]string{
	"loss.cv": "as kv", "speeds.NAME": "as a list, each with its name", "run.air": "told by the ports it joins",
	"power of pump": "as a list of one speed", "amps of pump": "as a list of one speed", "volts of pump": "as a list of one speed", "efficiency of pump": "as a list of one speed", "curve of pump": "as a list of one speed", "hours-a-day of pump": "as a list of one speed",
	"spring-aside": "under its name of today",
}

// Every key of the schema is read, written and read again: none is tried by no test, none lost.
// The keys of rows are those of the test below.
func TestEverythingRoundTrips(t *testing.T) {
	var tried, written []any
	for _, text := range []string{everything, instead.Replace(everything)} {
		c, ds := Read("all.toml", []byte(text))
		if c == nil {
			t.Fatal(located.Render(ds, map[string][]byte{"all.toml": []byte(text)}, quantity.MetricSystem, false))
		}
		roundTrip(t, c)
		tried, written = append(tried, asTOML(t, []byte(text))), append(written, asTOML(t, Write(c)))
	}
	used := map[string]bool{}
	for _, k := range Keys() {
		if k.Path[0] == "catalog" && len(k.Path) > 1 {
			continue
		}
		last := k.Path[len(k.Path)-1]
		if last != "spring-aside" && strings.Join(k.Path, ".") != "part.speeds.NAME.name" && !holds(tried, k.Path, k.Kinds) {
			t.Errorf("%s of %v is tried by no test", strings.Join(k.Path, "."), k.Kinds)
		}
		if holds(written, k.Path, k.Kinds) {
			continue
		}
		how := ""
		for _, name := range []string{last, strings.Join(k.Path[max(0, len(k.Path)-2):], "."), strings.Join(k.Path[max(0, len(k.Path)-3):len(k.Path)-1], "."), last + " of " + strings.Join(k.Kinds, "")} {
			if otherwise[name] != "" {
				how, used[name] = otherwise[name], true
			}
		}
		if how == "" {
			t.Errorf("%s of %v is read and not written back", strings.Join(k.Path, "."), k.Kinds)
		}
	}
	for name := range otherwise {
		if !used[name] {
			t.Errorf("%s is written back as it stands", name)
		}
	}
}

// Every row that is built in, written as one of the user's own, is read again as the same; and
// between them, with those written here, they have every key of a row.
func TestEveryRowRoundTrips(t *testing.T) {
	rows := slices.Clone(catalog.Embedded().Rows())
	for i := range rows {
		rows[i].Own = true
	}
	own, ds := ReadCatalog("own.toml", []byte(rareKeys))
	if ds != nil {
		t.Fatal(located.Render(ds, map[string][]byte{"own.toml": []byte(rareKeys)}, quantity.MetricSystem, false))
	}
	for i := range own {
		own[i].Own = true
	}
	rows = append(rows, own...)
	var b strings.Builder
	writeRows(&b, catalog.Embedded().With(rows))
	again, ds := ReadCatalog("rows.toml", []byte(b.String()))
	if ds != nil {
		t.Fatal(located.Render(ds, map[string][]byte{"rows.toml": []byte(b.String())}, quantity.MetricSystem, false))
	}
	if len(again) != len(rows) {
		t.Errorf("%d rows of %d come back", len(again), len(rows))
	}
	said := func(rows []catalog.Row) map[string]string {
		out := map[string]string{}
		for i := range rows {
			for s := range rows[i].Says() {
				out[rows[i].Kind+" "+rows[i].Name] += s.Key + " = " + rowValue(s.Value) + "\n"
			}
		}
		return out
	}
	if d := cmp.Diff(said(rows), said(again)); d != "" {
		t.Errorf("other rows came back (-written +read):\n%s", d)
	}
	tried := []any{asTOML(t, []byte(b.String())), asTOML(t, []byte(rareKeys))} // a loss is written in columns, a cv as kv
	for _, k := range Keys() {
		if k.Path[0] == "catalog" && k.Path[len(k.Path)-1] != "kind" && !holds(tried, k.Path, nil) {
			t.Errorf("%s is tried by no test", strings.Join(k.Path, "."))
		}
	}
}

// rareKeys are rows with the keys that no row has that is built in; a new key of a row that none of
// those says stands in one of these.
const rareKeys = `
[[catalog.heat-pump]]
name = "unit of another voltage"
size = "1 1/2 in"
least = "1.8 m3/h"
rated = "2.8 m3/h"
most = "5 m3/h"
loss-flow = "2.8 m3/h"
loss-drop = "9 kPa"
rating = "2 bar"
ratings = [{ air = "7 °C", water = "38 °C", output = "5.4 kW", input = "1.55 kW" }]
full-load = "15 A"
voltage = "120 V"
source = "made up"

[[catalog.filter]]
rating = "3.5 bar"
name = "by its exponent"
loss = { flow = "10 m3/h", drop = "6 kPa", exponent = 1.7 }
source = "x"

[[catalog.filter]]
rating = "3.5 bar"
name = "in columns"
loss-flow = "10 m3/h"
loss-drop = "6 kPa"
exponent = 1.7
source = "x"

[[catalog.uv-chamber]]
rating = "3.5 bar"
name = "by its kv"
kv = "31 m3/h"
source = "x"

[[catalog.uv-chamber]]
rating = "3.5 bar"
name = "by its cv"
cv = "36 gpm"
source = "x"

[[catalog.pump]]
name = "of one speed"
curve = [["0 m3/h", "9 m"], ["10 m3/h", "3 m"]]
power = "700 W"
source = "x"

[[catalog.barb]]
spec = "hose"
size = "38 mm"
spec2 = "pvc-sch40"
size2 = "1 1/2 in"
bore = "33 mm"
ends = "barb/spigot"
length = "40 mm"
socket = "29 mm"
k = 0.5
clips = 1
source = "x"

[[catalog.gate-valve]]
name = "with its opening"
size = "2 in"
spec = "pvc-sch40"
length = "90 mm"
socket = "29 mm"
ends = "socket"
rating = "10 bar"
k = 4
opening = [["0 %", "0 %"], ["50 %", "20 %"], ["100 %", "100 %"]]
source = "x"
`

func asTOML(t *testing.T, text []byte) any {
	t.Helper()
	var out map[string]any
	if err := toml.Unmarshal(text, &out); err != nil {
		t.Fatal(err)
	}
	return out
}

// holds reports whether a description, read as TOML, has a key at a path; of a part one of the
// kinds, where there are any.
func holds(at any, path, kinds []string) bool {
	switch at := at.(type) {
	case []any:
		return slices.ContainsFunc(at, func(x any) bool { return holds(x, path, kinds) })
	case map[string]any:
		if len(path) == 0 {
			return true
		}
		if kind, ok := at["kind"].(string); ok && kinds != nil && !slices.Contains(kinds, kind) {
			return false
		}
		if path[0] == named || path[0] == "KIND" {
			for _, x := range at {
				if holds(x, path[1:], kinds) {
					return true
				}
			}
			return false
		}
		x, ok := at[path[0]]
		return ok && holds(x, path[1:], kinds)
	}
	return len(path) == 0
}

package main

import (
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"dryfit/cmd/dryfit/world"
	"dryfit/graph/description"
	"dryfit/graph/lots"
	"dryfit/graph/whatif"
)

// typed is what the person of the test types into the blanks of a template, by the last word of
// the key, in turn; invented.
var typed = map[string]map[string][]string{"two-speed": {
	"name": {"An invented tub"}, "volume": {"1300 l"}, "size": {"2 in"}, "measured-outside-diameter": {"60.3 mm"}, "material": {"pvc-u"},
	"region": {"eu"}, "earthing": {"tn-s"}, "cover-rating": {"34 m3/h"}, "runs-for-heat": {"hours"}, "disconnected": {"true"}, "count": {"16"},
	"length": {"830 mm", "340 mm", "520 mm"}, "play": {"60 mm"}, "legs": {"right 200 mm, up 300 mm, left 1600 mm, up 200 mm"}, "ports-size": {"1 1/2 in"},
	"least": {"2.8 m3/h"}, "rated": {"4.2 m3/h"}, "most": {"8.4 m3/h"}, "flow": {"4.2 m3/h"}, "drop": {"6 kPa"}, "highest-pressure": {"3.5 bar"},
	"air": {"-6 °C", "15 °C"}, "water": {"38 °C"}, "output": {"11 kW"}, "input": {"2.8 kW"}, "voltage": {"230 V"}, "full-load": {"14 A"},
	"set-point": {"38 °C"}, "least-air": {"-12 °C"}, "most-water": {"40 °C"}, "stops-at-high-limit": {"true"}, "drain-plug": {"true"},
	"refrigerant": {"R32"}, "stands-on": {"slab"}, "from-water": {"2.4 m"}, "at": {"up 240 mm", "front 700 mm, left 2000 mm, down 250 mm"}, "ports-face": {"right"},
}, "plunge-pool": {
	"name": {"An invented pool"}, "volume": {"4.2 m3"}, "temperature": {"34 °C"}, "size": {"63 mm"}, "measured-outside-diameter": {"63 mm"}, "material": {"pvc-u"},
	"region": {"uk"}, "earthing": {"tt"}, "cover-rating": {"26 m3/h"}, "runs-for-heat": {"contact"},
	"length": {"4.5 m", "3.8 m", "400 mm", "900 mm", "600 mm", "5 m", "7 m"}, "play": {"50 mm"}, "legs": {"right 250 mm, up 400 mm, left 1900 mm"}, "ports-size": {"50 mm"},
	"least": {"2.5 m3/h"}, "rated": {"4 m3/h"}, "most": {"8 m3/h"}, "flow": {"4 m3/h"}, "drop": {"7 kPa"}, "highest-pressure": {"3 bar"},
	"air": {"-3 °C", "15 °C"}, "water": {"38 °C"}, "output": {"12 kW"}, "input": {"2.9 kW"}, "voltage": {"230 V"}, "full-load": {"15 A"},
	"set-point": {"34 °C"}, "least-air": {"-10 °C"}, "most-water": {"40 °C"}, "stops-at-high-limit": {"true"}, "drain-plug": {"true"},
	"refrigerant": {"R290"}, "stands-on": {"slab"}, "from-water": {"2.6 m"}, "at": {"up 260 mm", "front 800 mm, left 2600 mm, down 200 mm"}, "ports-face": {"right"},
}}

// A person with a browser and no editor: picks a circuit, fills in its blanks, has one typed
// wrong refused with what would be right, and comes to a pack. The suite types into a few of one
// circuit and saves the rest as the page would write them; -wide types all, of two circuits.
func TestFromACircuitToAPack(t *testing.T) {
	t.Parallel()
	path, err := exec.LookPath("chromium")
	if err != nil {
		t.Skip("no chromium is installed")
	}
	for circuit, c := range map[string]struct {
		first string // of its runs, as the drawing has it
		modes int
	}{"two-speed": {"run:tub.skimmer-to", 2}, "plunge-pool": {"run:pool.skimmer-to", 3}} {
		if circuit != "plunge-pool" && !lots.All() {
			continue
		}
		t.Run(circuit, func(t *testing.T) { fromACircuitToAPack(t, path, circuit, c.first, c.modes) })
	}
}

func fromACircuitToAPack(t *testing.T, chromium, circuit, first string, modes int) {
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "mine.toml"), []byte("mine"), 0o600); err != nil {
		t.Fatal(err)
	}
	s := startServe(t, dir, "--listen", "127.0.0.1:0")
	opts := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(chromium), chromedp.NoSandbox, chromedp.UserDataDir(t.TempDir()),
		chromedp.DisableGPU, chromedp.Flag("force-prefers-reduced-motion", true)) // water that runs along the pipes is drawn anew all the time
	ctx, cancel := chromedp.NewExecAllocator(t.Context(), opts...)
	defer cancel()
	ctx, cancel = chromedp.NewContext(ctx)
	defer cancel()
	js := func(expression string) string {
		t.Helper()
		got, err := chromedp.Run(ctx, chromedp.Evaluate[any]("String("+expression+")"))
		if err != nil {
			t.Fatalf("%s: %v", expression, err)
		}
		text, _ := got.(string)
		return text
	}
	wait := func(what, expression string) {
		t.Helper()
		for limit := time.Now().Add(90 * time.Second); time.Now().Before(limit); time.Sleep(20 * time.Millisecond) {
			if js(expression) == "true" {
				return
			}
		}
		t.Fatalf("waited in vain: %s; %s", what, js(`document.getElementById("status").textContent`))
	}
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(1280, 900), chromedp.Navigate(s.links[0])); err != nil {
		t.Fatal(err)
	}
	wait("the circuits", fmt.Sprintf(`document.querySelectorAll(".card svg").length === %d`, len(description.Templates())))
	// names that are taken, or lead elsewhere, are refused
	for _, name := range []string{"mine.toml", "../other.toml", "job.txt", "/job.toml"} {
		js(fmt.Sprintf(`(document.getElementById("begin-name").value = %q, document.getElementById("begin-said").textContent = "", document.querySelector("[data-begin=%s]").click())`, name, circuit))
		wait("a refusal of "+name, `document.getElementById("begin-said").textContent !== ""`)
	}
	if data, err := os.ReadFile(filepath.Join(dir, "mine.toml")); err != nil || string(data) != "mine" {
		t.Fatal("a file of the user's is written over")
	}
	js(fmt.Sprintf(`(document.getElementById("begin-name").value = "job.toml", document.querySelector("[data-begin=%s]").click())`, circuit))
	wait("the form", `document.querySelectorAll(".key.blank input").length > 20 && document.querySelector(".where svg") !== null`)

	file := filepath.Join(dir, "job.toml")
	read := func() string {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		return string(data)
	}
	remarks := strings.Count(read(), "#")
	// a value without its unit is refused beside the field, and the file stays
	was := read()
	js(`(() => { const f = document.getElementById("key-water-volume"); f.value = "1300"; f.dispatchEvent(new Event("change", {bubbles: true})); return 0; })()`)
	wait("a refusal beside the field", `document.getElementById("key-water-volume").closest(".key").querySelector(".said").textContent.includes("unit")`)
	if read() != was {
		t.Error("refused, and written all the same")
	}
	used := map[string]int{}
	answer := func(label string) string {
		t.Helper()
		key := label[strings.LastIndexAny(label, " .")+1:]
		list := typed[circuit][key]
		if list == nil {
			t.Fatalf("nobody answers %s", label)
		}
		value := list[min(used[key], len(list)-1)]
		used[key]++
		return value
	}
	for n := range 80 {
		left := js(`document.querySelectorAll(".key.blank input").length`)
		if left == "0" {
			break
		}
		id := js(`document.querySelector(".key.blank input").id`)
		label := js(`document.querySelector(".key.blank label").textContent`)
		value := answer(label)
		before := read()
		js(fmt.Sprintf(`(() => { document.querySelectorAll(".said").forEach((s) => { s.textContent = ""; }); const f = document.getElementById(%q); f.focus(); f.value = %q; f.dispatchEvent(new Event("change", {bubbles: true})); return 0; })()`, id, value))
		wait(label+" = "+value, fmt.Sprintf(`document.querySelectorAll(".key.blank input").length < %s || [...document.querySelectorAll(".said")].some((s) => s.textContent !== "")`, left))
		if said := js(`[...document.querySelectorAll(".said")].map((s) => s.textContent).join("")`); said != "" {
			t.Fatalf("%s = %q: %s", label, value, said)
		}
		if read() == before {
			t.Fatalf("%s = %q is not in the file", label, value)
		}
		if n == 3 { // where a key is measured is marked in the small drawing
			if err := chromedp.Do(ctx, chromedp.Click("#key-run-0-length")); err != nil {
				t.Fatal(err)
			}
			wait("the first run marked", fmt.Sprintf(`document.querySelector(".where svg [class^='%s'].lit") !== null`, first))
			if !lots.All() {
				text := read()
				for _, b := range blanksOf(t, js) {
					text = filled(t, text, b, answer(b.Label))
				}
				if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
					t.Fatal(err)
				}
				wait("no blank left", `document.querySelectorAll(".key.blank input").length === 0`)
			}
		}
	}
	if got := strings.Count(read(), "#"); got != remarks {
		t.Errorf("%d remarks of %d are left", got, remarks)
	}
	wait("the papers", `document.getElementById("status").textContent.startsWith("Everything") && document.querySelectorAll("#page figure svg").length > 3`+fmt.Sprintf(` && document.querySelectorAll("#side .mode").length === %d`, modes))
	out := filepath.Join(dir, "pack")
	w := world.New()
	if code := run([]string{"pack", "-q", file, "-o", out}, w); code == world.WrongUse {
		t.Fatal("no pack can be made of it")
	}
	if _, err := os.Stat(filepath.Join(out, "index.html")); err != nil {
		t.Error(err)
	}
}

// blank is a field of the form that nobody filled in, and where its value stands in the file.
type blank struct {
	Label string `json:"label"`
	Path  []any  `json:"path"`
}

// blanksOf reads the blanks off the page, all at once.
func blanksOf(t *testing.T, js func(string) string) []blank {
	t.Helper()
	var out []blank
	if err := json.Unmarshal([]byte(js(`JSON.stringify([...document.querySelectorAll(".key.blank")].map((k) => ({ label: k.querySelector("label").textContent, path: JSON.parse(k.querySelector("input").dataset.path) })))`)), &out); err != nil {
		t.Fatal(err)
	}
	for _, b := range out {
		for i, step := range b.Path { // JSON has one kind of number
			if n, ok := step.(float64); ok {
				b.Path[i] = int(n)
			}
		}
	}
	return out
}

// filled is a description with one blank filled in, as the page writes it.
func filled(t *testing.T, text string, b blank, value string) string {
	t.Helper()
	out, err := (&whatif.Job{File: "job.toml", Text: []byte(text)}).Fill(b.Path, value)
	if err != nil {
		t.Fatalf("%s = %q: %v", b.Label, value, err)
	}
	return string(out)
}

package live

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"dryfit/catalog/quantity"
	"dryfit/graph/plan"
	"dryfit/graph/whatif"
	"dryfit/render/table"
	"dryfit/render/table/form"
)

// browser is a page in a real browser; complaints are what its console holds against it.
type browser struct {
	t   *testing.T
	ctx context.Context //nolint:containedctx // of the browser

	mu         sync.Mutex
	complaints []string
}

// chromium is the one browser of these tests, and its one tab: to start one takes as long as a short
// test in it does, and another tab no less. A page has it to itself.
var chromium struct {
	sync.Mutex
	ctx context.Context //nolint:containedctx // of the browser, nil until there is one
	end []func()
}

func TestMain(m *testing.M) {
	code := m.Run()
	for _, end := range slices.Backward(chromium.end) {
		end()
	}
	os.Exit(code)
}

// open opens a page in a window of a size, of somebody who wants nothing to move: water that runs along
// the pipes is drawn anew all the time. It waits until no other test has the browser. Skipped where no
// chromium is installed.
func open(t *testing.T, url string, wide, high int64) *browser {
	t.Helper()
	path, err := exec.LookPath("chromium")
	if err != nil {
		t.Skip("no chromium is installed")
	}
	chromium.Lock()
	t.Cleanup(chromium.Unlock)
	if chromium.ctx == nil {
		profile, err := os.MkdirTemp("", "browser")
		if err != nil {
			t.Fatal(err)
		}
		opts := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(path), chromedp.NoSandbox, chromedp.UserDataDir(profile),
			chromedp.DisableGPU)
		allocator, killed := chromedp.NewExecAllocator(context.Background(), opts...)
		ctx, ended := chromedp.NewContext(allocator)
		chromium.ctx, chromium.end = ctx, []func(){func() { os.RemoveAll(profile) }, killed, ended}
		if err := chromedp.Do(ctx); err != nil { // started
			t.Fatal(err)
		}
	}
	ctx, cancel := context.WithCancel(chromium.ctx)
	t.Cleanup(cancel)
	b := &browser{t: t, ctx: ctx}
	t.Cleanup(func() { // before its server goes
		if err := chromedp.Do(ctx, chromedp.Navigate("about:blank")); err != nil {
			t.Error(err)
		}
	})
	b.do(chromedp.EmulateViewport(wide, high))
	b.motion("reduce")
	messages := chromedp.Console(ctx)
	go func() {
		for m, err := range messages {
			if err != nil {
				return
			}
			if m.Type != chromedp.ConsoleLog && !strings.Contains(m.URL, "favicon") {
				b.mu.Lock()
				b.complaints = append(b.complaints, m.String()+" "+m.URL)
				b.mu.Unlock()
			}
		}
	}()
	b.do(chromedp.Navigate(url))
	return b
}

// complained returns the complaints but those with some words in them.
func (b *browser) complained(but string) []string {
	b.mu.Lock()
	defer b.mu.Unlock()
	return slices.DeleteFunc(slices.Clone(b.complaints), func(c string) bool { return strings.Contains(c, but) })
}

func (b *browser) do(actions ...chromedp.Action[chromedp.Void]) {
	b.t.Helper()
	if err := chromedp.Do(b.ctx, actions...); err != nil {
		b.t.Fatal(err)
	}
}

// motion is what the person says of things that move: "reduce" or "no-preference".
func (b *browser) motion(wish string) {
	b.t.Helper()
	b.do(chromedp.Func(func(ctx context.Context, to *chromedp.Target) error {
		_, err := cdp.Call(ctx, to, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{{Name: "prefers-reduced-motion", Value: wish}}})
		return err
	}))
}

// tab presses the Tab key so many times, not waiting for each to be answered.
func (b *browser) tab(times int) {
	b.t.Helper()
	b.do(chromedp.Func(func(ctx context.Context, to *chromedp.Target) error {
		errs := make([]error, times)
		var all sync.WaitGroup
		for i := range times {
			all.Go(func() { _, errs[i] = cdp.Call(ctx, to, input.DispatchKeyEvent, *kb.Encode('\t')[0]) })
		}
		all.Wait()
		return errors.Join(errs...)
	}))
}

// js returns what an expression comes to, as text.
func (b *browser) js(expression string) string {
	b.t.Helper()
	got, err := chromedp.Run(b.ctx, chromedp.Evaluate[any]("String("+expression+")"))
	if err != nil {
		b.t.Fatalf("%s: %v", expression, err)
	}
	s, _ := got.(string)
	return s
}

// wait waits until an expression is true: the page looks itself, and answers once it is.
func (b *browser) wait(what, expression string) {
	b.t.Helper()
	look := `new Promise((done, fail) => { const began = Date.now(); (function look() { try { if (String(` + expression + `) === "true") { done(true); } else if (Date.now() - began > 2000) { done(false); } else { setTimeout(look, 20); } } catch (e) { fail(e); } })(); })`
	for limit := time.Now().Add(60 * time.Second); time.Now().Before(limit); {
		is, err := chromedp.Run(b.ctx, chromedp.Evaluate[bool](look, chromedp.EvalAwaitPromise))
		if err != nil {
			b.t.Fatalf("%s: %s: %v", what, expression, err)
		}
		if is {
			return
		}
	}
	b.t.Fatalf("waited in vain: %s; the page says %q", what, b.js("document.getElementById('status').textContent"))
}

// turn turns a control as a hand does, and waits for the answer.
func (b *browser) turn(id, value string) {
	b.t.Helper()
	before := b.js("document.body.dataset.asked || '0'")
	b.js(fmt.Sprintf(`(() => { const c = document.getElementById(%q); c.closest("details").open = true; c.value = %q; c.dispatchEvent(new Event("input", {bubbles: true})); return c.value; })()`, "turn-"+id, value))
	b.wait("an answer to "+id, fmt.Sprintf("!asking.busy && (document.body.dataset.asked || '0') !== %q", before))
}

const done = `document.getElementById("status").textContent.startsWith("Everything")`

// modes is what the page says of every mode.
func (b *browser) modes() string {
	return b.js(`[...document.querySelectorAll("#side .mode")].map((m) => m.dataset.mode + ": " + m.querySelector("p").textContent).join("\n").replaceAll("\u00a0", " ")`) // amounts are kept on a line
}

// said is what flow says of every mode of a file in short.
func said(t *testing.T, file string, text []byte) string {
	t.Helper()
	j := whatif.Job{File: file, Text: text}
	p, found := j.Plan(plan.Flows)
	if p == nil {
		t.Fatal(found)
	}
	var out []string
	for _, l := range table.SummaryLines(p, form.Style{Units: j.System(p.Circuit)}) {
		mode, words, _ := strings.Cut(l, ": ")
		out = append(out, mode+": "+strings.ToUpper(words[:1])+words[1:]+".")
	}
	return strings.Join(out, "\n")
}

// A person's way through the page: look, save, turn everything, put it into the file, mistype
// and mend, all without a complaint of the browser's.
func TestPageInABrowser(t *testing.T) {
	t.Parallel()
	s := serve(t, "plug-in", nil)
	b := open(t, s.url, 1280, 900)
	b.wait("the papers", done)
	original, err := os.ReadFile(s.file)
	if err != nil {
		t.Fatal(err)
	}
	asSaved := said(t, s.file, original)
	if got := b.modes(); got != asSaved {
		t.Errorf("the page says\n%s\nflow says\n%s", got, asSaved)
	}
	if n := b.js(`document.querySelectorAll("#page figure svg").length`); n == "0" {
		t.Error("no drawing")
	}

	t.Run("save and redraw", func(t *testing.T) {
		b.t = t
		b.js(`document.querySelector('[data-keep="found-note"]') ? (document.querySelector('[data-keep="found-note"]').open = true) : 0`)
		b.js(`document.getElementById("performance").scrollIntoView()`)
		where := b.js(`Math.round(document.getElementById("performance").getBoundingClientRect().top)`)
		changed := strings.Replace(string(original), `["2 m3/h", "2 m"]`, `["2 m3/h", "1.4 m"]`, 1)
		want := said(t, s.file, []byte(changed))
		if want == asSaved {
			t.Fatal("the change changes nothing")
		}
		began := time.Now()
		save(t, s.file, changed)
		b.wait("the answer after a save", fmt.Sprintf(`[...document.querySelectorAll("#side .mode p")].map((p) => p.textContent).join("\n").replaceAll("\u00a0", " ").includes(%q)`, strings.TrimSuffix(strings.SplitN(strings.SplitN(want, "\n", 2)[0], ": ", 2)[1], ".")))
		t.Logf("redrawn %d ms after the save", time.Since(began).Milliseconds())
		if took := time.Since(began); took > 10*time.Second {
			t.Errorf("redrawn after %v", took)
		}
		b.wait("the papers after a save", done)
		if got := b.modes(); got != want {
			t.Errorf("the page says\n%s\nflow says\n%s", got, want)
		}
		if now := b.js(`Math.round(document.getElementById("performance").getBoundingClientRect().top)`); now != where {
			t.Errorf("what was at %s is at %s now", where, now)
		}
		original, asSaved = []byte(changed), want // what follows goes on from there
	})

	t.Run("every control", func(t *testing.T) {
		b.t = t
		j := whatif.Job{File: s.file, Text: original}
		p, _ := j.Plan(plan.Flows)
		study := whatif.Of(j, p)
		turns := slices.DeleteFunc(slices.Clone(study.Controls), func(c whatif.Control) bool { return c.ID == whatif.CutID })
		if shown := b.js(`document.querySelectorAll("[data-turn]").length`); shown != fmt.Sprint(len(turns)) {
			t.Errorf("%s controls are shown of %d", shown, len(turns))
		}
		for i := range turns {
			c := &turns[i]
			value := quantity.Trim(quantity.Round(c.Low+c.Step*float64(int((c.High-c.Low)/c.Step/3)), 6))
			if len(c.Choices) > 1 {
				value = c.Choices[1].Value
			}
			b.turn(c.ID, value)
			text, _, err := study.Text(whatif.Values{c.ID: b.js(fmt.Sprintf(`document.getElementById(%q).value`, "turn-"+c.ID))})
			if err != nil {
				t.Fatal(c.ID, err)
			}
			if got, want := b.modes(), said(t, s.file, text); got != want {
				t.Errorf("%s = %s: the page says\n%s\nflow says\n%s", c.ID, value, got, want)
			}
			b.js(`document.getElementById("reset").click()`) // by the mouse it may move away, when the year's cost comes above it
			b.wait("the answer as saved", `!asking.busy && !document.querySelector("#side .turned")`)
		}
		if got := b.modes(); got != asSaved {
			t.Errorf("back at the file the page says\n%s", got)
		}
	})

	t.Run("put into the file", func(t *testing.T) {
		b.t = t
		b.turn("water", "30")
		b.do(chromedp.Click("#put"), chromedp.WaitVisible("#confirm-yes"))
		b.wait("the difference", `document.querySelectorAll("#confirm .new").length === 1`)
		b.do(chromedp.Click("#confirm-yes"))
		b.wait("the file with the value in it", fmt.Sprintf(`%s && document.getElementById("turn-water").dataset.now === "30"`, done))
		now, err := os.ReadFile(s.file)
		if want := strings.Replace(string(original), `temperature = "37 °C"`, `temperature = "30 °C"`, 1); err != nil || string(now) != want {
			t.Errorf("the file is\n%s", now)
		}
		if got, want := b.modes(), said(t, s.file, now); got != want {
			t.Errorf("the page says\n%s\nflow says\n%s", got, want)
		}
		// meanwhile changed: refused
		b.turn("water", "25")
		b.do(chromedp.Click("#put"), chromedp.WaitVisible("#confirm-yes"))
		b.wait("the difference", `document.querySelectorAll("#confirm .new").length === 1`)
		save(t, s.file, string(original)+"# by another hand\n")
		b.do(chromedp.Click("#confirm-yes"))
		b.wait("a refusal", `document.getElementById("confirm-said").textContent.includes("changed meanwhile")`)
		if now, _ := os.ReadFile(s.file); !strings.HasSuffix(string(now), "# by another hand\n") {
			t.Error("another's change is lost")
		}
		b.do(chromedp.Click("#confirm-no"), chromedp.Click("#reset"))
	})

	t.Run("an error typed and mended", func(t *testing.T) {
		b.t = t
		save(t, s.file, strings.Replace(string(original), `kind = "pump"`, `kind = "pmup"`, 1))
		b.wait("the error", `document.querySelector("#findings ~ .found.error") !== null && document.querySelector("#page.old") !== null && document.querySelector("#status.broken") !== null`)
		if got := b.js(`document.querySelector(".found.error .meant").textContent`); !strings.Contains(got, "pmup") {
			t.Errorf("the line shown is %q", got)
		}
		b.js(`(document.querySelector("#status a").click(), window.scrollY)`)
		b.wait("the way to the findings, and their head below the status", `document.getElementById("findings").getBoundingClientRect().top >= document.getElementById("status").getBoundingClientRect().bottom - 1 && document.getElementById("findings").getBoundingClientRect().top < 200`)
		save(t, s.file, string(original))
		b.wait("the error mended", done+` && document.querySelector("#page.old") === null && document.querySelector("#status.broken") === null`)
	})

	t.Run("a thing on the drawing and in the lists", func(t *testing.T) {
		b.t = t
		click := func(class string) string {
			b.js(fmt.Sprintf(`(() => { const e = [...document.querySelectorAll('[data-id="drawing-schematic"] svg [class]')].find((e) => e.getAttribute("class").split(" ")[0] === %q); e.scrollIntoView(); const r = e.getBoundingClientRect(); e.dispatchEvent(new MouseEvent("click", {bubbles: true, clientX: r.left + r.width / 2, clientY: r.top + 1})); return 0; })()`, class))
			b.wait("what is known of "+class, `!document.getElementById("about").hidden && document.getElementById("about-text").textContent !== window.before`)
			text := b.js(`window.before = document.getElementById("about-text").textContent`)
			return text
		}
		for _, c := range [][2]string{{"no-preference", ">"}, {"reduce", "==="}} { // water runs along the pipes of both, where motion is wanted
			b.motion(c[0])
			for _, view := range []string{"schematic", "isometric"} {
				b.wait(c[0]+": water on the "+view, fmt.Sprintf(`(requestAnimationFrame(() => {}), document.querySelectorAll('[data-id="drawing-%s"] .water').length %s 0)`, view, c[1])) // the page is told of the wish with a frame
			}
		}
		unit := click("symbol:unit")
		j := whatif.Job{File: s.file, Text: original}
		p, _ := j.Plan(plan.Flows)
		gets := quantity.Format(plan.Summarise(p)[0].Unit, quantity.Flow, quantity.MetricSystem)
		if !strings.Contains(unit, gets) || !strings.Contains(unit, `id = "unit"`) {
			t.Errorf("of the unit, which gets %s, it says %s", gets, unit)
		}
		if n := b.js(`document.querySelectorAll("figure svg .lit").length`); n == "0" {
			t.Error("what is looked at is marked nowhere")
		}
		run := p.Circuit.Runs[0].ID
		if text := click("run:" + strings.ReplaceAll(run, ">", "-to-")); !strings.Contains(text, run) {
			t.Errorf("of %s it says %s", run, text)
		}
		// a click beside a line means it, at every distance a thumb misses it by
		b.js(`document.querySelector('[data-id="drawing-schematic"] [class="symbol:tub"]').scrollIntoView({ block: "center" })`) //nolint:misspell // the word of the DOM
		if missed := b.js(`(() => { const e = document.querySelector('[data-id="drawing-schematic"] [class="symbol:tub"]'); const q = e.getPointAtLength(0.4 * e.getTotalLength()).matrixTransform(e.getScreenCTM()); const at = []; for (let d = 0; d <= near; d += 0.25) { if (!drawnAt(q.x, q.y + d)) { at.push(d); } } return at.join(" "); })()`); missed != "" {
			t.Errorf("beside the tub's lowest line nothing is meant at %s px", missed)
		}
		// the reverse: a row of a list
		b.js(`document.querySelector('#page td[data-about="pump"]').click()`)
		b.wait("the pump", `document.getElementById("about-head").textContent.includes("pump") && document.querySelectorAll('[data-id="drawing-schematic"] svg .lit').length > 0`)
		// every number says how it is come by, to the mouse, the thumb and the keys
		b.js(`[...document.querySelectorAll("#page th")].find((th) => th.textContent === "drop kPa").closest("table").rows[2].cells[[...document.querySelectorAll("#page th")].find((th) => th.textContent === "drop kPa").cellIndex].click()`)
		b.wait("the reason of a drop", `document.getElementById("about-text").textContent.includes("Darcy-Weisbach") && document.getElementById("about-text").textContent.includes("What goes in")`)
		b.do(chromedp.KeyEvent(kb.Escape))
		b.wait("the panel shut", `document.getElementById("about").hidden`)
		b.js(`document.querySelector("#flow ~ .scroll").focus()`)
		b.do(chromedp.KeyEvent(kb.Enter), chromedp.KeyEvent(kb.ArrowDown), chromedp.KeyEvent(kb.ArrowRight), chromedp.KeyEvent(kb.Enter))
		b.wait("the panel opened by keys", `!document.getElementById("about").hidden`)
		b.do(chromedp.KeyEvent(kb.Escape))
		// the numbers that stand in no table too, beside the drawings and in the chapters; by the keys from the list
		b.do(chromedp.Click("#side .mode p"))
		b.wait("the reason of what the unit gets", `document.getElementById("about-text").textContent.includes("Newton's method")`)
		b.do(chromedp.Click("#side svg.duty"))
		b.wait("the reason of the duty point", `document.getElementById("about-head").textContent === "Where pump and circuit meet"`)
		b.js(`[...document.querySelectorAll('[data-id="chapter-heat"] p, [data-id="chapter-heat"] li')].find((e) => /\d/.test(e.textContent)).click()`)
		b.wait("the reason of the heat", `document.getElementById("about-text").textContent.includes("Carrier")`)
		b.js(`(() => { const l = document.getElementById("look"); l.value = "why:section chapter-electric"; l.dispatchEvent(new Event("change", {bubbles: true})); return 0; })()`)
		b.wait("the reason of the currents", `document.getElementById("about-text").textContent.includes("electrician")`)
		b.do(chromedp.KeyEvent(kb.Escape))
	})

	t.Run("keyboard alone", func(t *testing.T) {
		b.t = t
		b.js(`(() => { document.querySelectorAll("details").forEach((d) => { d.open = true; }); window.scrollTo(0, 0); document.activeElement.blur(); window.reached = new Set(); document.addEventListener("focusin", (e) => window.reached.add(e.target)); return 0; })()`)
		n := 0
		fmt.Sscan(b.js(`document.querySelectorAll("a[href], button:not(:disabled), input, select, summary, [tabindex='0']").length`), &n)
		b.tab(n + 5)
		left := b.js(`[...document.querySelectorAll("a[href], button:not(:disabled), input, select, summary")].filter((e) => e.checkVisibility() && !window.reached.has(e)).map((e) => e.outerHTML.slice(0, 80)).slice(0, 5).join("\n")`)
		if left != "" {
			t.Errorf("no key leads to\n%s", left)
		}
	})

	t.Run("390 px wide", func(t *testing.T) {
		b.t = t
		b.do(chromedp.EmulateViewport(390, 780, chromedp.EmulateMobile))
		if wide := b.js(`document.documentElement.scrollWidth`); wide != "390" {
			t.Errorf("the page is %s px wide", wide)
		}
		small := b.js(`[...document.querySelectorAll("#side button, #side select, #side input")].filter((e) => e.checkVisibility() && e.getBoundingClientRect().height < 43).map((e) => e.outerHTML.slice(0, 60)).join("\n")`)
		if small != "" {
			t.Errorf("too small for a thumb:\n%s", small)
		}
		b.do(chromedp.EmulateViewport(1280, 900))
	})
	if list := b.complained("409"); len(list) > 0 { // the refusal above
		t.Errorf("the browser complains: %s", strings.Join(list, "\n"))
	}
}

func studyOf(t *testing.T, file string, text []byte) *whatif.Study {
	t.Helper()
	j := whatif.Job{File: file, Text: text}
	p, found := j.Plan(plan.Flows)
	if p == nil {
		t.Fatal(found)
	}
	return whatif.Of(j, p)
}

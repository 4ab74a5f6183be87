package live

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"dryfit/cmd/dryfit/disk"
	"dryfit/graph/description"
	"dryfit/graph/lots"
	"dryfit/graph/whatif"
)

// axe opens a page with axe-core in it, which holds its rules of accessibility against it: all
// of them, those of good practice too. What a state leaves as it was, and an earlier one held to
// them, may be left out: with -wide nothing is. Skipped where AXE names no file of it (.ci/run
// fetches one).
func axe(t *testing.T, url string) (b *browser, holds func(state string, but ...string)) {
	t.Helper()
	file := os.Getenv("AXE")
	if file == "" {
		t.Skip("AXE names no file of axe-core")
	}
	code, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	b = open(t, url, 1280, 900)
	return b, func(state string, but ...string) {
		t.Helper()
		of := "document"
		if len(but) > 0 && !lots.All() {
			of = `{include: [["html"]], exclude: [["` + strings.Join(but, `"], ["`) + `"]]}`
		}
		b.js("(() => {" + string(code) + "; return 0; })()")
		b.js(`(window.held = "", axe.run(` + of + `, {resultTypes: ["violations"], elementRef: false}).then((r) => { window.held = r.passes.length + " rules\n" + r.violations.map((v) => v.id + ": " + v.nodes.slice(0, 3).map((n) => n.html.slice(0, 160)).join(" | ")).join("\n"); }, (e) => { window.held = "0 rules\n" + e; }), 0)`)
		b.wait("the rules held against "+state, `window.held !== ""`)
		rules, broken, _ := strings.Cut(b.js("window.held"), "\n")
		if n := 0; broken != "" || func() bool { _, err := fmt.Sscan(rules, &n); return err != nil || n < 15 }() {
			t.Errorf("%s: %s hold; broken:\n%s", state, rules, broken)
		}
	}
}

// No rule of accessibility is broken by a job on the page, whatever is opened on it: of the demo
// with the shortest page, with -wide of the one with the longest.
func TestJobIsAccessible(t *testing.T) {
	t.Parallel()
	demo := "plug-in"
	if lots.All() {
		demo = "plunge-pool"
	}
	s := serve(t, demo, nil)
	b, holds := axe(t, s.url)
	b.wait("the papers", done)
	b.js(`document.querySelectorAll("details").forEach((d) => { d.open = true; })`)
	holds("the job")
	b.turn("water", "30")
	b.wait("a year's cost", `document.getElementById("cost").textContent !== ""`)
	holds("a what-if", "#page")
	b.js(`document.querySelector("#page td[data-about]").click()`)
	b.wait("the panel", `!document.getElementById("about").hidden`)
	holds("a thing looked at", "#page")
	b.do(chromedp.KeyEvent(kb.Escape), chromedp.Click("#put"), chromedp.WaitVisible("#confirm-yes"))
	b.wait("the difference", `document.querySelectorAll("#confirm .new").length === 1`)
	holds("a difference")
	b.do(chromedp.Click("#confirm-no"), chromedp.EmulateViewport(390, 780, chromedp.EmulateMobile))
	holds("the job on a telephone", "figure svg", "#page table")
	text, err := os.ReadFile(s.file)
	if err != nil {
		t.Fatal(err)
	}
	save(t, s.file, strings.Replace(string(text), `kind = "pump"`, `kind = "pmup"`, 1))
	b.wait("the error", `document.querySelector(".found.error") !== null && document.querySelector("#page.old") !== null`)
	holds("an error on a telephone", "figure svg", "#page table")
	if !lots.All() {
		return
	}
	b.do(chromedp.EmulateViewport(1280, 900))
	holds("an error")
}

// Nor by a page without a file: the circuits, a form with its blanks, and a refusal beside one.
func TestBeginningIsAccessible(t *testing.T) {
	t.Parallel()
	file := filepath.Join(t.TempDir(), "job.toml")
	at, err := Listen("127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	cfg := Config{Papers: noPapers, Load: func() (whatif.Job, []string, error) {
		text, err := os.ReadFile(file)
		if err != nil {
			return whatif.Job{}, nil, ErrNoFile
		}
		return whatif.Job{File: file, Text: text}, []string{file}, nil
	}, Write: func(was, text []byte) error { return (&disk.Files{}).Replace(file, was, text) },
		Begin: func(circuit, _ string) error {
			text, err := description.Template(circuit)
			if err != nil {
				return err
			}
			return os.WriteFile(file, text, 0o600)
		}}
	ctx, cancel := context.WithCancel(t.Context())
	ended := make(chan error, 1)
	go func() { ended <- New(cfg, NewDoor(at.Addr(), "")).Serve(ctx, at) }()
	t.Cleanup(func() {
		cancel()
		select {
		case <-ended:
		case <-time.After(20 * time.Second):
			t.Error("the server does not end")
		}
	})
	b, holds := axe(t, "http://"+at.Addr().String()+"/")
	b.wait("the circuits", `document.querySelectorAll(".card svg").length > 3`)
	holds("the circuits")
	b.do(chromedp.EmulateViewport(390, 780, chromedp.EmulateMobile))
	holds("the circuits on a telephone")
	b.do(chromedp.EmulateViewport(1280, 900))
	b.js(`document.querySelector("[data-begin=two-speed]").click()`)
	b.wait("the form", `document.querySelectorAll(".key.blank input").length > 20`)
	b.js(`(() => { const f = document.getElementById("key-water-volume"); f.focus(); f.value = "1300"; f.dispatchEvent(new Event("change", {bubbles: true})); return 0; })()`)
	b.wait("a refusal beside the field", `document.getElementById("key-water-volume").closest(".key").querySelector(".said").textContent !== ""`)
	b.js(`document.querySelectorAll("details").forEach((d) => { d.open = true; })`)
	holds("the form")
	b.do(chromedp.EmulateViewport(390, 780, chromedp.EmulateMobile))
	holds("the form on a telephone")
	if wide := b.js(`document.documentElement.scrollWidth`); wide != "390" {
		t.Errorf("the form is %s px wide", wide)
	}
}

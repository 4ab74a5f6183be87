package pack

import (
	"encoding/json"
	"fmt"
	"html"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"dryfit/graph/lots"
)

// probe runs in each page: what is wider than the page, letters under 11 px, requests that went
// anywhere, and with axe-core the rules of accessibility that are broken (WCAG 2 A and AA).
const probe = `addEventListener("load", async () => {
	const r = {name: "NAME", width: innerWidth, scroll: document.documentElement.scrollWidth, small: [], asked: performance.getEntriesByType("resource").map(e => e.name), broken: [], rules: 0};
	for (const e of document.querySelectorAll("body *")) {
		if (e.closest("svg") || e.tagName === "SCRIPT") continue;
		if ([...e.childNodes].some(n => n.nodeType === 3 && n.data.trim()) && parseFloat(getComputedStyle(e).fontSize) < 11) r.small.push(e.tagName + " " + e.textContent.slice(0, 30));
	}
	if (window.axe) {
		const a = await axe.run(document, {runOnly: ["wcag2a", "wcag2aa"], resultTypes: ["violations"], elementRef: false});
		r.rules = a.passes.length;
		for (const v of a.violations) r.broken.push(v.id + ": " + v.nodes.slice(0, 2).map(n => n.html.slice(0, 120)).join(" | "));
	}
	parent.postMessage(r, "*");
});
addEventListener("error", e => parent.postMessage({name: "NAME", broken: ["script: " + e.message]}, "*"));`

type found struct {
	Name   string   `json:"name"`
	W      float64  `json:"width"`
	S      float64  `json:"scroll"`
	Small  []string `json:"small"`
	Asked  []string `json:"asked"`
	Broken []string `json:"broken"`
	Rules  int      `json:"rules"`
}

var policyTag = regexp.MustCompile(`<meta http-equiv="Content-Security-Policy"[^>]*>`)

// The pages of demos and of two jobs in a real browser, on a telephone 390 px wide, and one (with
// -wide all of all demos) at 1280 px: nothing wider than the screen, no letters under 11 px, no request, no error, and no
// rule of accessibility broken, where AXE names the file of axe-core (.ci/run fetches it).
// Skipped where no chromium is installed.
func TestInABrowser(t *testing.T) {
	browser, err := exec.LookPath("chromium")
	if err != nil {
		t.Skip("no chromium is installed")
	}
	axe := ""
	if file := os.Getenv("AXE"); file != "" {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		axe = "<script>" + strings.ReplaceAll(string(data), "</script", `<\/script`) + "</script>"
	}
	pages := map[string][]byte{}
	for _, name := range fewDemos() {
		pages[name] = fileOf(t, demoPack(t, name), "index.html")
	}
	for _, job := range []string{"unit-out", "no-place"} {
		pages[job] = fileOf(t, makePack(t, jobPlan(t, job)), "index.html")
	}
	var frames strings.Builder
	want := 0
	for name, page := range pages {
		for _, width := range []int{390, 1280} {
			if width == 1280 && !lots.Named(name, "two-speed") {
				continue // on the wider screen there is more room
			}
			with := axe
			if width != 390 {
				with = "" // the same rules; once is enough
			}
			text := policyTag.ReplaceAllString(string(page), "") // it forbids the probe too
			text = strings.Replace(text, "</head>", with+"<script>"+strings.ReplaceAll(probe, "NAME", name)+"</script></head>", 1)
			fmt.Fprintf(&frames, "<iframe title=%q width=%d height=844 style=\"border:0\" srcdoc=\"%s\"></iframe>\n", name, width, html.EscapeString(text))
			want++
		}
	}
	dir := t.TempDir()
	wrapper := `<!DOCTYPE html><meta charset="utf-8"><body><pre id="found"></pre><script>addEventListener("message", e => { document.getElementById("found").append(JSON.stringify(e.data) + "\n") })</script>` + frames.String()
	file := filepath.Join(dir, "wrapper.html")
	if err := os.WriteFile(file, []byte(wrapper), 0o644); err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(browser, "--headless", "--no-sandbox", "--disable-gpu", "--user-data-dir="+filepath.Join(dir, "profile"), "--window-size=1400,900",
		"--virtual-time-budget=120000", "--enable-logging=stderr", "--dump-dom", "file://"+file)
	var said strings.Builder
	cmd.Stderr = &said
	dom, err := cmd.Output()
	if err != nil {
		t.Fatalf("%v\n%s", err, said.String())
	}
	for _, l := range strings.Split(said.String(), "\n") {
		if strings.Contains(l, "CONSOLE") {
			t.Errorf("the console says %s", l)
		}
	}
	_, text, _ := strings.Cut(string(dom), `<pre id="found">`)
	text, _, _ = strings.Cut(text, "</pre>")
	got := 0
	for _, l := range strings.Split(strings.TrimSpace(html.UnescapeString(text)), "\n") {
		var f found
		if err := json.Unmarshal([]byte(l), &f); err != nil {
			t.Fatalf("%q: %v", l, err)
		}
		got++
		if f.S > f.W {
			t.Errorf("%s: %.0f px wide on a screen of %.0f", f.Name, f.S, f.W)
		}
		if f.W == 390 && len(f.Small) > 0 {
			t.Errorf("%s: letters under 11 px: %q", f.Name, f.Small)
		}
		if len(f.Asked) > 0 {
			t.Errorf("%s: asks for %q", f.Name, f.Asked)
		}
		for _, b := range f.Broken {
			t.Errorf("%s: %s", f.Name, b)
		}
		if axe != "" && f.W == 390 && f.Rules < 10 {
			t.Errorf("%s: %d rules of accessibility looked at", f.Name, f.Rules)
		}
	}
	if got != want {
		t.Errorf("%d pages answered of %d", got, want)
	}
}

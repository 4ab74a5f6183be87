package live

import (
	"context"
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"dryfit/catalog/quantity"
	"dryfit/graph/plan"
	"dryfit/graph/whatif"
	"dryfit/render/table"
	"dryfit/render/table/form"
)

// The cut is pulled by the mouse and by a finger, moved by the keys and written: what the page
// says of it is what cutin says of the edited file.
func TestCutInABrowser(t *testing.T) {
	t.Parallel()
	s := serve(t, "plunge-pool", noPapers)
	b := open(t, s.url, 1280, 900)
	b.wait("the answer", done)
	original, err := os.ReadFile(s.file)
	if err != nil {
		t.Fatal(err)
	}
	study := studyOf(t, s.file, original)
	value := func() string { return b.js(`turned.get("cut")`) }
	agrees := func(what string) {
		t.Helper()
		b.wait("an answer to "+what, `!asking.busy && asking.mend === 0 && document.querySelector("#page [data-id=cut]").dataset.hash === "turned"`)
		text, _, err := study.Text(whatif.Values{whatif.CutID: value()})
		if err != nil {
			t.Fatal(what, value(), err)
		}
		j := whatif.Job{File: s.file, Text: text}
		p, _ := j.Plan(plan.Places)
		if p == nil || len(p.Places) != 1 {
			t.Fatalf("%s: no place", what)
		}
		place := p.Places[0].Place
		length := func(mm float64) string { return quantity.Format(mm, quantity.Length, j.System(p.Circuit)) }
		title, want := table.PlaceLines(p.Places[0], form.Style{Units: j.System(p.Circuit)})
		first, second := place.Cuts()
		want = append(want, fmt.Sprintf("X1 at %s and X2 at %s", length(first), form.Style{Units: j.System(p.Circuit)}.Second(first, second)), "Room "+length(place.RoomMM))
		for _, term := range place.Terms {
			want = append(want, term.What.In(j.System(p.Circuit))+length(term.MM))
		}
		got := strings.ToLower(b.js(`document.getElementById("cut-now").textContent`))
		for _, l := range want {
			if !strings.Contains(got, strings.ToLower(l)) {
				t.Errorf("%s, %s: cutin says %q; the page says %s", what, title, l, got)
			}
		}
	}
	grip := func() (x, y, wide float64) {
		b.js(`document.getElementById("cut-head").scrollIntoView()`)
		_, err := fmt.Sscan(b.js(`(() => { const r = document.querySelectorAll("#cut-now .work rect")[2].getBoundingClientRect(); return (r.left + r.width / 2) + " " + (r.top + r.height / 2) + " " + document.querySelector("svg.strip").getBoundingClientRect().width; })()`), &x, &y, &wide)
		if err != nil {
			t.Fatal(err)
		}
		return x, y, wide
	}
	moved := func(what string, by func()) {
		t.Helper()
		was := value()
		if by(); value() == was {
			t.Fatalf("%s does not move the cut from %s", what, was)
		}
		agrees(what)
	}
	moved("the mouse", func() {
		x, y, wide := grip()
		b.do(chromedp.MouseEvent(chromedp.MousePressed, x, y, chromedp.ButtonLeft, chromedp.ClickCount(1)),
			chromedp.MouseEvent(chromedp.MouseMoved, x+wide/24, y, chromedp.ButtonLeft), chromedp.MouseEvent(chromedp.MouseMoved, x+wide/12, y, chromedp.ButtonLeft),
			chromedp.MouseEvent(chromedp.MouseReleased, x+wide/12, y, chromedp.ButtonLeft, chromedp.ClickCount(1)))
	})
	moved("two arrow keys", func() { b.do(chromedp.KeyEvent(kb.ArrowRight), chromedp.KeyEvent(kb.ArrowRight)) }) // pulling gave the slider the focus
	b.do(chromedp.EmulateViewport(390, 780, chromedp.EmulateMobile, chromedp.EmulateTouch))
	moved("a finger", func() {
		x, y, wide := grip()
		for _, e := range []struct {
			kind input.DispatchTouchEventType
			x    float64
		}{{"touchStart", x}, {"touchMove", x - wide/20}, {"touchMove", x - wide/10}, {"touchEnd", 0}} {
			p := input.DispatchTouchEventParams{Type: e.kind, TouchPoints: []*input.TouchPoint{{X: e.x, Y: y}}}
			if e.kind == "touchEnd" {
				p.TouchPoints = []*input.TouchPoint{}
			}
			b.do(chromedp.Func(func(ctx context.Context, to *chromedp.Target) error {
				_, err := cdp.Call(ctx, to, input.DispatchTouchEvent, p)
				return err
			}))
		}
	})
	if wide := b.js(`document.documentElement.scrollWidth`); wide != "390" {
		t.Errorf("the page is %s px wide", wide)
	}
	b.do(chromedp.EmulateViewport(1280, 900))
	moved("another leg", func() {
		b.js(`(() => { const l = document.getElementById("cut-leg"); l.selectedIndex = (l.selectedIndex + 1) % l.options.length; l.dispatchEvent(new Event("input", {bubbles: true})); return 0; })()`)
	})
	b.do(chromedp.Click("#reset"))
	b.wait("the cut as saved", `!asking.busy && turned.size === 0 && document.querySelector("#page [data-id=cut]").dataset.hash !== "turned"`)

	b.js(`document.getElementById("cut-at").focus()`)
	moved("a step of the slider", func() { b.do(chromedp.KeyEvent(kb.PageUp)) })
	last := value()
	b.do(chromedp.Click("#put"), chromedp.WaitVisible("#confirm-yes"))
	b.wait("the difference", `document.querySelectorAll("#confirm .new").length === 1`)
	b.do(chromedp.Click("#confirm-yes"))
	b.wait("the file with the cut in it", fmt.Sprintf(`%s && document.getElementById("cut-at").dataset.now === %q && turned.size === 0`, done, last))
	want, _, err := study.Text(whatif.Values{whatif.CutID: last})
	if now, _ := os.ReadFile(s.file); err != nil || string(now) != string(want) || !strings.Contains(string(now), "cut = { run = ") {
		t.Errorf("the file is\n%s", now)
	}
	if list := b.complained("no exception"); len(list) > 0 {
		t.Errorf("the browser complains: %s", strings.Join(list, "\n"))
	}
}

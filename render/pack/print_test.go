package pack

import (
	"bytes"
	"compress/zlib"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph/agree"
	"dryfit/graph/lots"
)

// The pages of a demo (with -wide all), one after the other and one more in inches, printed by a browser:
// nothing is wider than its page, so that the browser does not shrink it, and every bar of the
// saw bands is 100.0 mm long (in inches 4 in, 101.6 mm) by 3.0 mm in the PDF. Skipped where no
// chromium is installed.
func TestPrintsAtTrueScale(t *testing.T) {
	browser, err := exec.LookPath("chromium")
	if err != nil {
		t.Skip("no chromium is installed")
	}
	inches, err := Make(demoPlan(t, "two-speed"), Options{Units: quantity.InchSystem})
	if err != nil {
		t.Fatal(err)
	}
	packs, page, ends := []*Pack{inches}, "", ""
	for _, name := range demos {
		if !lots.Named(name, "plunge-pool") {
			continue
		}
		packs = append(packs, demoPack(t, name))
	}
	want := map[float64]int{} // bars by their length: one for each sheet of bands
	for i, made := range packs {
		bar := 100.0
		if i == 0 {
			bar = 4 * 25.4
		}
		for _, f := range made.Files {
			if strings.HasPrefix(f.Name, "templates") && strings.HasSuffix(f.Name, ".svg") {
				want[bar]++
			}
		}
		head, body, ok := strings.Cut(string(fileOf(t, made, "index.html")), "<body>")
		body, end, ended := strings.Cut(body, "</body>")
		if !ok || !ended {
			t.Fatal("the page has no body")
		}
		if page == "" {
			page, ends = head+"<body>", "</body>"+end
		}
		page += "<div style=\"break-before: page\">" + body + "</div>"
	}
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "index.html"), []byte(page+ends), 0o644); err != nil {
		t.Fatal(err)
	}
	out := filepath.Join(dir, "page.pdf")
	cmd := exec.Command(browser, "--headless", "--enable-logging=stderr", "--no-sandbox", "--disable-gpu", "--user-data-dir="+filepath.Join(dir, "profile"),
		"--print-to-pdf="+out, "--no-pdf-header-footer", "file://"+filepath.Join(dir, "index.html"))
	if said, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, said)
	} else if bytes.Contains(said, []byte("CONSOLE")) {
		t.Errorf("the console has something to say:\n%s", said)
	}
	data, err := os.ReadFile(out)
	if err != nil {
		t.Fatal(err)
	}
	pages, bars := 0, map[float64]int{}
	for _, content := range contents(data) {
		first, boxes := drawnBoxes(content)
		if first == 0 {
			continue
		}
		pages++
		if !agree.Within(first, 1, 0.0005) {
			t.Errorf("page %d is printed at %.2f %%", pages, 100*first)
		}
		for _, b := range boxes {
			for bar := range want {
				if math.Abs(b[0]-bar) < 0.05 && math.Abs(b[1]-3) < 0.05 {
					bars[bar]++
				}
			}
		}
	}
	if pages < 20 || len(want) != 2 {
		t.Errorf("%d pages, bars %v: too few to prove anything", pages, want)
	}
	for bar, n := range want {
		if bars[bar] < n {
			t.Errorf("%d bars of %.1f mm by 3.0 mm, want %d", bars[bar], bar, n)
		}
	}
}

var pdfStream = regexp.MustCompile(`(?s)stream\r?\n(.*?)endstream`)

// contents are the inflated streams of a PDF.
func contents(pdf []byte) []string {
	var out []string
	for _, m := range pdfStream.FindAllSubmatch(pdf, -1) {
		r, err := zlib.NewReader(bytes.NewReader(m[1]))
		if err != nil {
			continue
		}
		if data, err := io.ReadAll(r); err == nil || len(data) > 0 {
			out = append(out, string(data))
		}
	}
	return out
}

// drawnBoxes reads a page: its scale against CSS's 96 px to the inch, as its first two matrices
// set it, 0 for what is no page; and width and height of every path, mm.
func drawnBoxes(content string) (scale float64, boxes [][2]float64) {
	type matrix [6]float64
	ctm := matrix{1, 0, 0, 1, 0, 0}
	var saved []matrix
	var args []float64
	lo, hi := [2]float64{math.Inf(1), math.Inf(1)}, [2]float64{math.Inf(-1), math.Inf(-1)}
	add := func(x, y float64) {
		p := [2]float64{ctm[0]*x + ctm[2]*y + ctm[4], ctm[1]*x + ctm[3]*y + ctm[5]}
		for k := range p {
			lo[k], hi[k] = math.Min(lo[k], p[k]), math.Max(hi[k], p[k])
		}
	}
	matrices := 0
	for _, w := range strings.Fields(content) {
		if v, err := strconv.ParseFloat(w, 64); err == nil {
			args = append(args, v)
			continue
		}
		n := len(args)
		switch {
		case w == "q":
			saved = append(saved, ctm)
		case w == "Q" && len(saved) > 0:
			ctm, saved = saved[len(saved)-1], saved[:len(saved)-1]
		case w == "cm" && n >= 6:
			a := args[n-6:]
			ctm = matrix{a[0]*ctm[0] + a[1]*ctm[2], a[0]*ctm[1] + a[1]*ctm[3], a[2]*ctm[0] + a[3]*ctm[2], a[2]*ctm[1] + a[3]*ctm[3],
				a[4]*ctm[0] + a[5]*ctm[2] + ctm[4], a[4]*ctm[1] + a[5]*ctm[3] + ctm[5]}
			if matrices++; matrices == 2 {
				scale = math.Abs(ctm[0]) / 0.75 // points to a CSS pixel
			}
		case (w == "m" || w == "l") && n >= 2:
			add(args[n-2], args[n-1])
		case w == "c" && n >= 6:
			add(args[n-2], args[n-1])
		case w == "re" && n >= 4:
			add(args[n-4], args[n-3])
			add(args[n-4]+args[n-2], args[n-3]+args[n-1])
		case w == "S" || w == "f" || w == "s" || w == "B" || w == "n" || w == "f*":
			if hi[0] >= lo[0] {
				const mm = 25.4 / 72
				boxes = append(boxes, [2]float64{(hi[0] - lo[0]) * mm, (hi[1] - lo[1]) * mm})
			}
			lo, hi = [2]float64{math.Inf(1), math.Inf(1)}, [2]float64{math.Inf(-1), math.Inf(-1)}
		}
		args = args[:0]
	}
	return scale, boxes
}

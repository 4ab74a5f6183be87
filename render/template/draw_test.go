package template

import (
	"bytes"
	"compress/zlib"
	"fmt"
	"io"
	"math"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/golden"
	"dryfit/render/scene"
	"dryfit/render/scene/differ"
	"dryfit/render/sheet"
)

// pair is the two cuts of an invented job.
func pair(outside, depth float64, pipe string) []Cut {
	a := Cut{Name: "X1", Other: "X2", OtherMM: 354.4, Run: "return-line", Pipe: pipe, OutsideMM: outside, Measured: outside == 60.3,
		From: "face of the elbow at bend 1 of return-line", FromMM: 323, DepthMM: depth, KerfMM: 1.3, Flow: 1}
	b := a
	b.Name, b.Other, b.Second, b.FromMM = "X2", "X1", true, 677.4
	return []Cut{a, b}
}

// inputs are pipes from small to too large for one strip; outside diameters from
// ASTM D1785 and EN ISO 1452 as in the catalogue.
func inputs() map[string]Input {
	job := graph.Job{Name: "Invented job: a tub by the shed", Reference: "J-7", Date: "2026-04-18"}
	bare := pair(48.26, 0, "pvc-sch40 1-1/2 in")[:1]
	bare[0].Other, bare[0].Flow, bare[0].KerfMM = "", -1, 0
	return map[string]Input{
		"three-quarter-inch": {Cuts: pair(26.67, 25.4, "pvc-sch40 3/4 in"), Job: job, Units: quantity.InchSystem},
		"two-inch":           {Cuts: pair(60.3, 38.1, "pvc-sch40 2 in"), Job: job},
		"ninety":             {Cuts: pair(90, 51, "pvc-pn16 90 mm"), Job: job},
		"portrait":           {Cuts: pair(60.3, 38.1, "pvc-sch40 2 in"), Job: job, Page: sheet.Page{Orientation: sheet.Portrait, Fixed: true}},
		"alone":              {Cuts: bare, Job: job},
	}
}

func TestGolden(t *testing.T) {
	kept := golden.In(t, "testdata/*.svg", differ.Picture)
	for name, in := range inputs() {
		for i, s := range Draw(in) {
			kept.Is(filepath.Join("testdata", fmt.Sprintf("%s-%d.svg", name, i+1)), scene.SVG(s))
		}
	}
}

// A band is the pipe's circumference long, its strips together, and its marks lie as far
// from the saw line as the depth says.
func TestBandsAreTrueToSize(t *testing.T) {
	for name, in := range inputs() {
		long, depth := map[string]float64{}, map[string]float64{}
		for _, s := range Draw(in) {
			saw := map[string]float64{}
			for _, it := range s.Items {
				sh, ok := it.(scene.Shape)
				if !ok {
					continue
				}
				what, cut, _ := strings.Cut(sh.Name, ":")
				sh.Style.StrokeMM = 0
				b := scene.Bounds(sh)
				switch what {
				case "band":
					long[cut] += b.W()
				case "saw-line":
					saw[cut] = b.MinY
				case "depth-line":
					depth[cut] = b.MinY
				}
			}
			for cut, y := range saw {
				if d, ok := depth[cut]; ok {
					depth[cut] = math.Abs(d - y)
				}
			}
		}
		for _, c := range in.Cuts {
			if got, want := long[c.Name], math.Pi*c.OutsideMM; !agree.Within(got, want, 1e-6) {
				t.Errorf("%s: the band of %s is %.3f mm long, the pipe is %.3f mm round", name, c.Name, got, want)
			}
			if got := depth[c.Name]; !agree.Within(got, c.DepthMM, 1e-6) {
				t.Errorf("%s: the depth mark of %s is %.3f mm from the saw line, want %.3f", name, c.Name, got, c.DepthMM)
			}
		}
	}
}

// Hose is cut, pipe is sawn: the note speaks of the line as its band calls it.
func TestNoteSpeaksOfTheLineThatIsPrinted(t *testing.T) {
	pipe, hose := inputs()["two-inch"].Cuts, inputs()["two-inch"].Cuts
	for i := range hose {
		hose[i].Spec, hose[i].KerfMM = "hose", 0
	}
	for _, c := range []struct {
		cuts []Cut
		note string
		line []string
	}{
		{pipe, "Tape on, saw through the paper beside the saw line, on the hatched side.", []string{"saw line X1", "saw line X2"}},
		{hose, "Tape on, cut through the paper beside the cut line, on the hatched side.", []string{"cut line X1", "cut line X2"}},
		{[]Cut{pipe[0], hose[1]}, "Tape on, saw or cut through the paper beside the line, on the hatched side.", []string{"saw line X1", "cut line X2"}},
	} {
		var words []string
		for _, s := range Draw(Input{Cuts: c.cuts}) {
			for _, it := range s.Items {
				if w, ok := it.(scene.Text); ok {
					words = append(words, w.Text)
				}
			}
		}
		all := strings.Join(words, " ")
		for _, want := range append(c.line, c.note) {
			if !strings.Contains(all, want) {
				t.Errorf("of %s and %s: %q is not on %s", c.cuts[0].Spec, c.cuts[1].Spec, want, all)
			}
		}
	}
}

// The bars of 100 mm measure 100 mm in the file a printer gets: in PDF 283.46 units of
// 1/72 in (ISO 32000-1, 8.3.2.3: the default unit), on a page of 297 x 210 mm.
func TestCheckBarsInPDF(t *testing.T) {
	data, err := scene.PDF(Draw(inputs()["two-inch"]), "templates", "2026-04-18")
	if err != nil {
		t.Fatal(err)
	}
	const perMM = 72 / 25.4
	box := regexp.MustCompile(`/MediaBox ?\[([^\]]*)\]`).FindAllSubmatch(data, -1)
	found := false
	for _, b := range box {
		var x, y, w, h float64
		if _, err := fmt.Sscanf(string(b[1]), "%g %g %g %g", &x, &y, &w, &h); err == nil && math.Abs(w-x-297*perMM) < 0.02 && math.Abs(h-y-210*perMM) < 0.02 {
			found = true
		}
	}
	if !found {
		t.Errorf("no page of 297 x 210 mm among %q", box)
	}
	level, upright := 0, 0
	for _, r := range rectangles(t, data) {
		w, h := r.W()/perMM, r.H()/perMM
		switch {
		case math.Abs(w-100) < 0.01 && math.Abs(h-3) < 0.01:
			level++
		case math.Abs(h-100) < 0.01 && math.Abs(w-3) < 0.01:
			upright++
		}
	}
	if level != 1 || upright != 1 {
		t.Errorf("%d level and %d upright bars of 100 mm in the PDF, want one of each", level, upright)
	}
}

// rectangles returns the boxes of all closed straight paths in the content of a PDF, in its
// units. A change of the unit (operator cm) would make them lie, and is refused.
func rectangles(t *testing.T, pdf []byte) []scene.Box {
	t.Helper()
	var out []scene.Box
	for _, part := range bytes.Split(pdf, []byte("stream\n"))[1:] {
		z, err := zlib.NewReader(bytes.NewReader(part))
		if err != nil {
			continue
		}
		content, _ := io.ReadAll(z)
		if !bytes.Contains(content, []byte(" m\n")) && !bytes.Contains(content, []byte(" l\n")) {
			continue
		}
		depth, turned := 0, 0
		b := scene.Empty()
		for _, line := range strings.Split(string(content), "\n") {
			f := strings.Fields(line)
			if len(f) == 0 {
				continue
			}
			switch op := f[len(f)-1]; op {
			case "q":
				depth++
			case "Q":
				depth--
				if depth < turned {
					turned = 0
				}
			case "cm":
				if turned = depth; depth == 0 {
					t.Fatalf("the unit of the whole page is changed: %s", line)
				}
			case "m", "l":
				if op == "m" {
					b = scene.Empty()
				}
				x, _ := strconv.ParseFloat(f[0], 64)
				y, _ := strconv.ParseFloat(f[1], 64)
				b = b.Add(scene.Point{X: x, Y: y})
			case "h":
				if turned == 0 {
					out = append(out, b)
				}
			}
		}
	}
	return out
}

// In SVG one unit is one mm on paper: the page's size in mm and its view box agree. In inches the bars are 4 in long (25.4 mm each by definition: NIST SP 811).
func TestCheckBarsInSVG(t *testing.T) {
	for units, want := range map[quantity.System]float64{quantity.MetricSystem: 100, quantity.InchSystem: 101.6} {
		in := inputs()["two-inch"]
		in.Units = units
		svg := string(scene.SVG(Draw(in)[0]))
		if !strings.Contains(svg, `width="297mm" height="210mm" viewBox="0 0 297 210"`) {
			t.Errorf("one unit is not one mm: %.200s", svg)
		}
		paths := regexp.MustCompile(`<path class="check-bar" d="M([\d.]+) ([\d.]+)L([\d.]+) ([\d.]+)L([\d.]+) ([\d.]+)L[^"]*Z"`).FindAllStringSubmatch(svg, -1)
		if len(paths) != 2 {
			t.Fatalf("%d check bars, want 2", len(paths))
		}
		for i, p := range paths {
			var v [6]float64
			for k := range v {
				v[k], _ = strconv.ParseFloat(p[k+1], 64)
			}
			got := [2]float64{math.Abs(v[2] - v[0]), math.Abs(v[5] - v[3])}[i] // level, then upright
			if !agree.Within(got, want, 0.011) {                               // SVG is written to 0.01 mm
				t.Errorf("bar %d measures %g mm", i+1, got)
			}
		}
	}
}

// No text touches another or leaves the frame, and none lies across a saw or depth line.
func TestNothingOverlaps(t *testing.T) {
	for name, in := range inputs() {
		for _, units := range []quantity.System{quantity.MetricSystem, quantity.InchSystem} {
			in.Units = units
			for _, s := range Draw(in) {
				frame := scene.Box{MinX: 20, MinY: 10, MaxX: s.WidthMM - 10, MaxY: s.HeightMM - 10}.Grow(sheet.Thick)
				var boxes []scene.Box
				var words []string
				for _, it := range s.Items {
					b := scene.Bounds(it)
					if !frame.Contains(b) {
						t.Errorf("%s: %+v leaves the frame", name, it)
					}
					word := ""
					switch it := it.(type) {
					case scene.Text:
						word = it.Text
					case scene.Shape:
						if !strings.HasPrefix(it.Name, "saw-line") && !strings.HasPrefix(it.Name, "depth-line") && it.Name != "window" && it.Name != "flow" {
							continue
						}
					}
					for i, o := range boxes {
						if (word != "" || words[i] != "") && b.Overlaps(o) {
							t.Errorf("%s: %q and %q overlap", name, word, words[i])
						}
					}
					boxes, words = append(boxes, b), append(words, word)
				}
			}
		}
	}
}

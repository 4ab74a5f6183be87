package scene

import (
	"bytes"
	"compress/zlib"
	"encoding/xml"
	"errors"
	"image/png"
	"io"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"dryfit/graph/agree"
)

// figure is a page with every kind of shape, and text that means harm.
func figure() *Scene {
	s := &Scene{Name: `a & b <script>alert(1)</script>`, WidthMM: 120, HeightMM: 80}
	s.Add(
		Rect(20, 10, 60, 40, Stroke(0.7)),
		Circle(Point{50, 30}, 12, Outline(0.35)),
		Arc(Point{50, 30}, 9, 20, 250, Dashed(0.35, 2, 1)),
		Line(Point{10, 70}, Point{100, 70}, Dashed(0.5, 4, 1, 1, 1)),
		Arrow(Point{104, 70}, Point{1, 0}, 4, 2, Filled(0)),
		Polygon([]Point{{60, 55}, {64, 60}, {56, 60}}, Style{StrokeMM: 0.25, Grey: 0.4, Fill: true, FillGrey: 0.8}),
		Text{At: Point{30, 45}, Text: `</text><script>alert("x")</script>`, SizeMM: 3, Halo: true, Name: `"><x`},
		Text{At: Point{70, 20}, Text: "Ø 60,3 ½ → 38 °C", SizeMM: 4, Bold: true, TurnDeg: 30, SkewDeg: 30},
		Text{At: Point{95, 30}, Text: "\x1b[31mred\u202e漢", SizeMM: 3, Anchor: Centre, Middle: true},
	)
	return s
}

func shapesOnly(s *Scene) *Scene {
	out := &Scene{Name: s.Name, WidthMM: s.WidthMM, HeightMM: s.HeightMM}
	for _, it := range s.Items {
		if sh, ok := it.(Shape); ok {
			sh.Style = Stroke(0.35)
			out.Items = append(out.Items, sh)
		}
	}
	return out
}

func TestWritersAgreeOnBounds(t *testing.T) {
	s := shapesOnly(figure())
	want := Bounds(s.Items...)

	if got := svgBounds(t, SVG(s)).Grow(0.175); !near(got, want, 0.2) {
		t.Errorf("SVG bounds %v, want %v", got, want)
	}
	const dpi = 300
	data, err := PNG(s, dpi)
	if err != nil {
		t.Fatal(err)
	}
	if got := pngBounds(t, data, dpi); !near(got, want, 0.2) {
		t.Errorf("PNG bounds %v, want %v", got, want)
	}
	pdf, err := PDF([]*Scene{s}, "t", "2026-04-18")
	if err != nil {
		t.Fatal(err)
	}
	if got := pdfBounds(t, pdf, s.HeightMM).Grow(0.175); !near(got, want, 0.2) {
		t.Errorf("PDF bounds %v, want %v", got, want)
	}
}

// A text's ink lies in its corners, in all turns and slants.
func TestTextInkInCorners(t *testing.T) {
	for _, tx := range []Text{
		{Text: "Hgq 123", SizeMM: 6},
		{Text: "Hgq 123", SizeMM: 6, TurnDeg: 90},
		{Text: "Hgq 123", SizeMM: 6, TurnDeg: 30, SkewDeg: 30},
		{Text: "Hgq 123", SizeMM: 6, TurnDeg: -30, SkewDeg: -30, Bold: true},
		{Text: "Hgq 123", SizeMM: 6, Anchor: End, Middle: true},
	} {
		tx.At = Point{50, 50}
		s := &Scene{WidthMM: 100, HeightMM: 100, Items: []Item{tx}}
		data, err := PNG(s, 300)
		if err != nil {
			t.Fatal(err)
		}
		ink, box := pngBounds(t, data, 300), Bounds(tx)
		if !box.Grow(0.25).Contains(ink) {
			t.Errorf("turn %g skew %g: ink %v outside %v", tx.TurnDeg, tx.SkewDeg, ink, box)
		}
		if ink.W() < 0.85*box.W() || ink.H() < 0.75*box.H() {
			t.Errorf("turn %g skew %g: ink %v much smaller than %v", tx.TurnDeg, tx.SkewDeg, ink, box)
		}
	}
}

func TestSameBytesTwice(t *testing.T) {
	for range 3 {
		a, err1 := PDF([]*Scene{figure(), shapesOnly(figure())}, "title", "2026-04-18")
		b, err2 := PDF([]*Scene{figure(), shapesOnly(figure())}, "title", "2026-04-18")
		if err1 != nil || err2 != nil {
			t.Fatal(err1, err2)
		}
		if !bytes.Equal(a, b) {
			t.Fatal("PDF differs from run to run")
		}
	}
	if !bytes.Equal(SVG(figure()), SVG(figure())) {
		t.Error("SVG differs from run to run")
	}
	a, _ := PNG(figure(), 150)
	b, _ := PNG(figure(), 150)
	if len(a) == 0 || !bytes.Equal(a, b) {
		t.Error("PNG differs from run to run")
	}
}

func TestTextIsInert(t *testing.T) {
	svg := SVG(figure())
	dec := xml.NewDecoder(bytes.NewReader(svg))
	allowed := map[string]bool{"svg": true, "title": true, "rect": true, "path": true, "text": true}
	var texts []string
	for {
		tok, err := dec.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		switch tok := tok.(type) {
		case xml.StartElement:
			if !allowed[tok.Name.Local] {
				t.Errorf("element %q came out of a text", tok.Name.Local)
			}
		case xml.CharData:
			texts = append(texts, string(tok))
		}
	}
	all := strings.Join(texts, "")
	if !strings.Contains(all, `</text><script>alert("x")</script>`) {
		t.Error("the text is not there as it was written")
	}
	for _, r := range []string{"\x1b", "\u202e"} {
		if strings.Contains(all, r) {
			t.Errorf("%q was written", r)
		}
	}
	if !strings.Contains(all, "[31mred漢") { // a viewer has it in a font of its own
		t.Errorf("the letter the font lacks is not there as it was written in %q", all)
	}
	if got := Unjoined(figure()); got != nil {
		t.Errorf("Unjoined = %q, want none", got)
	}
	arabic := &Scene{Items: []Item{Text{Text: "حوض"}, Text{Text: "בריכה"}, Text{Text: "tub"}}}
	if got := Unjoined(figure(), arabic); !slices.Equal(got, []string{"Arabic", "Hebrew"}) {
		t.Errorf("Unjoined = %q, want Arabic and Hebrew", got)
	}
	if got := Missing(figure()); len(got) != 1 || got[0] != '漢' {
		t.Errorf("Missing = %q, want 漢", string(got))
	}
}

// Advances of DejaVu Sans 2.37 from its hmtx table, of 2048 units: a 1255, space 651,
// m 1995 (published in the font; the test guards the em and the summing up).
func TestTextWidth(t *testing.T) {
	if got, want := TextWidth("am a", 10, false), 10*(1255+1995+651+1255)/2048.0; !agree.Within(got, want, 1e-9) {
		t.Errorf("width %v, want %v", got, want)
	}
	if a, b := TextWidth("\x07a\u200b", 10, false), TextWidth("a", 10, false); a != b {
		t.Errorf("control characters have width: %v, want %v", a, b)
	}
}

func TestPNGSize(t *testing.T) {
	a4 := &Scene{WidthMM: 297, HeightMM: 210}
	for dpi, want := range map[float64][2]int{150: {1754, 1241}, 300: {3508, 2481}} {
		data, err := PNG(a4, dpi)
		if err != nil {
			t.Fatal(err)
		}
		cfg, err := png.DecodeConfig(bytes.NewReader(data))
		if err != nil || cfg.Width != want[0] || cfg.Height != want[1] {
			t.Errorf("at %g dpi %dx%d (%v), want %v", dpi, cfg.Width, cfg.Height, err, want)
		}
	}
	if _, err := PNG(&Scene{WidthMM: 1e9, HeightMM: 1e9}, 300); err == nil {
		t.Error("an absurd page was drawn")
	}
	if _, err := PNG(&Scene{WidthMM: math.NaN(), HeightMM: 10}, 300); err == nil {
		t.Error("a page of no size was drawn")
	}
}

func TestOddNumbers(t *testing.T) {
	s := &Scene{WidthMM: 50, HeightMM: 50}
	s.Add(Line(Point{math.NaN(), 1}, Point{3, math.Inf(1)}, Stroke(0.5)),
		Line(Point{1, 1}, Point{1, 1}, Stroke(0.5)), Shape{Style: Filled(0)},
		Line(Point{1, 1}, Point{40, 1}, Dashed(1, 0, 0)), Line(Point{1, 3}, Point{40, 3}, Dashed(1, 3)))
	if strings.Contains(string(SVG(s)), "NaN") {
		t.Error("NaN in the SVG")
	}
	if _, err := PNG(s, 150); err != nil {
		t.Error(err)
	}
}

func BenchmarkPNG(b *testing.B) {
	s := &Scene{WidthMM: 297, HeightMM: 210}
	for range 10 {
		s.Items = append(s.Items, figure().Items...)
	}
	for b.Loop() {
		if _, err := PNG(s, 150); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkPDF(b *testing.B) {
	s := figure()
	for b.Loop() {
		if _, err := PDF([]*Scene{s, s, s}, "t", ""); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkTextWidth(b *testing.B) {
	for b.Loop() {
		TextWidth("return-line 2 in ½", 3, false)
	}
}

func near(a, b Box, tol float64) bool {
	return math.Abs(a.MinX-b.MinX) < tol && math.Abs(a.MinY-b.MinY) < tol &&
		math.Abs(a.MaxX-b.MaxX) < tol && math.Abs(a.MaxY-b.MaxY) < tol
}

var number = regexp.MustCompile(`-?\d+(\.\d+)?`)

// svgBounds reads the numbers of every path, handles of curves and all (the figure's
// curves reach their handles' extent only at quarter turns, where they coincide).
func svgBounds(t *testing.T, svg []byte) Box {
	t.Helper()
	b := Empty()
	for _, m := range regexp.MustCompile(` d="([^"]*)"`).FindAllSubmatch(svg, -1) {
		ns := number.FindAllString(string(m[1]), -1)
		for i := 0; i+1 < len(ns); i += 2 {
			x, _ := strconv.ParseFloat(ns[i], 64)
			y, _ := strconv.ParseFloat(ns[i+1], 64)
			b = b.Add(Point{x, y})
		}
	}
	return b
}

func pngBounds(t *testing.T, data []byte, dpi float64) Box {
	t.Helper()
	img, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	b := Empty()
	k := 25.4 / dpi
	r := img.Bounds()
	for y := r.Min.Y; y < r.Max.Y; y++ {
		for x := r.Min.X; x < r.Max.X; x++ {
			if v, _, _, _ := img.At(x, y).RGBA(); v < 0x8000 {
				b = b.Add(Point{float64(x) * k, float64(y) * k}).Add(Point{float64(x+1) * k, float64(y+1) * k})
			}
		}
	}
	return b
}

// pdfBounds inflates the page's stream and reads the operands of m, l and c.
func pdfBounds(t *testing.T, pdf []byte, pageHeight float64) Box {
	t.Helper()
	b := Empty()
	op := regexp.MustCompile(`(?m)((?:-?[\d.]+ )+)([mlc])\b`)
	for _, part := range bytes.Split(pdf, []byte("stream\n"))[1:] {
		zr, err := zlib.NewReader(bytes.NewReader(part))
		if err != nil {
			continue
		}
		text, _ := io.ReadAll(zr)
		if !bytes.Contains(text, []byte(" m")) || bytes.Contains(text, []byte("begincmap")) {
			continue
		}
		for _, m := range op.FindAllSubmatch(text, -1) {
			ns := number.FindAllString(string(m[1]), -1)
			for i := 0; i+1 < len(ns); i += 2 {
				x, _ := strconv.ParseFloat(ns[i], 64)
				y, _ := strconv.ParseFloat(ns[i+1], 64)
				b = b.Add(Point{x / 72 * 25.4, pageHeight - y/72*25.4})
			}
		}
	}
	return b
}

package differ

import (
	"bytes"
	"fmt"
	"image"
	"image/png"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"dryfit/render/scene"
)

// What scene wrote is read back: written again it is the same, but for the last digit of the
// matrix of a slanting text and of the length of a text, which is worked out of its size.
func TestReadsWhatSceneWrites(t *testing.T) {
	title, matrix := regexp.MustCompile(`<title>.*</title>\n| textLength="[^"]*"`), regexp.MustCompile(`matrix\([^)]*\)`)
	plain := func(svg []byte) []byte {
		return matrix.ReplaceAllFunc(title.ReplaceAll(svg, nil), func(m []byte) []byte {
			var out []string
			for _, f := range strings.Fields(strings.Trim(string(m), "matrix()")) {
				out = append(out, fmt.Sprintf("%.2f", number(f)))
			}
			return []byte(strings.Join(out, " "))
		})
	}
	files, _ := filepath.Glob("../../isometric/testdata/rolling*.svg")
	more, _ := filepath.Glob("../../schematic/testdata/*.svg")
	if len(files) == 0 || len(more) == 0 {
		t.Fatal("no drawings")
	}
	for _, file := range append(files, more[0]) {
		kept, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		s, err := read(kept)
		if err != nil {
			t.Fatalf("%s: %v", file, err)
		}
		if again := scene.SVG(s); !bytes.Equal(plain(again), plain(kept)) {
			t.Errorf("%s is not the same once read and written", file)
		}
	}
}

// A line that went is red, one that came blue, one that stayed grey.
func TestDiffer(t *testing.T) {
	line := func(y float64) scene.Item {
		return scene.Line(scene.Point{X: 2, Y: y}, scene.Point{X: 18, Y: y}, scene.Stroke(1))
	}
	page := func(at ...float64) []byte {
		s := &scene.Scene{WidthMM: 20, HeightMM: 20}
		for _, y := range at {
			s.Items = append(s.Items, line(y))
		}
		return scene.SVG(s)
	}
	dir := t.TempDir()
	if _, err := write(dir, "page.svg", page(5, 10), page(10, 15)); err != nil {
		t.Fatal(err)
	}
	data, err := os.ReadFile(filepath.Join(dir, "page.svg-differs.png"))
	if err != nil {
		t.Fatal(err)
	}
	img, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	at := func(img image.Image, xMM, yMM float64) (r, g, b uint32) {
		r, g, b, _ = img.At(int(xMM*dpi/25.4), int(yMM*dpi/25.4)).RGBA()
		return r >> 8, g >> 8, b >> 8
	}
	if r, g, b := at(img, 10, 5); !(r > 200 && g < 50 && b < 50) {
		t.Errorf("what is gone is %d %d %d, want red", r, g, b)
	}
	if r, g, b := at(img, 10, 15); !(b > 200 && r < 50 && g < 50) {
		t.Errorf("what has come is %d %d %d, want blue", r, g, b)
	}
	if r, g, b := at(img, 10, 10); r != g || g != b || r > 200 {
		t.Errorf("what stayed is %d %d %d, want grey", r, g, b)
	}
	if _, err := write(dir, "none", []byte("<p/>"), page()); err == nil {
		t.Error("what is no drawing is drawn")
	}
}

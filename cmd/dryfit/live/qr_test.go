package live

import (
	"image"
	"image/color"
	"strings"
	"testing"

	qr "github.com/piglig/go-qr"
)

// What the terminal shows reads back to the link: the blocks are painted as a picture and
// decoded again.
func TestCodeReadsBack(t *testing.T) {
	const link = "http://192.168.1.20:8917/?token=ABCDEFGHIJKLMNOPQRSTUVWXYZ"
	text, err := Code(link, false)
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(strings.TrimSuffix(text, "\n"), "\n")
	const px = 8
	wide := len([]rune(lines[0]))
	picture := image.NewGray(image.Rect(0, 0, wide*px, 2*len(lines)*px))
	for row, line := range lines {
		if n := len([]rune(line)); n != wide {
			t.Fatalf("a line of %d among lines of %d", n, wide)
		}
		for col, c := range []rune(line) {
			for half, light := range []bool{c == '█' || c == '▀', c == '█' || c == '▄'} {
				if !light {
					continue
				}
				for y := range px {
					for x := range px {
						picture.SetGray(col*px+x, (2*row+half)*px+y, color.Gray{Y: 255})
					}
				}
			}
		}
	}
	got, err := qr.Decode(picture)
	if err != nil {
		t.Fatal(err)
	}
	if got != link {
		t.Errorf("reads back as %q", got)
	}
	if coloured, _ := Code(link, true); !strings.HasPrefix(coloured, "\x1b[97;40m") || !strings.Contains(coloured, "\x1b[0m\n") {
		t.Error("no colours")
	}
}

package photo

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"strings"
	"testing"
)

// corners are the colours of the four corners of what was seen, from the upper left one on
// clockwise.
var corners = [4]color.RGBA{{255, 0, 0, 255}, {0, 255, 0, 255}, {0, 0, 255, 255}, {255, 255, 0, 255}}

// firstRow and firstColumn say which side of what was seen the first row and the first column
// of the file are: Exif 2.32, 4.6.4, tag 274.
var firstRow = [9]string{"", "top", "top", "bottom", "bottom", "left", "right", "right", "left"}
var firstColumn = [9]string{"", "left", "right", "right", "left", "top", "top", "bottom", "bottom"}

// saved is what a camera held that way saves of a picture of w by h quarters.
func saved(w, h, orientation int) image.Image {
	row, col := firstRow[orientation], firstColumn[orientation]
	sw, sh := w, h
	if row == "left" || row == "right" {
		sw, sh = h, w
	}
	out := image.NewRGBA(image.Rect(0, 0, sw, sh))
	for y := range sh {
		for x := range sw {
			near := map[string]bool{} // the sides of what was seen this pixel is nearer to
			for side, half := range map[string]bool{row: y < sh/2, opposite(row): y >= sh/2, col: x < sw/2, opposite(col): x >= sw/2} {
				near[side] = half
			}
			i := 0
			switch {
			case near["top"] && near["right"]:
				i = 1
			case near["bottom"] && near["right"]:
				i = 2
			case near["bottom"]:
				i = 3
			}
			out.SetRGBA(x, y, corners[i])
		}
	}
	return out
}

func opposite(side string) string {
	return map[string]string{"top": "bottom", "bottom": "top", "left": "right", "right": "left"}[side]
}

// exif is what a camera hides: how it was held, its name, and where it stood.
func exif(orientation int, order binary.AppendByteOrder, mark string) []byte {
	t := []byte(mark)
	t = order.AppendUint16(t, 42)
	t = order.AppendUint32(t, 8)
	t = order.AppendUint16(t, 3)
	entry := func(tag, kind uint16, count uint32) {
		t = order.AppendUint16(t, tag)
		t = order.AppendUint16(t, kind)
		t = order.AppendUint32(t, count)
	}
	entry(272, 2, 12) // the device
	t = order.AppendUint32(t, 50)
	entry(274, 3, 1)
	t = order.AppendUint16(t, uint16(orientation))
	t = order.AppendUint16(t, 0)
	entry(34853, 4, 1) // the place
	t = order.AppendUint32(t, 62)
	t = order.AppendUint32(t, 0)
	return append(t, "Secretphone\x00GPSGPSGPS"...)
}

func inJPEG(t *testing.T, img image.Image, tiff []byte) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := jpeg.Encode(&b, img, &jpeg.Options{Quality: 95}); err != nil {
		t.Fatal(err)
	}
	body := append([]byte("Exif\x00\x00"), tiff...)
	out := append([]byte{0xff, 0xd8, 0xff, 0xe1}, binary.BigEndian.AppendUint16(nil, uint16(len(body)+2))...)
	return append(append(out, body...), b.Bytes()[2:]...)
}

func inPNG(t *testing.T, img image.Image, tiff []byte) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := png.Encode(&b, img); err != nil {
		t.Fatal(err)
	}
	chunk := append([]byte("eXIf"), tiff...)
	all := binary.BigEndian.AppendUint32(nil, uint32(len(tiff)))
	all = binary.BigEndian.AppendUint32(append(all, chunk...), crc32.ChecksumIEEE(chunk))
	const afterHead = 8 + 25
	return bytes.Join([][]byte{b.Bytes()[:afterHead], all, b.Bytes()[afterHead:]}, nil)
}

func TestAPhotoIsTurnedTheWayItWasSeenAndHidesNothing(t *testing.T) {
	for o := 1; o <= 8; o++ {
		img := saved(64, 48, o)
		for name, data := range map[string][]byte{
			"jpeg, little end first": inJPEG(t, img, exif(o, binary.LittleEndian, "II")),
			"jpeg, big end first":    inJPEG(t, img, exif(o, binary.BigEndian, "MM")),
			"png":                    inPNG(t, img, exif(o, binary.BigEndian, "MM")),
		} {
			got, err := Reduce("cabinet.jpg", data)
			if err != nil {
				t.Fatalf("orientation %d, %s: %v", o, name, err)
			}
			if got.Width != 64 || got.Height != 48 {
				t.Errorf("orientation %d, %s: %d by %d, want 64 by 48", o, name, got.Width, got.Height)
			}
			for i, at := range []image.Point{{8, 8}, {56, 8}, {56, 40}, {8, 40}} {
				if c := pixel(t, got, at); far(c, corners[i]) {
					t.Errorf("orientation %d, %s: corner %d is %v, want %v", o, name, i, c, corners[i])
				}
			}
			for _, secret := range []string{"Exif", "Secretphone", "GPS", "II*", "MM\x00*"} {
				if strings.Contains(string(got.JPEG), secret) {
					t.Errorf("orientation %d, %s: %q is still in it", o, name, secret)
				}
			}
		}
	}
}

func pixel(t *testing.T, p Photo, at image.Point) color.Color {
	t.Helper()
	img, err := jpeg.Decode(bytes.NewReader(p.JPEG))
	if err != nil {
		t.Fatal(err)
	}
	return img.At(at.X, at.Y)
}

func far(a color.Color, b color.RGBA) bool {
	r, g, bl, _ := a.RGBA()
	const most = 60 // of 255: JPEG loses colour at edges
	off := func(x uint32, y uint8) bool { d := int(x>>8) - int(y); return d > most || d < -most }
	return off(r, b.R) || off(g, b.G) || off(bl, b.B)
}

func TestReducedToItsLongSideWithTheMeanOfWhatItCovers(t *testing.T) {
	// stripes of 3 black, 1 white: a reduced pixel is a quarter of white, 64 of 255
	img := image.NewGray(image.Rect(0, 0, 6400, 40))
	for y := range 40 {
		for x := 3; x < 6400; x += 4 {
			img.SetGray(x, y, color.Gray{255})
		}
	}
	var b bytes.Buffer
	if err := png.Encode(&b, img); err != nil {
		t.Fatal(err)
	}
	got, err := Reduce("stripes.png", b.Bytes())
	if err != nil {
		t.Fatal(err)
	}
	if got.Width != 1600 || got.Height != 10 {
		t.Fatalf("%d by %d, want 1600 by 10", got.Width, got.Height)
	}
	if c := pixel(t, got, image.Pt(801, 5)); far(c, color.RGBA{64, 64, 64, 255}) {
		t.Errorf("a pixel is %v, want a quarter of white", c)
	}
	again, err := Reduce("stripes.png", b.Bytes())
	if err != nil || !bytes.Equal(again.JPEG, got.JPEG) {
		t.Error("the same file gave other bytes")
	}
	same, err := Of("stripes.png", got.JPEG)
	if err != nil || same.Width != got.Width || same.Height != got.Height {
		t.Errorf("Of gives %d by %d, %v", same.Width, same.Height, err)
	}
}

func TestOddSizesKeepEveryPixel(t *testing.T) {
	for _, size := range []image.Point{{1, 1}, {1, 3000}, {1601, 7}, {3199, 1999}} {
		full := image.NewRGBA(image.Rect(5, 9, 5+size.X, 9+size.Y))
		for i := range full.Pix {
			full.Pix[i] = []uint8{10, 200, 30, 255}[i%4]
		}
		got := shrunk(full, 1600)
		for i := range got.Pix {
			if want := []uint8{10, 200, 30, 255}[i%4]; got.Pix[i] != want {
				t.Fatalf("%v: byte %d is %d, want %d as everywhere", size, i, got.Pix[i], want)
			}
		}
	}
}

func TestWhatIsRefused(t *testing.T) {
	var many bytes.Buffer
	if err := png.Encode(&many, image.NewPaletted(image.Rect(0, 0, 2, 2), color.Palette{color.Black})); err != nil {
		t.Fatal(err)
	}
	bomb := bytes.Clone(many.Bytes())
	binary.BigEndian.PutUint32(bomb[16:], 12000)
	binary.BigEndian.PutUint32(bomb[20:], 12000)
	binary.BigEndian.PutUint32(bomb[29:], crc32.ChecksumIEEE(bomb[12:29]))
	whole := inJPEG(t, saved(64, 48, 1), exif(1, binary.BigEndian, "MM"))
	for _, c := range []struct {
		what string
		data []byte
		want string
	}{
		{"nothing", nil, "no picture"},
		{"words", []byte("name = 1\n"), "no picture"},
		{"heif", []byte("\x00\x00\x00\x18ftypheic\x00\x00\x00\x00"), "HEIF"},
		{"a picture too large to be unpacked", bomb, "12000 by 12000 pixels"},
		{"too many bytes", make([]byte, MostBytes+1), "at most 33554432"},
		{"the first half", whole[:len(whole)-200], "broken"},
	} {
		if _, err := Reduce("x", c.data); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %q", c.what, err, c.want)
		}
	}
}

func FuzzReduce(f *testing.F) {
	f.Add([]byte("\xff\xd8\xff\xe1\x00\x08Exif\x00\x00"))
	f.Add([]byte("\x89PNG\r\n\x1a\n"))
	f.Add([]byte("RIFF\x00\x00\x00\x00WEBPEXIF\x02\x00\x00\x00II"))
	f.Fuzz(func(t *testing.T, data []byte) {
		for _, kind := range []string{"jpeg", "png", "webp"} {
			if o := orientation(kind, data); o < 1 || o > 8 {
				t.Fatalf("orientation %d", o)
			}
		}
		if len(data) > 1<<12 {
			return
		}
		p, err := Reduce("x", data)
		if err == nil && max(p.Width, p.Height) > longSide {
			t.Fatalf("%d by %d", p.Width, p.Height)
		}
	})
}

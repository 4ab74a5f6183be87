// Package differ shows how two drawings differ: the one kept as an SVG file and the one made
// now. Only tests import it.
package differ

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"os"
	"path/filepath"

	"dryfit/render/scene"
)

// dpi is how finely the pictures are drawn, and plain how many of 255 steps of grey a change
// must have to be coloured: less is how a line falls on the pixels.
const (
	dpi   = 150
	plain = 40
)

// Picture writes both drawings and their difference as PNGs into a folder under that for
// temporary files and says where. In the difference what is drawn in both is grey, what was
// kept and is gone red, what has come blue. It is a golden.Show.
func Picture(name string, kept, made []byte) string {
	dir := filepath.Join(os.TempDir(), "dryfit-pictures")
	said, err := write(dir, name, kept, made)
	if err != nil {
		return "no picture of it: " + err.Error()
	}
	return said
}

func write(dir, name string, kept, made []byte) (string, error) {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return "", err
	}
	was, err := draw(kept)
	if err != nil {
		return "", fmt.Errorf("kept: %w", err)
	}
	is, err := draw(made)
	if err != nil {
		return "", fmt.Errorf("made: %w", err)
	}
	base := filepath.Join(dir, name)
	for end, img := range map[string]image.Image{"-kept.png": was, "-made.png": is, "-differs.png": difference(was, is)} {
		var b bytes.Buffer
		if err := png.Encode(&b, img); err != nil {
			return "", err
		}
		if err := os.WriteFile(base+end, b.Bytes(), 0o644); err != nil {
			return "", err
		}
	}
	return fmt.Sprintf("pictures: %s-kept.png, -made.png, -differs.png (gone red, come blue)", base), nil
}

func draw(svg []byte) (image.Image, error) {
	s, err := read(svg)
	if err != nil {
		return nil, err
	}
	data, err := scene.PNG(s, dpi)
	if err != nil {
		return nil, err
	}
	return png.Decode(bytes.NewReader(data))
}

// difference lays two grey pictures on each other.
func difference(was, is image.Image) image.Image {
	r := was.Bounds().Union(is.Bounds())
	out := image.NewRGBA(r)
	at := func(img image.Image, x, y int) uint8 {
		if !(image.Point{X: x, Y: y}).In(img.Bounds()) {
			return 255
		}
		return color.GrayModel.Convert(img.At(x, y)).(color.Gray).Y
	}
	for y := r.Min.Y; y < r.Max.Y; y++ {
		for x := r.Min.X; x < r.Max.X; x++ {
			a, b := at(was, x, y), at(is, x, y)
			both := max(a, b)
			c := color.RGBA{both/2 + 127, both/2 + 127, both/2 + 127, 255}
			switch {
			case int(b)-int(a) > plain: // it was darker
				c = color.RGBA{220, a / 2, a / 2, 255}
			case int(a)-int(b) > plain:
				c = color.RGBA{b / 2, b / 2, 220, 255}
			}
			out.SetRGBA(x, y, c)
		}
	}
	return out
}

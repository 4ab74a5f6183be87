package scene

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"image"
	"image/png"
	"math"

	"golang.org/x/image/vector"
)

// maxPixels bounds what PNG will make: an A3 page at 600 dpi.
const maxPixels = 70e6

// PNG writes the scene as a grey PNG at dpi dots per inch, with its print size in it.
func PNG(s *Scene, dpi float64) ([]byte, error) {
	k := dpi / 25.4
	w, h := math.Ceil(s.WidthMM*k-1e-6), math.Ceil(s.HeightMM*k-1e-6)
	if !(w >= 1 && h >= 1 && w*h <= maxPixels) {
		return nil, fmt.Errorf("a page of %.0f x %.0f mm at %.0f dpi can't be drawn", s.WidthMM, s.HeightMM, dpi)
	}
	c := newCanvas(int(w), int(h), k)
	for _, it := range s.Items {
		switch it := it.(type) {
		case Shape:
			c.shape(it)
		case Text:
			c.text(it)
		}
	}
	var b bytes.Buffer
	enc := png.Encoder{CompressionLevel: png.BestSpeed}
	if err := enc.Encode(&b, c.img); err != nil {
		return nil, fmt.Errorf("writing the PNG: %w", err)
	}
	return withPrintSize(b.Bytes(), dpi), nil
}

// withPrintSize puts a pHYs chunk (PNG specification, 11.3.4.3) after the header chunk.
func withPrintSize(b []byte, dpi float64) []byte {
	const header = 8 + 4 + 4 + 13 + 4 // signature; IHDR's length, name, data, checksum
	chunk := make([]byte, 0, 21)
	chunk = binary.BigEndian.AppendUint32(chunk, 9)
	chunk = append(chunk, "pHYs"...)
	perMetre := uint32(math.Round(dpi / 0.0254))
	chunk = binary.BigEndian.AppendUint32(chunk, perMetre)
	chunk = binary.BigEndian.AppendUint32(chunk, perMetre)
	chunk = append(chunk, 1)
	chunk = binary.BigEndian.AppendUint32(chunk, crc32.ChecksumIEEE(chunk[4:]))
	out := make([]byte, 0, len(b)+len(chunk))
	out = append(out, b[:header]...)
	out = append(out, chunk...)
	return append(out, b[header:]...)
}

// canvas is a grey image that shapes are laid on.
type canvas struct {
	img  *image.Gray
	k    float64 // pixels per mm
	ras  vector.Rasterizer
	mask []uint8
}

func newCanvas(w, h int, k float64) *canvas {
	img := image.NewGray(image.Rect(0, 0, w, h))
	for i := range img.Pix {
		img.Pix[i] = 255
	}
	return &canvas{img: img, k: k}
}

func (c *canvas) shape(s Shape) {
	pls := flatten(c.scaled(s.Paths), 0.1)
	if s.Style.Fill {
		c.fill(pls, level(s.Style.FillGrey))
	}
	if s.Style.StrokeMM > 0 {
		c.stroke(pls, s.Style.StrokeMM*c.k, scaleDash(s.Style.Dash, c.k), level(s.Style.Grey))
	}
}

func (c *canvas) text(t Text) {
	if t.SizeMM <= 0 {
		return
	}
	pls := flatten(c.scaled(set(t).outlines(t.Bold)), 0.1)
	if t.Halo {
		c.stroke(pls, 2*haloMM(t.SizeMM)*c.k, nil, 255)
	}
	c.fill(pls, level(t.Grey))
}

func (c *canvas) scaled(paths []SubPath) []SubPath {
	return Shape{Paths: paths}.Map(func(p Point) Point { return Point{p.X * c.k, p.Y * c.k} }).Paths
}

func scaleDash(d []float64, k float64) []float64 {
	if len(d) == 0 {
		return nil
	}
	out := make([]float64, len(d))
	for i, v := range d {
		out[i] = v * k
	}
	return out
}

// stroke lays each straight piece and each round join as an area of its own. Long thin
// shapes are laid piece by piece: one mask for a page's frame would be the whole page.
func (c *canvas) stroke(pls []polyline, width float64, dash []float64, grey uint8) {
	width = math.Max(width, 0.7) // thinner would fade away
	var areas []polyline
	for _, pl := range pls {
		parts := []polyline{pl}
		if len(dash) > 0 {
			parts = dashed(pl, dash)
		}
		for _, p := range parts {
			areas = append(areas, strokeAreas(p, width)...)
		}
	}
	if box := boxOf(areas); box.W()*box.H() > 200*200 && len(areas) <= 16 {
		for _, a := range areas {
			c.fill([]polyline{a}, grey)
		}
		return
	}
	c.fill(areas, grey)
}

func boxOf(pls []polyline) Box {
	b := Empty()
	for _, pl := range pls {
		for _, p := range pl.pts {
			b = b.Add(p)
		}
	}
	return b
}

// fill lays the area inside the closed polylines (by winding) on the image.
func (c *canvas) fill(pls []polyline, grey uint8) {
	box := boxOf(pls)
	if box.IsEmpty() || math.IsNaN(box.W()+box.H()) {
		return
	}
	r := c.img.Rect
	x0, y0 := clampInt(math.Floor(box.MinX), r.Max.X), clampInt(math.Floor(box.MinY), r.Max.Y)
	x1, y1 := clampInt(math.Ceil(box.MaxX)+1, r.Max.X), clampInt(math.Ceil(box.MaxY)+1, r.Max.Y)
	w, h := x1-x0, y1-y0
	if w <= 0 || h <= 0 {
		return
	}
	c.ras.Reset(w, h)
	for _, pl := range pls {
		for i, p := range pl.pts {
			x, y := float32(p.X-float64(x0)), float32(p.Y-float64(y0))
			if i == 0 {
				c.ras.MoveTo(x, y)
			} else {
				c.ras.LineTo(x, y)
			}
		}
		c.ras.ClosePath()
	}
	if cap(c.mask) < w*h {
		c.mask = make([]uint8, w*h)
	}
	mask := &image.Alpha{Pix: c.mask[:w*h], Stride: w, Rect: image.Rect(0, 0, w, h)}
	clear(mask.Pix)
	c.ras.Draw(mask, mask.Rect, image.Opaque, image.Point{})
	for y := range h {
		row := c.img.Pix[(y0+y)*c.img.Stride+x0:]
		for x, a := range mask.Pix[y*w : y*w+w] {
			if a != 0 {
				row[x] = uint8((uint32(row[x])*(255-uint32(a)) + uint32(grey)*uint32(a) + 127) / 255)
			}
		}
	}
}

func clampInt(v float64, limit int) int {
	if v < 0 {
		return 0
	}
	if v > float64(limit) {
		return limit
	}
	return int(v)
}

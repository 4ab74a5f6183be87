package photo

import (
	"image"
	"image/color"
	"image/draw"
)

// shrunk returns a picture whose longer side has at most long pixels: each is the mean of what
// it covers, weighted by how much of it. What can be seen through is white behind.
func shrunk(from image.Image, long int) *image.RGBA {
	b := from.Bounds()
	w, h := b.Dx(), b.Dy()
	tw, th := w, h
	if m := max(w, h); m > long {
		tw, th = max(1, (w*long+m/2)/m), max(1, (h*long+m/2)/m)
	}
	out := image.NewRGBA(image.Rect(0, 0, tw, th))
	row := image.NewRGBA(image.Rect(0, 0, w, 1))
	line := make([]uint64, 3*tw) // sums of one row of the original, in w-ths
	sums := make([]uint64, 3*tw) // of the row of the result in hand, in w·h-ths
	y := 0                       // the row in hand
	for sy := range h {
		draw.Draw(row, row.Bounds(), image.NewUniform(color.White), image.Point{}, draw.Src)
		draw.Draw(row, row.Bounds(), from, image.Pt(b.Min.X, b.Min.Y+sy), draw.Over)
		across(row.Pix, line, w, tw)
		// in h·th-ths of the height: this row covers [sy·th, (sy+1)·th), row y [y·h, (y+1)·h)
		for at, end := sy*th, (sy+1)*th; at < end; {
			next := min(end, (y+1)*h)
			for i := range line {
				sums[i] += line[i] * uint64(next-at)
			}
			if at = next; at == (y+1)*h {
				fill(out.Pix[y*out.Stride:], sums, uint64(w)*uint64(h))
				clear(sums)
				y++
			}
		}
	}
	return out
}

// across sums up a row of w pixels into tw, by how much of each lies in each.
func across(pix []uint8, line []uint64, w, tw int) {
	clear(line)
	x := 0
	for sx := range w {
		for at, end := sx*tw, (sx+1)*tw; at < end; {
			next := min(end, (x+1)*w)
			for c := range 3 {
				line[3*x+c] += uint64(pix[4*sx+c]) * uint64(next-at)
			}
			if at = next; at == (x+1)*w {
				x++
			}
		}
	}
}

// fill writes a row of means.
func fill(pix []uint8, sums []uint64, whole uint64) {
	for i := 0; i < len(sums)/3; i++ {
		for c := range 3 {
			pix[4*i+c] = uint8((sums[3*i+c] + whole/2) / whole) //nolint:gosec // a mean of bytes is one
		}
		pix[4*i+3] = 255
	}
}

// turned returns a picture as it was seen, by its orientation of 1 to 8: which side of what
// was seen its first row and first column are (Exif 2.32, tag 274).
func turned(from *image.RGBA, orientation int) *image.RGBA {
	w, h := from.Bounds().Dx(), from.Bounds().Dy()
	if orientation <= 1 || orientation > 8 {
		return from
	}
	tw, th := w, h
	if orientation >= 5 {
		tw, th = h, w
	}
	out := image.NewRGBA(image.Rect(0, 0, tw, th))
	for y := range h {
		for x := range w {
			at := seen(x, y, w-1-x, h-1-y, orientation)
			out.SetRGBA(at.X, at.Y, from.RGBAAt(x, y))
		}
	}
	return out
}

// seen is where a pixel of row y and column x, counted from the other ends down and right,
// stands in what was seen.
func seen(x, y, right, down, orientation int) image.Point {
	switch orientation {
	case 2:
		return image.Pt(right, y)
	case 3:
		return image.Pt(right, down)
	case 4:
		return image.Pt(x, down)
	case 5:
		return image.Pt(y, x)
	case 6:
		return image.Pt(down, x)
	case 7:
		return image.Pt(down, right)
	case 8:
		return image.Pt(y, right)
	}
	return image.Pt(x, y)
}

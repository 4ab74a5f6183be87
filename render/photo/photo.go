package photo

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/jpeg"
	_ "image/png" // pictures of screens

	_ "golang.org/x/image/webp" // what chat programs save
)

// What a picture may be at most, and what it becomes.
const (
	MostBytes  = 32 << 20 // of a file: a camera's largest JPEG has about 20 million
	mostPixels = 64 << 20 // of a picture
	longSide   = 1600     // pixels of what is kept: 225 to the inch over the width of an A4 page
	quality    = 80       // of the JPEG, out of 100
)

// Photo is a picture as the papers show it.
type Photo struct {
	Name          string // as the description calls it
	JPEG          []byte
	Width, Height int // pixels
}

// Reduce makes a photo of a JPEG, PNG or WebP file.
func Reduce(name string, data []byte) (Photo, error) {
	if err := Check(data); err != nil {
		return Photo{}, err
	}
	full, kind, err := image.Decode(bytes.NewReader(data))
	if err != nil {
		return Photo{}, errors.New("is broken: it begins as a picture and can't be read to its end")
	}
	small := turned(shrunk(full, longSide), orientation(kind, data))
	var out bytes.Buffer
	if err := jpeg.Encode(&out, small, &jpeg.Options{Quality: quality}); err != nil {
		return Photo{}, fmt.Errorf("can't be written as JPEG: %w", err)
	}
	size := small.Bounds().Size()
	return Photo{Name: name, JPEG: out.Bytes(), Width: size.X, Height: size.Y}, nil
}

// Of returns a photo that Reduce has made before.
func Of(name string, jpegData []byte) (Photo, error) {
	c, err := jpeg.DecodeConfig(bytes.NewReader(jpegData))
	if err != nil {
		return Photo{}, fmt.Errorf("is no picture: %w", err)
	}
	return Photo{Name: name, JPEG: jpegData, Width: c.Width, Height: c.Height}, nil
}

// Check looks at the beginning of a file: whether it is a picture that can be read, and none
// larger than what is read.
func Check(data []byte) error {
	if len(data) > MostBytes {
		return fmt.Errorf("has %d bytes; at most %d are read: save it smaller", len(data), MostBytes)
	}
	c, _, err := image.DecodeConfig(bytes.NewReader(data))
	switch {
	case err != nil && heif(data):
		return errors.New("is HEIF or AVIF, which is not read: save it as JPEG (phones: camera settings, most compatible)")
	case err != nil:
		return errors.New("is no picture that can be read: JPEG, PNG and WebP are")
	case c.Width <= 0 || c.Height <= 0:
		return errors.New("is a picture without pixels")
	case c.Width > mostPixels/c.Height:
		return fmt.Errorf("is %d by %d pixels; at most %d million are read: save it smaller", c.Width, c.Height, mostPixels>>20)
	}
	return nil
}

// heif reports whether a file is of the family of ISO/IEC 14496-12 (a box "ftyp" first), as
// phones save pictures unless told otherwise.
func heif(data []byte) bool { return len(data) >= 12 && string(data[4:8]) == "ftyp" }

package live

import (
	"strings"

	qr "github.com/piglig/go-qr"
)

// quiet is the light edge a QR code wants, in cells (ISO/IEC 18004).
const quiet = 4

// Code is a link as a QR code in half blocks, two cells to a character, for a terminal. In
// colour it is black on white; else it counts on light letters on a dark ground.
func Code(link string, colour bool) (string, error) {
	q, err := qr.EncodeText(link, qr.Medium)
	if err != nil {
		return "", err
	}
	dark := func(x, y int) bool {
		return x >= 0 && y >= 0 && x < q.Size() && y < q.Size() && q.Module(x, y)
	}
	var b strings.Builder
	for y := -quiet; y < q.Size()+quiet; y += 2 {
		if colour {
			b.WriteString("\x1b[97;40m")
		}
		for x := -quiet; x < q.Size()+quiet; x++ {
			upper, lower := !dark(x, y), !dark(x, y+1) // light cells are drawn
			switch {
			case upper && lower:
				b.WriteRune('█')
			case upper:
				b.WriteRune('▀')
			case lower:
				b.WriteRune('▄')
			default:
				b.WriteByte(' ')
			}
		}
		if colour {
			b.WriteString("\x1b[0m")
		}
		b.WriteByte('\n')
	}
	return b.String(), nil
}

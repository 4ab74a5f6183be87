package scene

import (
	"strings"
	"sync"
	"unicode"

	"github.com/go-fonts/dejavu/dejavusans"
	"github.com/go-fonts/dejavu/dejavusansbold"
	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// Heights of the font, in em. Source: DejaVu Sans 2.37, tables OS/2 and hhea.
const (
	capHeight = 0.729
	ascent    = 0.76 // of an accent-free letter with ascender
	descent   = 0.236
)

// missingRune stands for a letter the font lacks.
const missingRune = '□'

// face is one cut of the font: the widths of the signs the trade writes, and the font for
// everything else.
type face struct {
	font  *sfnt.Font
	ttf   []byte
	em    float64
	ascii [128]float64 // advance, em
}

var regular = sync.OnceValue(func() *face { return openFace(dejavusans.TTF) })
var bold = sync.OnceValue(func() *face { return openFace(dejavusansbold.TTF) })

func faceOf(isBold bool) *face {
	if isBold {
		return bold()
	}
	return regular()
}

func openFace(ttf []byte) *face {
	f, err := sfnt.Parse(ttf)
	if err != nil {
		panic("scene: embedded font: " + err.Error())
	}
	fc := &face{font: f, ttf: ttf, em: float64(f.UnitsPerEm())}
	var b sfnt.Buffer
	for r := rune(32); r < 127; r++ {
		fc.ascii[r] = fc.measure(&b, r)
	}
	return fc
}

func (f *face) ppem() fixed.Int26_6 { return fixed.I(int(f.font.UnitsPerEm())) }

func (f *face) measure(b *sfnt.Buffer, r rune) float64 {
	g, err := f.font.GlyphIndex(b, r)
	if err != nil {
		return 0
	}
	a, err := f.font.GlyphAdvance(b, g, f.ppem(), font.HintingNone)
	if err != nil {
		return 0
	}
	return float64(a) / 64 / f.em
}

// has reports whether the font can draw the rune. Planes above the first are left out:
// the PDF writer can't carry them.
func (f *face) has(b *sfnt.Buffer, r rune) bool {
	if r >= 32 && r < 127 {
		return true
	}
	if r > 0xFFFF {
		return false
	}
	g, err := f.font.GlyphIndex(b, r)
	return err == nil && g != 0
}

// outline calls add with each part of the rune's outline; op is 'M', 'L', 'Q' or 'C',
// coordinates in em, Y up.
func (f *face) outline(b *sfnt.Buffer, r rune, add func(op byte, p [3]Point)) {
	g, err := f.font.GlyphIndex(b, r)
	if err != nil {
		return
	}
	segs, err := f.font.LoadGlyph(b, g, f.ppem(), nil)
	if err != nil {
		return
	}
	for _, s := range segs {
		var p [3]Point
		for i, a := range s.Args {
			p[i] = Point{float64(a.X) / 64 / f.em, -float64(a.Y) / 64 / f.em}
		}
		op := byte('M')
		switch s.Op {
		case sfnt.SegmentOpLineTo:
			op = 'L'
		case sfnt.SegmentOpQuadTo:
			op = 'Q'
		case sfnt.SegmentOpCubeTo:
			op = 'C'
		}
		add(op, p)
	}
}

// TextWidth returns the width of the text in mm, as all three writers set it: advances
// added up, no kerning.
func TextWidth(text string, sizeMM float64, isBold bool) float64 {
	f := faceOf(isBold)
	var b *sfnt.Buffer
	w := 0.0
	for _, r := range text {
		if r >= 32 && r < 127 {
			w += f.ascii[r]
			continue
		}
		if b == nil {
			b = new(sfnt.Buffer)
		}
		switch r = shown(f, b, r); r {
		case 0:
		case ' ':
			w += f.ascii[' ']
		default:
			w += f.measure(b, r)
		}
	}
	return w * sizeMM
}

// shown returns the rune a writer puts for r: a space for what breaks lines, 0 for what
// must not be seen (control and formatting characters, which could turn text round), a box
// for what the font lacks.
func shown(f *face, b *sfnt.Buffer, r rune) rune {
	switch {
	case r >= 32 && r < 127:
		return r
	case isBreak(r):
		return ' '
	case unicode.In(r, unicode.Cc, unicode.Cf, unicode.Cs):
		return 0
	case r == unicode.ReplacementChar || !f.has(b, r):
		return missingRune
	}
	return r
}

// visible returns the text as the writers put it.
func visible(text string, isBold bool) string {
	plain := true
	for i := 0; i < len(text); i++ {
		if text[i] < 32 || text[i] >= 127 {
			plain = false
			break
		}
	}
	if plain {
		return text
	}
	f := faceOf(isBold)
	var b sfnt.Buffer
	var sb strings.Builder
	for _, r := range text {
		if r = shown(f, &b, r); r != 0 {
			sb.WriteRune(r)
		}
	}
	return sb.String()
}

// isBreak reports whether a letter begins a new line or column where text is set; on a drawing it is a blank.
func isBreak(r rune) bool {
	return r == '\t' || r == '\n' || r == '\r' || r == '\u2028' || r == '\u2029'
}

// written returns the text as a viewer that has fonts of its own can set it: with the letters the font
// lacks, without what must not be seen.
func written(text string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case isBreak(r):
			return ' '
		case unicode.In(r, unicode.Cc, unicode.Cf, unicode.Cs):
			return -1
		}
		return r
	}, text)
}

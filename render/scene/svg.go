package scene

import (
	"bytes"
	"fmt"
	"math"
	"strconv"
	"strings"
)

// fontFamily names the font the widths come from, then ones of the same widths or nearly.
const fontFamily = "'DejaVu Sans','Bitstream Vera Sans',Verdana,sans-serif"

// SVG writes the scene as one self-contained SVG 1.1 document, 1 user unit = 1 mm, with no
// script, style sheet or reference to anything outside. Texts stay texts: their length is
// given, so that a viewer without the font sets them just as wide.
func SVG(s *Scene) []byte {
	var b bytes.Buffer
	w, h := num(s.WidthMM), num(s.HeightMM)
	fmt.Fprintf(&b, "<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" width=\"%smm\" height=\"%smm\" viewBox=\"0 0 %s %s\" font-family=\"%s\" stroke-linejoin=\"round\" stroke-linecap=\"butt\">\n",
		w, h, w, h, fontFamily)
	if s.Name != "" {
		fmt.Fprintf(&b, "<title>%s</title>\n", escape(visible(s.Name, false)))
	}
	fmt.Fprintf(&b, "<rect width=\"%s\" height=\"%s\" fill=\"#fff\"/>\n", w, h)
	for _, it := range s.Items {
		switch it := it.(type) {
		case Shape:
			svgShape(&b, it)
		case Text:
			svgText(&b, it)
		}
	}
	b.WriteString("</svg>\n")
	return b.Bytes()
}

func svgShape(b *bytes.Buffer, s Shape) {
	if len(s.Paths) == 0 || (s.Style.StrokeMM <= 0 && !s.Style.Fill) {
		return
	}
	b.WriteString("<path")
	svgName(b, s.Name)
	b.WriteString(" d=\"")
	for _, sp := range s.Paths {
		b.WriteString("M" + pair(sp.Start))
		for _, g := range sp.Segments {
			if g.Curve {
				b.WriteString("C" + pair(g.C1) + " " + pair(g.C2) + " " + pair(g.To))
			} else {
				b.WriteString("L" + pair(g.To))
			}
		}
		if sp.Closed {
			b.WriteString("Z")
		}
	}
	b.WriteString("\"")
	if s.Style.Fill {
		b.WriteString(" fill=\"" + colour(s.Style.FillGrey) + "\"")
	} else {
		b.WriteString(" fill=\"none\"")
	}
	if s.Style.StrokeMM > 0 {
		fmt.Fprintf(b, " stroke=\"%s\" stroke-width=\"%s\"", colour(s.Style.Grey), num(s.Style.StrokeMM))
		if len(s.Style.Dash) > 0 {
			parts := make([]string, len(s.Style.Dash))
			for i, d := range s.Style.Dash {
				parts[i] = num(d)
			}
			fmt.Fprintf(b, " stroke-dasharray=\"%s\"", strings.Join(parts, " "))
		}
	}
	b.WriteString("/>\n")
}

func svgText(b *bytes.Buffer, t Text) {
	set := set(t)
	if strings.TrimSpace(set.text) == "" || t.SizeMM <= 0 {
		return
	}
	b.WriteString("<text")
	svgName(b, t.Name)
	if t.TurnDeg == 0 && t.SkewDeg == 0 {
		fmt.Fprintf(b, " x=\"%s\" y=\"%s\"", num(set.origin.X), num(set.origin.Y))
	} else {
		// One unit along and one unit down (SVG's Y), in page units.
		k := t.SizeMM
		fmt.Fprintf(b, " transform=\"matrix(%s %s %s %s %s %s)\"", fine(set.along.X/k), fine(set.along.Y/k),
			fine(-set.up.X/k), fine(-set.up.Y/k), num(set.origin.X), num(set.origin.Y))
	}
	fmt.Fprintf(b, " font-size=\"%s\"", num(t.SizeMM))
	if t.Bold {
		b.WriteString(" font-weight=\"bold\"")
	}
	fmt.Fprintf(b, " textLength=\"%s\" lengthAdjust=\"spacingAndGlyphs\" fill=\"%s\"", num(set.width*t.SizeMM), colour(t.Grey))
	if t.Halo {
		fmt.Fprintf(b, " stroke=\"#fff\" stroke-width=\"%s\" paint-order=\"stroke\"", num(2*haloMM(t.SizeMM)))
	}
	b.WriteString(" xml:space=\"preserve\">" + escape(written(t.Text)) + "</text>\n")
}

// svgName writes the name as a class: its letters, digits, '-', '_', ':' and '.', anything
// else as '_'.
func svgName(b *bytes.Buffer, name string) {
	if name == "" {
		return
	}
	b.WriteString(" class=\"")
	for _, r := range name {
		switch {
		case r >= 'a' && r <= 'z', r >= 'A' && r <= 'Z', r >= '0' && r <= '9', strings.ContainsRune("-_:.>", r):
			if r == '>' {
				b.WriteString("-to-")
			} else {
				b.WriteRune(r)
			}
		default:
			b.WriteByte('_')
		}
	}
	b.WriteString("\"")
}

// escape makes text inert in XML.
func escape(s string) string {
	return strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", `"`, "&quot;", "'", "&#39;").Replace(s)
}

func colour(grey float64) string {
	v := level(grey)
	if v == 0 {
		return "#000"
	}
	if v == 255 {
		return "#fff"
	}
	return fmt.Sprintf("#%02x%02x%02x", v, v, v)
}

// level maps 0 black … 1 white to 0…255.
func level(grey float64) uint8 {
	switch {
	case !(grey > 0):
		return 0
	case grey >= 1:
		return 255
	}
	return uint8(math.Round(grey * 255))
}

func pair(p Point) string { return num(p.X) + " " + num(p.Y) }

// num writes a length to 0.01 mm; what is not a number is written as 0.
func num(v float64) string { return decimal(v, 100) }

// fine writes a ratio to 0.0001.
func fine(v float64) string { return decimal(v, 10000) }

func decimal(v, per float64) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return "0"
	}
	r := math.Round(v*per) / per
	if r == 0 { // no minus zero
		return "0"
	}
	return strconv.FormatFloat(r, 'f', -1, 64)
}

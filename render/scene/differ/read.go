package differ

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"dryfit/render/scene"
)

// read makes a scene of an SVG as package scene writes it; it reads no other.
func read(svg []byte) (*scene.Scene, error) {
	d := xml.NewDecoder(bytes.NewReader(svg))
	s := &scene.Scene{}
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return nil, err
		}
		e, ok := token.(xml.StartElement)
		if !ok {
			continue
		}
		a := attributes(e)
		switch e.Name.Local {
		case "svg":
			s.WidthMM, s.HeightMM = number(strings.TrimSuffix(a["width"], "mm")), number(strings.TrimSuffix(a["height"], "mm"))
		case "path":
			paths, err := outline(a["d"])
			if err != nil {
				return nil, err
			}
			s.Items = append(s.Items, scene.Shape{Paths: paths, Name: a["class"], Style: styleOf(a)})
		case "text":
			var text string
			if err := d.DecodeElement(&text, &e); err != nil {
				return nil, err
			}
			s.Items = append(s.Items, textOf(a, text))
		}
	}
	if !(s.WidthMM > 0 && s.HeightMM > 0) {
		return nil, errors.New("no <svg> with a width and a height")
	}
	return s, nil
}

func attributes(e xml.StartElement) map[string]string {
	out := map[string]string{}
	for _, a := range e.Attr {
		out[a.Name.Local] = a.Value
	}
	return out
}

func number(s string) float64 {
	v, _ := strconv.ParseFloat(s, 64)
	return v
}

// grey is a colour as scene writes it, 0 black to 1 white.
func grey(s string) float64 {
	switch {
	case s == "#fff":
		return 1
	case len(s) == 7:
		v, _ := strconv.ParseUint(s[1:3], 16, 8)
		return float64(v) / 255
	}
	return 0
}

func styleOf(a map[string]string) scene.Style {
	st := scene.Style{StrokeMM: number(a["stroke-width"]), Grey: grey(a["stroke"])}
	if f := a["fill"]; f != "none" {
		st.Fill, st.FillGrey = true, grey(f)
	}
	for _, d := range strings.Fields(a["stroke-dasharray"]) {
		st.Dash = append(st.Dash, number(d))
	}
	return st
}

// outline reads the commands M, L, C and Z.
func outline(d string) ([]scene.SubPath, error) {
	var out []scene.SubPath
	for i := 0; i < len(d); {
		end := i + 1
		for end < len(d) && !strings.ContainsRune("MLCZ", rune(d[end])) {
			end++
		}
		var p []scene.Point
		for f := strings.Fields(d[i+1 : end]); len(f) > 1; f = f[2:] {
			p = append(p, scene.Point{X: number(f[0]), Y: number(f[1])})
		}
		last := len(out) - 1
		switch {
		case d[i] == 'M' && len(p) == 1:
			out = append(out, scene.SubPath{Start: p[0]})
		case d[i] == 'L' && len(p) == 1 && last >= 0:
			out[last].Segments = append(out[last].Segments, scene.Segment{To: p[0]})
		case d[i] == 'C' && len(p) == 3 && last >= 0:
			out[last].Segments = append(out[last].Segments, scene.Segment{Curve: true, C1: p[0], C2: p[1], To: p[2]})
		case d[i] == 'Z' && last >= 0:
			out[last].Closed = true
		default:
			return nil, fmt.Errorf("path %q: no reading %q", d, d[i:end])
		}
		i = end
	}
	return out, nil
}

// textOf is a text at its start on the baseline, turned and skewed as its matrix says.
func textOf(a map[string]string, text string) scene.Text {
	t := scene.Text{At: scene.Point{X: number(a["x"]), Y: number(a["y"])}, Text: text, SizeMM: number(a["font-size"]),
		Bold: a["font-weight"] == "bold", Grey: grey(a["fill"]), Halo: a["paint-order"] == "stroke", Name: a["class"]}
	m := strings.Fields(strings.TrimSuffix(strings.TrimPrefix(a["transform"], "matrix("), ")"))
	if len(m) == 6 {
		cos, sin := number(m[0]), -number(m[1]) // counter-clockwise on a page whose Y points down
		t.At = scene.Point{X: number(m[4]), Y: number(m[5])}
		t.TurnDeg = math.Atan2(sin, cos) * 180 / math.Pi
		t.SkewDeg = math.Atan(number(m[3])*sin-number(m[2])*cos) * 180 / math.Pi
	}
	return t
}

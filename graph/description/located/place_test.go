package located_test

import (
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/description/located"
)

// marked returns the text without its marks and where they stood: «name» before a character
// marks its place.
func marked(t *testing.T, text string) (string, map[string]graph.Pos) {
	t.Helper()
	out, at := "", map[string]graph.Pos{}
	line, column := 1, 1
	for len(text) > 0 {
		if rest, ok := strings.CutPrefix(text, "«"); ok {
			name, after, ok := strings.Cut(rest, "»")
			if !ok {
				t.Fatal("a mark is not closed")
			}
			at[name] = graph.Pos{File: "p.toml", Line: line, Column: column}
			text = after
			continue
		}
		c := []rune(text[:min(4, len(text))])[0]
		out += string(c)
		text = text[len(string(c)):]
		column++
		if c == '\n' {
			line, column = line+1, 1
		}
	}
	return out, at
}

// Where keys and values stand, in every way TOML has to write them.
func TestPlaces(t *testing.T) {
	text, want := marked(t, `# über
«table»[a]
  «key»k = «value»"v"
dotted.«part»x . «deep»y = «number»3
«inline»t = «brace»{ «inner»i = «ival»'é', j = { «deeper»k = «dval»1.5 } }
l = «list»[ «one»"1", # a comment, with "quotes" and ]
  «two»[ «pair»"]", «second»'#' ],
  «three»{ q = «q»true } ,
]
[[«array»p]]
n = 1
«again»[[p]]
«n2»n = «v2»2
[p.«sub»sub]
s = «s»"""
long"""
`)
	r := located.New("p.toml", []byte(text))
	top, ok := r.Decode()
	if !ok {
		t.Fatal(r.Found)
	}
	get := func(v located.Value, keys ...string) located.Value {
		for _, k := range keys {
			c, ok := v.In(k)
			if !ok {
				t.Fatalf("no key %q", k)
			}
			v = c
		}
		return v
	}
	item := func(v located.Value, i int) located.Value {
		items, ok := v.Items()
		if !ok || i >= len(items) {
			t.Fatalf("no item %d", i)
		}
		return items[i]
	}
	a := get(top, "a")
	l := get(a, "l")
	last := item(get(top, "p"), 1)
	for name, got := range map[string]graph.Pos{
		"table":  r.KeyPos(a),
		"key":    r.KeyPos(get(a, "k")),
		"value":  r.ValuePos(get(a, "k")),
		"part":   r.KeyPos(get(a, "dotted", "x")),
		"deep":   r.KeyPos(get(a, "dotted", "x", "y")),
		"number": r.ValuePos(get(a, "dotted", "x", "y")),
		"inline": r.KeyPos(get(a, "t")),
		"brace":  r.ValuePos(get(a, "t")),
		"inner":  r.KeyPos(get(a, "t", "i")),
		"ival":   r.ValuePos(get(a, "t", "i")),
		"deeper": r.KeyPos(get(a, "t", "j", "k")),
		"dval":   r.ValuePos(get(a, "t", "j", "k")),
		"list":   r.ValuePos(l),
		"one":    r.ValuePos(item(l, 0)),
		"two":    r.ValuePos(item(l, 1)),
		"pair":   r.ValuePos(item(item(l, 1), 0)),
		"second": r.ValuePos(item(item(l, 1), 1)),
		"three":  r.ValuePos(item(l, 2)),
		"q":      r.ValuePos(get(item(l, 2), "q")),
		"again":  r.KeyPos(last),
		"n2":     r.KeyPos(get(last, "n")),
		"v2":     r.ValuePos(get(last, "n")),
		"sub":    r.KeyPos(get(last, "sub")),
		"s":      r.ValuePos(get(last, "sub", "s")),
	} {
		if got != want[name] {
			t.Errorf("%s is at %v, want %v", name, got, want[name])
		}
	}
}

// The circuit carries the places of what was read.
func TestCircuitPlaces(t *testing.T) {
	text, want := marked(t, `[pipe]
spec = "pvc-sch40"
«size»size = "2 in"
«tub»[[part]]
id = "tub"
kind = "tub"
ports = [«port»"a", "b"]
[[part]]
id = "p"
kind = "pump"
existing = true
speeds = [ «speed»{ name = "on", curve = [["0 m3/h", "3 m"], ["5 m3/h", "1 m"]] } ]
«loss»loss = { kv = "30 m3/h" }
«run»[[run]]
from = «from»"tub.a"
to = "p.in"
legs = [ "left 1 m", «leg»"up 2 m" ]
[[run]]
from = "p.out"
to = "tub.b"
length = "1 m"
fittings = { «fitting»elbow-90 = 2 }
`)
	c, ds := description.Read("p.toml", []byte(text))
	if c == nil {
		t.Fatal(ds)
	}
	run := c.Runs[0]
	for name, got := range map[string]graph.Pos{
		"size":    c.Pipe.KeyPos["size"],
		"tub":     c.Part("tub").Pos,
		"port":    c.Part("tub").Port("a").Pos,
		"speed":   c.Part("p").Pump.Speeds[0].Pos,
		"loss":    c.Part("p").Loss.Pos,
		"run":     run.Pos,
		"from":    run.From.Pos,
		"leg":     run.Legs[1].Pos,
		"fitting": c.Runs[1].Fittings[0].Pos,
	} {
		if got != want[name] {
			t.Errorf("%s is at %v, want %v", name, got, want[name])
		}
	}
}

// The column of a caret is where the place is, whatever stands before it.
func TestCaretColumn(t *testing.T) {
	text, want := marked(t, "[job]\nname = \"tüb\t🛁\" «here»x")
	_, ds := description.Read("p.toml", []byte(text))
	if len(ds) != 1 || ds[0].Pos != want["here"] {
		t.Errorf("a syntax error is at %v, want %v", ds, want["here"])
	}
}

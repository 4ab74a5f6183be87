package pipework

import (
	"math"
	"slices"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/description/field"
	"dryfit/graph/description/located"
	"dryfit/graph/hydraulic/laws"
)

// readsLoss reads one loss as it stands in a part.
func readsLoss(t *testing.T, text string) *graph.Loss {
	t.Helper()
	r := &field.Reader{File: located.New("loss.toml", []byte("loss = "+text+"\n"))}
	top, ok := r.Decode()
	if !ok {
		t.Fatalf("%s: %v", text, r.Found)
	}
	v, _ := top.In("loss")
	l := readLoss(r, v, false)
	if l == nil {
		t.Fatalf("%s: %v", text, r.Found)
	}
	return l
}

// Every form of a loss is read, written again so that it reads the same, said in words, and makes a
// law; and a loss of twice as much in the same form costs twice as much at every flow.
func TestEveryFormOfLossIsWhole(t *testing.T) {
	const bore, density, exponent = 0.05, 1000, 1.8
	head := func(l *graph.Loss, flow float64) float64 {
		law, _ := laws.DescribedLaw(l, bore, density, exponent)
		if law == nil {
			return math.NaN()
		}
		h, _ := law.Loss(flow)
		return h
	}
	said := map[quantity.Text]string{}
	for _, f := range lossForms {
		l := readsLoss(t, f.example)
		text := LossText(l)
		again := readsLoss(t, text)
		words := l.Words()
		if words == "" || said[words] != "" {
			t.Errorf("%s is said as %q, as is %s", f.example, words, said[words])
		}
		said[words] = f.example
		if f.write != nil && !strings.HasPrefix(text, "{ "+f.keys[0]+" = ") {
			t.Errorf("%s is written as %s", f.example, text)
		}
		twice := l.Times(2, func(x float64, _ quantity.Dimension) float64 { return x })
		for _, flow := range []float64{1e-3, 2e-3, 4e-3} {
			h := head(l, flow)
			if got := head(again, flow); h <= 0 || !agree.Within(got, h, 1e-6*h) {
				t.Errorf("%s costs %g m at %g m3/s; written and read, %s, %g", f.example, h, flow, text, got)
			}
			if got := head(twice, flow); !agree.Within(got, 2*h, 1e-9*h) {
				t.Errorf("%s costs %g m at %g m3/s; twice of it %g", f.example, h, flow, got)
			}
		}
	}
	for _, f := range lossForms {
		if n := len(f.shapes()); n != len(f.keys) || f.needs < 1 || f.needs > n || slices.Contains(f.keys, "") {
			t.Errorf("%s: %d keys, %d shapes, %d needed", f.example, len(f.keys), n, f.needs)
		}
	}
}

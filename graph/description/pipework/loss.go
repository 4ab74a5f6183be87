package pipework

import (
	"slices"
	"strings"

	"dryfit/graph"
	"dryfit/graph/description/field"
	"dryfit/graph/description/located"
	"dryfit/graph/description/schema"
)

// lossField is a loss in one of its forms, or "none".
func lossField() field.Field[graph.Part] {
	return field.Field[graph.Part]{
		Key:   "loss",
		Shape: lossShape,
		Read: func(r *field.Reader, v located.Value, into *graph.Part) {
			if l := readLoss(r, v, into.Kind == graph.Tub); l != nil {
				into.Loss = l
			}
		},
		Write: func(from *graph.Part) string { return LossText(from.Loss) },
	}
}

// lossShape is a loss in one of lossForms, or "none".
func lossShape() schema.Shape {
	forms := []schema.Shape{schema.Word("none")}
	for _, f := range lossForms {
		var keys schema.Shape
		for i, shape := range f.shapes() {
			keys = keys.With(f.keys[i], field.KeyShape(shape, "loss", f.keys[i]))
		}
		forms = append(forms, schema.Table(keys, f.keys[:f.needs]))
	}
	return schema.Either(forms...)
}

// readLoss reads a loss; nil where it has a mistake. A tub's may only be "none".
func readLoss(r *field.Reader, v located.Value, tub bool) *graph.Loss {
	l := &graph.Loss{Pos: r.KeyPos(v)}
	if s, ok := v.V.(string); ok {
		switch {
		case s == "none":
			l.None = true
			return l
		case r.Blank(v, anExample):
		default:
			r.Fail(v, `write "none", or `+anExample, "a loss can't be %s", located.Said(s))
		}
		return nil
	}
	if _, ok := v.V.(map[string]any); !ok {
		r.WrongType(v, "a table", anExample)
		return nil
	}
	if tub {
		r.Fail(v, `loss = "none" leaves out the entrances and exits at its ports`, "a tub's loss can only be \"none\"")
		return nil
	}
	form := formOfLoss(r, v)
	if form < 0 {
		return nil
	}
	before := len(r.Found)
	lossForms[form].read(r, v, l)
	if len(r.Found) > before {
		return nil
	}
	return l
}

// formOfLoss returns which form the loss is given in; -1 where it is none, or two at once.
func formOfLoss(r *field.Reader, v located.Value) int {
	form, all := -1, []string(nil)
	for i, f := range lossForms {
		all = append(all, f.keys...)
		for _, k := range f.keys {
			c, ok := v.In(k)
			switch {
			case !ok:
			case form >= 0 && form != i && k == "exponent":
				r.Add(r.KeyPos(c), exponentHint(lossForms[form].keys[0]), "an exponent goes with the drop at one flow; this loss is given by %s", lossForms[form].keys[0])
				return -1
			case form >= 0 && form != i && onlyExponent(v):
				c, _ = v.In("exponent")
				r.Add(r.KeyPos(c), exponentHint(f.keys[0]), "an exponent goes with the drop at one flow; this loss is given by %s", f.keys[0])
				return -1
			case form >= 0 && form != i:
				r.Add(r.KeyPos(c), "keep the form that is known best, such as "+lossForms[form].example,
					"a loss in two forms: %s and %s", strings.Join(lossForms[form].main(), " with "), strings.Join(f.main(), " with "))
				return -1
			default:
				form = i
			}
		}
	}
	before := len(r.Found)
	for _, k := range v.Keys() {
		if !slices.Contains(all, k) {
			c, _ := v.In(k)
			r.UnknownKey(c, "a loss", all)
		}
	}
	if form < 0 && len(r.Found) == before {
		r.Fail(v, "write "+anExample, "this loss says nothing")
	}
	if len(r.Found) > before {
		return -1
	}
	return form
}

// onlyExponent reports whether of the keys of a drop at one flow there is the exponent alone.
func onlyExponent(v located.Value) bool {
	_, flow := v.In("flow")
	_, drop := v.In("drop")
	return !flow && !drop
}

// exponentHint says why a form of loss, by its first key, takes no exponent.
func exponentHint(key string) string {
	if key == "points" {
		return "leave exponent out: the points say the shape themselves; or give one of them as flow and drop and keep it"
	}
	return "leave exponent out: a " + key + " loses as the square of the flow; or write " + `{ flow = "10 m3/h", drop = "6 kPa", exponent = 1.6 }`
}

// LossText writes a loss in the form it has; "" for none.
func LossText(l *graph.Loss) string {
	switch {
	case l == nil:
		return ""
	case l.None:
		return field.Quote("none")
	}
	for _, f := range lossForms {
		if f.write == nil {
			continue
		}
		if text := f.write(l); text != "" {
			return text
		}
	}
	return ""
}

package pack

import (
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph/description"
	"dryfit/graph/lots"
	"dryfit/graph/match"
	"dryfit/graph/plan"
)

// everythingIn is all that a value holds, in words: pointers are followed, once each; of functions and
// of the catalogue only that they are there.
func everythingIn(v any) string {
	var b strings.Builder
	seen := map[uintptr]int{}
	var walk func(v reflect.Value)
	walk = func(v reflect.Value) {
		if !v.IsValid() {
			return
		}
		t := v.Type()
		if strings.HasPrefix(t.PkgPath(), "dryfit/catalog") && t.Name() == "Catalog" || t.PkgPath() == "sync" || t.PkgPath() == "sync/atomic" {
			return
		}
		switch v.Kind() {
		case reflect.Pointer:
			if v.IsNil() {
				b.WriteString("nil ")
				return
			}
			if n, ok := seen[v.Pointer()]; ok {
				fmt.Fprintf(&b, "&%d ", n)
				return
			}
			seen[v.Pointer()] = len(seen)
			walk(v.Elem())
		case reflect.Interface:
			walk(v.Elem())
		case reflect.Struct:
			fmt.Fprintf(&b, "%s{", t.Name())
			for i := range v.NumField() {
				fmt.Fprintf(&b, "%s:", t.Field(i).Name)
				walk(v.Field(i))
			}
			b.WriteString("} ")
		case reflect.Slice, reflect.Array:
			fmt.Fprintf(&b, "[%d ", v.Len())
			for i := range v.Len() {
				walk(v.Index(i))
			}
			b.WriteString("] ")
		case reflect.Map:
			fmt.Fprintf(&b, "map of %d ", v.Len()) // its order is none
			if t.Key().Kind() == reflect.String {
				keys := map[string]reflect.Value{}
				var names []string
				for _, k := range v.MapKeys() {
					keys[k.String()] = v.MapIndex(k)
					names = append(names, k.String())
				}
				for _, k := range slices.Sorted(slices.Values(names)) {
					b.WriteString(k + "=")
					walk(keys[k])
				}
			}
		case reflect.Func, reflect.Chan, reflect.UnsafePointer:
		case reflect.String:
			fmt.Fprintf(&b, "%q ", v.String())
		case reflect.Bool:
			fmt.Fprint(&b, v.Bool(), " ")
		case reflect.Float64, reflect.Float32:
			fmt.Fprint(&b, v.Float(), " ")
		default:
			if v.CanInt() {
				fmt.Fprint(&b, v.Int(), " ")
			} else if v.CanUint() {
				fmt.Fprint(&b, v.Uint(), " ")
			}
		}
	}
	walk(reflect.ValueOf(v))
	return b.String()
}

// sameStill fails where what a value holds is another than it was, and says where.
func sameStill(t *testing.T, what, was, is string) {
	t.Helper()
	if was == is {
		return
	}
	k := 0
	for k < min(len(was), len(is)) && was[k] == is[k] {
		k++
	}
	from := max(0, k-200)
	t.Errorf("%s is changed:\nwas …%s\nis  …%s", what, was[from:min(k+100, len(was))], is[from:min(k+100, len(is))])
}

// Whoever is handed a circuit or a stage leaves it as it is: rules, flows, ranges, search, advice,
// lists and heat the circuit that is read, to the last value behind the last pointer; match, papers
// and drawings that, and what the plan settled, laid out and solved. Checked against nothing but
// itself: a property.
func TestNothingHandedOnIsChanged(t *testing.T) {
	jobs := "../../graph/plan/testdata/jobs/"
	for _, file := range []string{"../../testdata/two-speed.toml", jobs + "second-unit.toml", jobs + "swim-spa.toml", jobs + "unit-out.toml", jobs + "starved.toml", "../../testdata/plunge-pool.toml"} {
		name := filepath.Base(file)
		if !lots.Named(name, "two-speed.toml", "second-unit.toml") {
			continue
		}
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		c, ds := description.Read(name, data)
		if c == nil {
			t.Fatal(ds)
		}
		if c.Retrofit != nil && !c.Retrofit.Remove {
			c.Retrofit.Cut = nil // every place is tried
		}
		read := everythingIn(c)
		deep := c.Parts[len(c.Parts)-1]
		if deep.LengthMM++; everythingIn(c) == read {
			t.Fatalf("%s: another length of %s is not seen", name, deep.ID)
		}
		deep.LengthMM--
		p, err := plan.Make(c, plan.Findings|plan.Flows|plan.Lists|plan.Places|plan.Advice|plan.Ranges|plan.Heat)
		if err != nil {
			t.Fatal(err)
		}
		sameStill(t, name+": the circuit that was planned", read, everythingIn(c))
		planned := everythingIn([]any{p.Before, p.After})
		match.Of(p)
		if _, err := Make(p, Options{Units: quantity.MetricSystem, Source: data}); err != nil {
			t.Fatal(err)
		}
		sameStill(t, name+": the circuit of the papers", read, everythingIn(c))
		sameStill(t, name+": what was settled, laid out and solved", planned, everythingIn([]any{p.Before, p.After}))
	}
}

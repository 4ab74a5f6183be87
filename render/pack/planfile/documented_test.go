package planfile

import (
	"maps"
	"os"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// The table of DEVELOPERS.md has every key of plan.json, and no other.
func TestDocumented(t *testing.T) {
	page, err := os.ReadFile("../../../DEVELOPERS.md")
	if err != nil {
		t.Fatal(err)
	}
	_, section, found := strings.Cut(string(page), "\n## plan.json\n")
	if !found {
		t.Fatal("DEVELOPERS.md has no section on plan.json")
	}
	section, _, _ = strings.Cut(section, "\n## ")
	quoted := regexp.MustCompile("`([A-Za-z_0-9]+)`")
	words := func(cell string) (out []string) {
		for _, m := range quoted.FindAllStringSubmatch(cell, -1) {
			out = append(out, m[1])
		}
		return out
	}
	within := keysOf(reflect.TypeFor[planFile]())
	if len(within) < 12 {
		t.Fatalf("plan.json has only %d keys", len(within))
	}
	said := map[string]bool{}
	for _, row := range strings.Split(section, "\n") {
		cells := strings.Split(row, "|")
		if len(cells) < 4 || !strings.Contains(cells[1], "`") {
			continue
		}
		var inner []string
		for _, key := range words(cells[1]) {
			keys, ok := within[key]
			if !ok {
				t.Errorf("%q is documented and not in plan.json", key)
			}
			said[key] = true
			inner = append(inner, keys...)
		}
		for _, key := range inner {
			if !slices.Contains(words(cells[2]), key) {
				t.Errorf("%s has %q, which is not documented", strings.TrimSpace(cells[1]), key)
			}
		}
		for _, key := range words(cells[2]) {
			if !slices.Contains(inner, key) {
				t.Errorf("%q is documented of %s, which has it not", key, strings.TrimSpace(cells[1]))
			}
		}
	}
	for key := range maps.Keys(within) {
		if !said[key] {
			t.Errorf("%q is in plan.json and not documented", key)
		}
	}
}

// keysOf returns the keys of a struct as JSON names them, each with those of the structs in it, and in these.
func keysOf(of reflect.Type) map[string][]string {
	out := map[string][]string{}
	for _, f := range reflect.VisibleFields(of) {
		if f.Anonymous { // its fields follow as the struct's own
			continue
		}
		key, _, _ := strings.Cut(f.Tag.Get("json"), ",")
		inner := f.Type
		if inner.Kind() == reflect.Slice {
			inner = inner.Elem()
		}
		out[key] = nil
		if inner.Kind() == reflect.Struct {
			keys := map[string]bool{}
			for k, deeper := range keysOf(inner) {
				keys[k] = true
				for _, d := range deeper {
					keys[d] = true
				}
			}
			out[key] = slices.Sorted(maps.Keys(keys))
		}
	}
	return out
}

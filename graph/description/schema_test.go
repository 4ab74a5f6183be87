package description

import (
	"bytes"
	"cmp"
	"encoding/json"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/pelletier/go-toml/v2"
	"github.com/santhosh-tekuri/jsonschema/v6"

	"dryfit/catalog"
	"dryfit/graph/description/meaning"
)

// validator compiles the schema, and holds it against the metaschema of draft 2020-12, by a
// general-purpose validator.
func validator(t *testing.T) *jsonschema.Schema {
	t.Helper()
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(Schema()))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource("mem:description", doc); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile("mem:description")
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// instance is a description as a validator sees it; ok is false where it is no TOML.
func instance(text []byte) (any, bool) {
	var v map[string]any
	if toml.Unmarshal(text, &v) != nil {
		return nil, false
	}
	return asJSON(v), true
}

func asJSON(v any) any {
	switch v := v.(type) {
	case map[string]any:
		out := map[string]any{}
		for k, x := range v {
			out[k] = asJSON(x)
		}
		return out
	case []any:
		out := make([]any, len(v))
		for i, x := range v {
			out[i] = asJSON(x)
		}
		return out
	case toml.LocalDate:
		return v.String()
	case time.Time:
		return v.Format(time.RFC3339)
	case int64:
		return json.Number(fmt.Sprint(v))
	case float64:
		return json.Number(fmt.Sprint(v))
	}
	return v
}

// descriptions are all the TOML files of the project's tests.
func descriptions(t *testing.T) map[string][]byte {
	t.Helper()
	out := map[string][]byte{}
	for _, dir := range []string{"../../testdata", "..", "../../render", "../../cmd"} {
		err := filepath.WalkDir(dir, func(path string, e fs.DirEntry, err error) error {
			if err != nil || e.IsDir() || filepath.Ext(path) != ".toml" {
				return err
			}
			out[path], err = os.ReadFile(path)
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	return out
}

// What reads is valid; what is not valid does not read. The schema may accept what Read
// refuses: cannotSay lists the reasons.
func TestSchemaAcceptsWhatReads(t *testing.T) {
	s := validator(t)
	read := 0
	for name, text := range descriptions(t) {
		v, ok := instance(text)
		c, _ := Read(name, text)
		if c == nil || !ok {
			continue
		}
		read++
		if err := s.Validate(v); err != nil {
			t.Errorf("%s reads, and the schema refuses it: %v", name, err)
		}
	}
	if read < 12 {
		t.Errorf("only %d descriptions read", read)
	}
}

// An unknown key, a missing key that is needed and a value of the wrong type are refused by
// Read and by the schema alike, wherever they stand in the demos and the jobs.
func TestSchemaRefusesWhatReadRefuses(t *testing.T) {
	s := validator(t)
	tried := map[string]bool{} // each sort of change once
	all := descriptions(t)
	names := slices.SortedFunc(maps.Keys(all), func(a, b string) int { // the shortest first: most sorts are tried on these
		return cmp.Or(cmp.Compare(len(all[a]), len(all[b])), cmp.Compare(a, b))
	})
	for _, name := range names {
		text := all[name]
		if !strings.HasPrefix(name, "../../testdata") && !strings.Contains(name, "plan/testdata/jobs") {
			continue
		}
		var whole map[string]any
		if err := toml.Unmarshal(text, &whole); err != nil {
			t.Fatal(err)
		}
		for what, changed := range changes(whole, tried) {
			tried[what] = true
			wrong, err := toml.Marshal(changed)
			if err != nil {
				t.Fatal(err)
			}
			if c, _ := Read(name, wrong); c != nil {
				t.Errorf("%s, %s: it reads", name, what)
			}
			if s.Validate(asJSON(changed)) == nil {
				t.Errorf("%s, %s: the schema accepts it", name, what)
			}
		}
	}
	if len(tried) < 300 {
		t.Errorf("only %d changes tried", len(tried))
	}
}

// changes returns copies of a description with one thing wrong in each, one of each sort that was
// not tried.
func changes(whole map[string]any, tried map[string]bool) map[string]map[string]any {
	out := map[string]map[string]any{}
	add := func(what string, change func(at map[string]any), path []any) {
		if _, seen := out[what]; seen || tried[what] {
			return
		}
		top := clone(whole).(map[string]any)
		var at any = top
		for _, step := range path {
			switch step := step.(type) {
			case string:
				at = at.(map[string]any)[step]
			case int:
				at = at.([]any)[step]
			}
		}
		change(at.(map[string]any))
		out[what] = top
	}
	var walk func(table map[string]any, where string, path []any, named bool)
	walk = func(table map[string]any, where string, path []any, named bool) {
		if !named {
			add(where+": unknown key", func(at map[string]any) { at["no-such-key"] = "x" }, path)
		}
		for _, k := range slices.Sorted(maps.Keys(table)) {
			of := where + "." + k
			if named {
				of = where + ".NAME"
			}
			if k == "catalog" && where == "" {
				continue // what a row's columns hold a schema can't say
			}
			switch v := table[k].(type) {
			case map[string]any:
				add(of+": a number for a table", func(at map[string]any) { at[k] = int64(7) }, path)
				walk(v, of, append(path[:len(path):len(path)], k), of == ".part.port" || of == ".prices" || of == ".mode.speeds" || of == ".mode.positions")
			case []any:
				add(of+": a truth for a list", func(at map[string]any) { at[k] = true }, path)
				for i, x := range v {
					if m, ok := x.(map[string]any); ok {
						walk(m, of, append(path[:len(path):len(path)], k, i), false)
					}
				}
			case string:
				add(of+": a number for a text", func(at map[string]any) { at[k] = int64(7) }, path)
				add(of+": a truth for a text", func(at map[string]any) { at[k] = true }, path)
				add(of+": a blank", func(at map[string]any) { at[k] = "?" }, path)
			default:
				add(of+": a text for "+fmt.Sprintf("%T", v), func(at map[string]any) { at[k] = "some" }, path)
			}
			if needed := map[string]bool{".part.id": true, ".part.kind": true, ".part.ports": true, ".run.from": true, ".run.to": true, ".retrofit.unit": true,
				".stock.spec": true, ".stock.size": true, ".stock.length": true, ".mode.name": true, ".accept.promise": true, ".accept.reason": true,
				".part.ratings.air": true, ".part.ratings.water": true, ".part.ratings.output": true, ".part": true}; needed[of] {
				add(of+": missing", func(at map[string]any) { delete(at, k) }, path)
			}
		}
	}
	walk(whole, "", nil, false)
	return out
}

func clone(v any) any {
	switch v := v.(type) {
	case map[string]any:
		out := map[string]any{}
		for k, x := range v {
			out[k] = clone(x)
		}
		return out
	case []any:
		out := make([]any, len(v))
		for i, x := range v {
			out[i] = clone(x)
		}
		return out
	}
	return v
}

// Every key has a meaning, and every meaning a key.
func TestEveryKeyHasItsMeaning(t *testing.T) {
	var doc any
	if err := json.Unmarshal(Schema(), &doc); err != nil {
		t.Fatal(err)
	}
	used, said := map[string]bool{}, map[string]bool{}
	var walk func(x any, path string)
	walk = func(x any, path string) {
		switch x := x.(type) {
		case []any:
			for _, y := range x {
				walk(y, path)
			}
		case map[string]any:
			keys, _ := x["properties"].(map[string]any)
			for k, v := range keys {
				if m, ok := v.(map[string]any); ok && len(m) > 0 {
					means, _ := m["description"].(string)
					if used[means] = true; means == "" && m["const"] == nil && !said[path+"/"+k] {
						said[path+"/"+k] = true // of thirty kinds of part once
						t.Errorf("%s/%s has no meaning", path, k)
					}
				}
				walk(v, path+"/"+k)
			}
			for _, k := range []string{"items", "anyOf", "additionalProperties", "allOf", "then"} {
				walk(x[k], path)
			}
			if defs, ok := x["$defs"].(map[string]any); ok {
				walk(defs["row"], "row")
			}
		}
	}
	walk(doc, "")
	for table, keys := range meaning.Tables() {
		for _, k := range keys {
			if !used[meaning.Of(table, k)] {
				t.Errorf("[%s] %s: a meaning of no key", table, k)
			}
		}
	}
}

// Every key that is no table and no choice of words has an example, every example is valid where
// it stands, and every one that is written down is shown.
func TestEveryKeyHasAnExample(t *testing.T) {
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(Schema()))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource("mem:description", doc); err != nil {
		t.Fatal(err)
	}
	shown, said := map[string]bool{}, map[string]bool{}
	var holdsKeys func(x any) bool
	holdsKeys = func(x any) bool {
		switch x := x.(type) {
		case []any:
			return slices.ContainsFunc(x, holdsKeys)
		case map[string]any:
			return x["properties"] != nil || x["$ref"] != nil || holdsKeys(x["items"]) || holdsKeys(x["anyOf"]) || holdsKeys(x["additionalProperties"])
		}
		return false
	}
	var walk func(x any, pointer string)
	walk = func(x any, pointer string) {
		switch x := x.(type) {
		case []any:
			for i, y := range x {
				walk(y, fmt.Sprintf("%s/%d", pointer, i))
			}
		case map[string]any:
			keys, _ := x["properties"].(map[string]any)
			for k, v := range keys {
				m, at := v.(map[string]any), pointer+"/properties/"+k
				examples, _ := m["examples"].([]any)
				if len(examples) == 0 && m["enum"] == nil && m["const"] == nil && m["type"] != "boolean" && !holdsKeys(m) && !said[k] {
					said[k] = true
					t.Errorf("%s has no example", at)
				}
				for _, e := range examples {
					text, _ := json.Marshal(e)
					shown[string(text)] = true
					s, err := c.Compile("mem:description#" + at)
					if err != nil {
						t.Fatal(err)
					}
					if err := s.Validate(e); err != nil {
						t.Errorf("%s: its example is not valid: %v", at, err)
					}
				}
				walk(v, at)
			}
			for _, k := range []string{"items", "anyOf", "additionalProperties", "allOf", "then", "$defs"} {
				if defs, ok := x[k].(map[string]any); ok && k == "$defs" {
					for name, d := range defs {
						walk(d, pointer+"/$defs/"+name)
					}
					continue
				}
				walk(x[k], pointer+"/"+k)
			}
		}
	}
	walk(doc, "")
	for table, keys := range meaning.ExampleKeys() {
		for _, k := range keys {
			var e any
			text := meaning.Examples(table, k)[0]
			if err := json.Unmarshal([]byte(text), &e); err != nil {
				t.Errorf("[%s] %s: %s is no JSON: %v", table, k, text, err)
				continue
			}
			if same, _ := json.Marshal(e); !shown[string(same)] {
				t.Errorf("[%s] %s: an example that is not shown", table, k)
			}
		}
	}
}

// What is said of a row's keys holds what rows say: those that are built in, written out, are
// valid.
func TestSchemaAcceptsRows(t *testing.T) {
	s := validator(t)
	var rows []catalog.Row
	for _, row := range catalog.Embedded().Rows() {
		row.Own = true
		rows = append(rows, row)
	}
	var b strings.Builder
	writeRows(&b, catalog.Embedded().With(rows))
	text := []byte(b.String())
	v, ok := instance(text)
	if !ok {
		t.Fatalf("%s", text)
	}
	v.(map[string]any)["part"] = []any{}
	written := 0
	for _, kind := range v.(map[string]any)["catalog"].(map[string]any) {
		written += len(kind.([]any))
	}
	if written != len(rows) {
		t.Errorf("%d rows are written of %d", written, len(rows))
	}
	if err := s.Validate(v); err != nil {
		t.Errorf("%v", err)
	}
}

// A climate wants a file of hours or the air of the months: Read and the schema ask for either.
func TestClimateWantsAirOrAFile(t *testing.T) {
	s := validator(t)
	text, err := os.ReadFile("../../testdata/plug-in.toml")
	if err != nil {
		t.Fatal(err)
	}
	before, _, _ := strings.Cut(string(text), "[climate]")
	for climate, reads := range map[string]bool{
		"[climate]\n":                         false,
		"[climate]\nzone = \"+1\"\n":          false,
		"[climate]\nfile = \"weather.epw\"\n": true,
		"[climate]\nair = [" + strings.Repeat("\"9 °C\", ", 11) + "\"9 °C\"]\n": true,
	} {
		whole := []byte(before + climate)
		v, ok := instance(whole)
		if !ok {
			t.Fatal(climate)
		}
		c, _ := Read("job.toml", whole)
		if valid := s.Validate(v) == nil; (c != nil) != reads || valid != reads {
			t.Errorf("%s: reads %t, valid %t; want %t", climate, c != nil, valid, reads)
		}
	}
}

package description

import (
	"os"
	"path/filepath"
	"testing"
	"unicode"

	"dryfit/catalog/quantity"
	"dryfit/graph/description/located"
)

// FuzzRead: any bytes give a circuit or findings with a place, never both or neither and
// never a panic; and a circuit reads back from what Write makes of it.
func FuzzRead(f *testing.F) {
	for _, data := range demos(f) {
		f.Add(data)
	}
	f.Add([]byte(everything))
	wrong, _ := filepath.Glob("testdata/wrong/*.toml")
	for _, file := range wrong {
		data, err := os.ReadFile(file)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	for _, name := range Templates() {
		data, err := Template(name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		c, ds := Read("fuzz.toml", data)
		if (c == nil) == (len(ds) == 0) {
			t.Fatalf("circuit %v with %d findings", c != nil, len(ds))
		}
		checkPlaces(t, data, ds)
		for _, x := range located.Render(ds, map[string][]byte{"fuzz.toml": data}, quantity.MetricSystem, false) {
			if unicode.IsControl(x) && x != '\n' {
				t.Fatalf("a message holds %q", x)
			}
		}
		if c != nil {
			roundTrip(t, c)
		}
	})
}

// FuzzReadCatalog: any bytes give rows or findings with a place.
func FuzzReadCatalog(f *testing.F) {
	f.Add([]byte("[[pipe]]\nspec = \"hose\"\nsize = \"19 mm\"\nbore = \"19 mm\"\nsource = \"x\"\n"))
	f.Add([]byte("[[catalog.elbow-90]]\ntake-off = 3\n[catalog.pump]\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		rows, ds := ReadCatalog("rows.toml", data)
		if len(rows) > 0 && len(ds) > 0 {
			t.Fatalf("%d rows and %d findings", len(rows), len(ds))
		}
		checkPlaces(t, data, ds)
	})
}

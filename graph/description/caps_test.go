package description

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"dryfit/graph/description/field"
	"dryfit/graph/description/located"
	"dryfit/graph/lots"
)

// Files made to hurt a TOML reader are refused at once, with a place. The suite writes a sixth of what
// is repeated without a limit of its own, -wide as much as a file may hold.
func TestHostileFiles(t *testing.T) {
	many := func(n int, line func(i int) string) string {
		var b strings.Builder
		for i := range n {
			b.WriteString(line(i))
		}
		return b.String()
	}
	n := func(all int) int { return lots.Count(all, all/6) }
	for name, c := range map[string]struct{ text, want string }{
		"too long":               {strings.Repeat("# x\n", located.MaxBytes/4+1), "bytes long"},
		"deep lists":             {"x = " + strings.Repeat("[", 500_000), "nested deeper than 32"},
		"deep tables":            {"x = " + strings.Repeat("{a=", 20_000) + "1" + strings.Repeat("}", 20_000), "nested deeper than 32"},
		"long dotted key":        {strings.Repeat("a.", 100_000) + "a = 1", "more than 16 parts"},
		"long dotted table":      {"[" + strings.Repeat("a.", 100_000) + "a]", "more than 16 parts"},
		"dotted key with quotes": {strings.Repeat(`"a" . `, 100_000) + "a = 1", "more than 16 parts"},
		"unknown keys":           {"[job]\n" + many(n(30_000), func(i int) string { return fmt.Sprintf("k%d = 1\n", i) }), "has no key"},
		"keys on one line":       {"job = {" + many(n(30_000), func(i int) string { return fmt.Sprintf("k%d=1,", i) }) + "z=1}", "has no key"},
		"keys of a part":         {"[[part]]\nkind = \"pump\"\n" + many(n(30_000), func(i int) string { return fmt.Sprintf("k%d=1\n", i) }), "has no key"},
		"modes with one name":    {many(n(50_000), func(int) string { return "[[mode]]\nname=\"a\"\n" }), fmt.Sprint(n(50_000), " modes")},
		"speeds with one name":   {"[[part]]\nkind=\"pump\"\nspeeds=[" + strings.Repeat(`{name="a"},`, n(80_000)) + "]", fmt.Sprint(n(80_000), " speeds")},
		"ports of one part":      {"[[part]]\nkind=\"tub\"\nports=[" + many(n(90_000), func(i int) string { return fmt.Sprintf("\"%d\",", i) }) + "]", fmt.Sprint(n(90_000), " ports")},
		"runs to no part":        {many(n(9_000), func(i int) string { return fmt.Sprintf("[[run]]\nfrom=\"a%d.in\"\nto=\"b.in\"\n", i) }), "no part"},
		"runs at one port":       {many(n(9_000), func(int) string { return "[[run]]\nfrom=\"a.in\"\nto=\"b.in\"\n" }), "used twice"},
		"prices of nothing":      {"[prices]\n" + many(n(25_000), func(i int) string { return fmt.Sprintf("k%d=\"1\"\n", i) }), "to have a price"},
		"one enormous key":       {"[job]\n" + strings.Repeat("k", n(1_000_000)) + " = 1", "has no key"},
		"one enormous text":      {"[job]\nname = \"" + strings.Repeat("m", n(1_000_000)) + "\"", "at most 1000"},
		"too many readings":      {many(field.MaxReadings+1, func(int) string { return "[[reading]]\nat=\"a\"\n" }), "at most 200"},
		"too many lengths":       {many(field.MaxStock+1, func(i int) string { return fmt.Sprintf("[[stock]]\nlength=\"%d mm\"\n", 1000+i) }), "at most 100"},
		"one enormous quantity":  {"[water]\nvolume = \"" + strings.Repeat("9", n(1_000_000)) + " l\"", ""},
		"one enormous leg":       {"[[run]]\nlegs = [\"" + strings.Repeat("up 1 m ", n(140_000)) + "\"]", ""},
		"quotes in comments":     {"# it's [[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[ \"\n", "there is no [[part]]"},
		"brackets in texts":      {"[job]\nname = \"" + strings.Repeat("[", 100) + "\\\"[\"\n", "there is no [[part]]"},
		"points in texts":        {"[job]\nname = '" + strings.Repeat(".", 100) + "'\n", "there is no [[part]]"},
		"too many parts":         {many(field.MaxParts+1, func(int) string { return "[[part]]\n" }), "at most 5000"},
		"too many photos":        {"[job]\nphotos = [" + many(field.MaxPhotos+1, func(i int) string { return fmt.Sprintf("\"%d.jpg\",", i) }) + "]", "that go with a job"},
		"too many boxes":         {"[retrofit]\nkeep-clear = [" + strings.Repeat(`{ to = ["up 1 m"] },`, 101) + "]", "boxes to keep clear"},
		"lone carriage return":   {"[job]\rname = \"a\"\n", "carriage return without"},
		"too many legs":          {"[[run]]\nlegs = [" + strings.Repeat(`"up 1 m",`, field.MaxLegs+1) + "]", "more than 20000 legs"},
	} {
		t.Run(name, func(t *testing.T) {
			start := time.Now()
			circuit, ds := Read("x.toml", []byte(c.text))
			// Far above what any takes (half a second at most), far below what an unguarded reader would.
			if took := time.Since(start); took > 30*time.Second {
				t.Errorf("took %v", took)
			}
			if circuit != nil || len(ds) == 0 {
				t.Fatal("was read")
			}
			all := ""
			for _, d := range ds {
				all += d.Message.String() + "\n"
				if !d.Pos.IsValid() || len(d.Message) > 2000 {
					t.Fatalf("no place, or a message %d bytes long", len(d.Message))
				}
			}
			if !strings.Contains(all, c.want) {
				t.Errorf("got %q, want %q", all, c.want)
			}
		})
	}
}

// A file as large as may be is read: 5,000 parts in a row.
func TestLargest(t *testing.T) {
	data := []byte(chain(field.MaxParts - 1))
	c, ds := Read("x.toml", data)
	if c == nil {
		t.Fatal(ds[0])
	}
	if len(c.Parts) != field.MaxParts || len(c.Runs) != field.MaxParts {
		t.Errorf("%d parts and %d runs", len(c.Parts), len(c.Runs))
	}
}

// chain writes a tub and n unions in a ring.
func chain(n int) string {
	var b strings.Builder
	b.WriteString("[pipe]\nspec=\"pvc-sch40\"\nsize=\"2 in\"\n[[part]]\nid=\"t\"\nkind=\"tub\"\nports=[\"out\",\"in\"]\n")
	at := "t"
	for i := range n {
		id := fmt.Sprintf("u%d", i)
		fmt.Fprintf(&b, "[[part]]\nid=%q\nkind=\"union\"\n[[run]]\nfrom=%q\nto=%q\nlegs=[\"up 1 m\"]\n", id, at+".out", id+".in")
		at = id
	}
	fmt.Fprintf(&b, "[[run]]\nfrom=%q\nto=\"t.in\"\nlength=\"1 m\"\n", at+".out")
	return b.String()
}

func BenchmarkReadDemo(b *testing.B) {
	data := demos(b)["two-speed.toml"]
	b.SetBytes(int64(len(data)))
	for b.Loop() {
		if c, _ := Read("x.toml", data); c == nil {
			b.Fatal("not read")
		}
	}
}

func BenchmarkReadLargest(b *testing.B) {
	data := []byte(chain(field.MaxParts - 1))
	b.SetBytes(int64(len(data)))
	for b.Loop() {
		if c, _ := Read("x.toml", data); c == nil {
			b.Fatal("not read")
		}
	}
}

func BenchmarkWriteDemo(b *testing.B) {
	c, _ := Read("x.toml", demos(b)["two-speed.toml"])
	for b.Loop() {
		Write(c)
	}
}

package takeoff

import (
	"fmt"
	"strings"
	"testing"

	"dryfit/graph/takeoff/stock"
)

func TestParsePieces(t *testing.T) {
	for _, c := range []struct {
		name, text string
		want       []float64
	}{
		{"plain", "length,quantity\n1250 mm,2\n0.5 m,1\n", []float64{1250, 1250, 500}},
		{"other order, no quantity", "quantity,length\n,12 ft 6 in\n1,10 in\n", []float64{3810, 254}},
		{"length alone", "length\n1 1/2 in\n", []float64{38.1}},
		{"Windows ends, byte order mark, comment, empty line", "\ufeffLength, Quantity\r\n# from the van\r\n\r\n\"300 mm\", 2\r\n", []float64{300, 300}},
		{"semicolons", "length;quantity\n300 mm;1\n", []float64{300}},
		{"semicolons and decimal commas", "length;quantity\n450,5 mm;3\n1200 mm;1\n", []float64{450.5, 450.5, 450.5, 1200}},
		{"a comma as decimal settles the point", "length;quantity\n450,5 mm;1\n1.200 mm;1\n1.234,56 mm;1\n", []float64{450.5, 1200, 1234.56}},
		{"a point as decimal settles the comma", "length,quantity\n450.5 mm,1\n\"1,200 mm\",1\n", []float64{450.5, 1200}},
		{"both marks in one number", "length;quantity\n1.200,5 mm;1\n", []float64{1200.5}},
		{"one column", "length\n1,5 m\n", []float64{1500}},
		{"tabs", "length\tquantity\n450,5 mm\t1\n", []float64{450.5}},
		{"too long to be thousands", "length,quantity\n257.175 mm,1\n1.250 m,1\n2.375 in,1\n", []float64{257.175, 1250, 60.325}},
		{"no mark between thousands begins with 0", "length,quantity\n0.875 in,1\n", []float64{22.225}},
		{"either way the same", "length;quantity\n12 ft 6 1/2 in;1\n", []float64{3822.7}},
		{"spaces", "  length ,  quantity\n   3 m ,  1\n", []float64{3000}},
	} {
		got, bad := ParsePieces("list.csv", []byte(c.text))
		if len(bad) > 0 || len(got) != len(c.want) {
			t.Errorf("%s: %v, %v; want %v", c.name, got, bad, c.want)
			continue
		}
		for i, d := range got {
			if d.Number != i+1 || !near(d.LengthMM, c.want[i], 1e-6) {
				t.Errorf("%s: piece %d is %+v, want %g mm", c.name, i+1, d, c.want[i])
			}
		}
	}
}

func TestParsePiecesErrors(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"", "list.csv:1:1: the list is empty"},
		{"length,quantity\n", "list.csv:1:1: there are no pieces"},
		{"length,qantity\n1 m,2\n", `list.csv:1:8: unknown column "qantity" | did you mean "quantity"?`},
		{"size,length\n", `list.csv:1:1: unknown column "size"`},
		{"length,length\n", "list.csv:1:8: the column length is there twice"},
		{"quantity\n3\n", "list.csv:1:1: the header names no column length"},
		{"length,quantity\n1250,2\n", "list.csv:2:"},
		{"length,quantity\n12 kg,2\n", "list.csv:2:"},
		{"length,quantity\n1 m,0\n", `list.csv:2:5: "0" is not a count`},
		{"length,quantity\n1 m,two\n", `list.csv:2:5: "two" is not a count`},
		{"length,quantity\n1 m,9999999999999999999\n", "is not a count"},
		{"length,quantity\n1 m,5000\n1 m,1\n", "list.csv:3:1: the list has more than 5000 pieces"},
		{"length,quantity\n,2\n", "list.csv:2:1: the length is missing"},
		{"length,quantity\n1.200 mm,3\n", `list.csv:2:1: "1.200 mm" can be read two ways: as 1.2 mm, or as 1200 mm with a mark between the thousands | write "1.2 mm" or "1200 mm"`},
		{"length;quantity\n1200 mm;1\n1.200 mm;3\n", `list.csv:3:1: "1.200 mm" can be read two ways`},
		{"length;quantity\n1,200 mm;3\n", `"1,200 mm" can be read two ways: as 1.2 mm, or as 1200 mm`},
		{"length\n12.125 mm\n", `write "12.1250 mm" or "12125 mm"`},
		{"length;quantity\n450,5 mm;1\n450.5 mm;1\n", `list.csv:2:1: "450,5 mm" has a decimal comma, and "450.5 mm" in line 3 a point`},
		{"length;quantity\n450 mm,1\n", `list.csv:2:1: the line has 1 field, the header 2 | the header parts its columns with ';'`},
		{"length,quantity\n450,5 mm,1\n", "list.csv:2:10: the line has 3 fields, the header 2 | a decimal comma"},
		{"length;quantity\n450,5 kg;1\n", "kg"},
		{"length;quantity\n1,2,3 mm;1\n", "list.csv:2:2: "},
		{"length\n-1 m\n", "list.csv:2:"},
		{"length\n900 km\n", "list.csv:2:"},
		{"length\n1 m\x00\n", "list.csv:2:4: the line holds a control character"},
		{"length\n\"1 m\n", "list.csv:2:1: a quoted field does not end"},
		{"length\n\xff\n", "list.csv:1:1: the list is not UTF-8"},
	} {
		got, bad := ParsePieces("list.csv", []byte(c.text))
		if len(got) > 0 || len(bad) == 0 {
			t.Errorf("%q: %v, %v; want an error %q", c.text, got, bad, c.want)
			continue
		}
		said := fmt.Sprintf("%s: %s | %s", bad[0].Pos, bad[0].Message, bad[0].Hint)
		if !strings.Contains(said, strings.TrimSuffix(c.want, "\n")) {
			t.Errorf("%q: %q, want %q", c.text, said, c.want)
		}
	}
	// all mistakes in one go
	_, bad := ParsePieces("list.csv", []byte("length,quantity\n1 kg,1\n1 m,x\n1 m,1\n,\n"))
	if len(bad) != 3 {
		t.Errorf("%d findings, want 3: %v", len(bad), bad)
	}
}

func TestParseStock(t *testing.T) {
	for _, c := range []struct {
		text   string
		length float64
		price  string
		count  int
		offcut bool
	}{
		{"3000 mm @ 9.60", 3000, "9.6", 0, false},
		{"1740 mm @ 0 x 1", 1740, "0", 1, true},
		{"5 m", 5000, "", 0, false},
		{"5 m x 3", 5000, "", 3, false},
		{"10 ft @ 14.9x2", 3048, "14.9", 2, false},
	} {
		got, err := ParseStock(c.text)
		price := ""
		if got.Price.Valid {
			price = got.Price.Decimal.String()
		}
		if err != nil || !near(got.LengthMM, c.length, 1e-9) || price != c.price || got.Count != c.count || got.Offcut != c.offcut {
			t.Errorf("%q: %+v, %v", c.text, got, err)
		}
	}
	for _, text := range []string{"", "3000 @ 9.60", "3000 mm @", "3000 mm @ 9,60", "3000 mm @ -1", "3000 mm @ 1e9", "3000 mm @ 5 x 0",
		"3000 mm @ 5 x", "3000 mm @ 0", "3.000 mm @ 5", "0 mm @ 5", "3000 mm @ NaN", "3000 mm @ .5.", "@ 5"} {
		if got, err := ParseStock(text); err == nil {
			t.Errorf("%q was read as %+v", text, got)
		}
	}
}

// Whatever the bytes: pieces or located errors, never both and never neither.
func FuzzParsePieces(f *testing.F) {
	for _, s := range []string{"length,quantity\n1250 mm,2\n", "quantity;length\n2;1 m", "length\n\"1 m\"\n", "length,quantity\n1,5 m,2", "\ufefflength\r\n12 ft 6 in\r\n", "\"", "length\n1 m\x00"} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		got, bad := ParsePieces("f.csv", data)
		if (len(got) == 0) == (len(bad) == 0) {
			t.Fatalf("%d pieces, %d findings", len(got), len(bad))
		}
		for _, d := range bad {
			if !d.Pos.IsValid() || d.Pos.Column < 1 || d.Message == "" {
				t.Fatalf("finding without a place: %+v", d)
			}
		}
		for _, d := range got {
			if !stock.Plannable(d.LengthMM) {
				t.Fatalf("piece of %g mm", d.LengthMM)
			}
		}
	})
}

// Whatever the text: a supply that can be planned with, or an error.
func FuzzParseStock(f *testing.F) {
	for _, s := range []string{"3000 mm @ 9.60", "1740 mm @ 0 x 1", "5 m", "5 m x 3", "@", "x", "1 m @ 1 x 1 x 1"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		got, err := ParseStock(text)
		if err == nil && (!stock.Plannable(got.LengthMM) || got.Count < 0 || got.Price.Valid && got.Price.Decimal.IsNegative()) {
			t.Fatalf("%q: %+v", text, got)
		}
	})
}

package order

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"io"
	"os"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"dryfit/catalog/quantity"
	"dryfit/graph/description"
	"dryfit/graph/plan"
	"dryfit/graph/takeoff"
	"dryfit/render/tag"
)

func demo(t *testing.T) *plan.Plan {
	t.Helper()
	data, err := os.ReadFile("../../testdata/plug-in.toml")
	if err != nil {
		t.Fatal(err)
	}
	c, _ := description.Read("plug-in.toml", data)
	if c == nil {
		t.Fatal("the demo does not read")
	}
	p, err := plan.Make(c, plan.Lists)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// sharedStrings reads the workbook's texts by the standard library alone (ECMA-376 part 1:
// a ZIP of XML parts), not by the library that wrote it.
func sharedStrings(t *testing.T, data []byte) (texts []string, parts map[string][]byte) {
	t.Helper()
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	parts = map[string][]byte{}
	for _, f := range z.File {
		r, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		body, err := io.ReadAll(r)
		r.Close()
		if err != nil {
			t.Fatal(err)
		}
		parts[f.Name] = body
	}
	var sst struct {
		Items []struct {
			T string `xml:"t"`
		} `xml:"si"`
	}
	if err := xml.Unmarshal(parts["xl/sharedStrings.xml"], &sst); err != nil {
		t.Fatal(err)
	}
	for _, s := range sst.Items {
		texts = append(texts, s.T)
	}
	return texts, parts
}

// Another reader finds every item of the order, the three sheets, and no formula.
func TestWorkbookReadBack(t *testing.T) {
	p := demo(t)
	p.Bill.Items[0].Code = "=1+1"
	data, err := XLSX(p, quantity.MetricSystem)
	if err != nil {
		t.Fatal(err)
	}
	texts, parts := sharedStrings(t, data)
	all := "\n" + strings.Join(texts, "\n") + "\n"
	for _, l := range takeoff.NewOrder(p.Bill).Lines {
		if !strings.Contains(all, "\n"+l.Item.Name+"\n") {
			t.Errorf("the workbook lacks %q", l.Item.Name)
		}
	}
	for _, sheet := range []string{sheetOrder, sheetPick, sheetPieces} {
		if !bytes.Contains(parts["xl/workbook.xml"], []byte(`name="`+sheet+`"`)) {
			t.Errorf("no sheet %s", sheet)
		}
	}
	for name, body := range parts {
		if strings.HasPrefix(name, "xl/worksheets/") && bytes.Contains(body, []byte("<f>")) {
			t.Errorf("%s holds a formula", name)
		}
	}
	// places, pipes and ends have the names of the other papers, not the ids of the file
	ids := takeoff.Apart(p.Bill.Items[0].Where)
	for _, i := range p.Bill.Items {
		ids = append(ids, takeoff.Apart(i.Where)...)
	}
	for _, c := range p.Cuts.Pieces {
		ids = append(ids, c.Run.ID, c.From.Fitting, c.To.Fitting)
	}
	tags := tag.Of(p.Circuit, p.Net()).Tags()
	named := 0
	for _, id := range ids {
		if part, _, _ := strings.Cut(id, "."); tags[part] != "" && tags[part] != part {
			named++
			for _, line := range texts {
				if line == id && line != "unit" || // a column of its own
					strings.HasPrefix(line, id+";") {
					t.Errorf("the workbook says %q of %s", line, tags[part])
				}
			}
		}
	}
	if named == 0 {
		t.Error("no part of the demo has a tag: nothing was looked at")
	}
	again, err := XLSX(p, quantity.MetricSystem)
	if err != nil || !bytes.Equal(data, again) {
		t.Errorf("not the same bytes twice, %v", err)
	}
}

// What is sold by length is in feet where the papers are in inches, as in the list of parts; a price of a
// metre stays one, and its metres with it. By hand: 30.48 m are 100 ft.
func TestWorkbookInFeet(t *testing.T) {
	p := demo(t)
	p.Bill.Items = []takeoff.Item{{Name: "pipe insulation", Kind: "insulation", Quantity: 30.48, Unit: "m", New: true}}
	for _, c := range []struct {
		units      quantity.System
		price      string
		unit, many string
	}{{quantity.InchSystem, "", "ft", "<v>100</v>"}, {quantity.MetricSystem, "", "m", "<v>30.48</v>"}, {quantity.InchSystem, "2", "m", "<v>30.48</v>"}} {
		p.Bill.Items[0].Price = c.price
		data, err := XLSX(p, c.units)
		if err != nil {
			t.Fatal(err)
		}
		texts, parts := sharedStrings(t, data)
		if !slices.Contains(texts, c.unit) || !bytes.Contains(parts["xl/worksheets/sheet1.xml"], []byte(c.many)) || !bytes.Contains(parts["xl/worksheets/sheet2.xml"], []byte(c.many)) {
			t.Errorf("in %v at %q: not %s %s", c.units, c.price, c.many, c.unit)
		}
	}
}

// By hand: 2 and a spare at 4.20 are 12.60; what has no price is counted and adds nothing.
func TestOrderAddsWhatIsKnown(t *testing.T) {
	o := takeoff.NewOrder(&takeoff.Bill{Items: []takeoff.Item{
		{Name: "tee", Kind: "tee", Quantity: 2, Spare: 1, Unit: "pc", New: true, Price: "4.20"},
		{Name: "pipe, bar of 3 m", Kind: "pipe", Quantity: 2, Unit: "bar", New: true, Price: "0"},
		{Name: "pipe, net length of the pieces", Kind: "pipe", Quantity: 5.5, Unit: "m", New: true, Price: "1"},
		{Name: "union", Kind: "union", Quantity: 2, Unit: "pc", New: true},
		{Name: "elbow 90", Kind: "elbow-90", Quantity: 6, Unit: "pc", Price: "9"},
	}})
	if want := decimal.RequireFromString("12.60"); !o.Known.Equal(want) || o.Unknown != 1 || len(o.Lines) != 3 {
		t.Errorf("known %s, unknown %d, %d lines; want 12.60, 1, 3", o.Known, o.Unknown, len(o.Lines))
	}
	if o.Lines[0].Group != "valves and unions" || o.Lines[1].Group != "fittings" {
		t.Errorf("groups %s, %s", o.Lines[0].Group, o.Lines[1].Group)
	}
}

// A printed order keeps its columns on one page's width, its head and the job on every page
// (ECMA-376 part 1, 18.3.1.63 and .65, 18.2.5, from memory: fitToHeight 0 is as many pages as it takes).
func TestWorkbookPrints(t *testing.T) {
	p := demo(t)
	p.Circuit.Job.Name, p.Circuit.Job.Reference = "Oak & Ash", strings.Repeat("&", 2*headingRunes)
	data, err := XLSX(p, quantity.MetricSystem)
	if err != nil {
		t.Fatal(err)
	}
	_, parts := sharedStrings(t, data)
	for i, sheet := range []string{sheetOrder, sheetPick, sheetPieces} {
		body := string(parts["xl/worksheets/sheet"+strconv.Itoa(i+1)+".xml"])
		for _, want := range []string{`fitToPage="true"`, `orientation="landscape"`, `fitToHeight="0"`, `<oddHeader>&amp;LOak &amp;&amp; Ash, &amp;`, `page &amp;P of &amp;N`} {
			if !strings.Contains(body, want) {
				t.Errorf("sheet %s: no %s", sheet, want)
			}
		}
		if want := sheet + "!$1:$1</definedName>"; !bytes.Contains(parts["xl/workbook.xml"], []byte(want)) {
			t.Errorf("its head is on the first page alone: no %s in %s", want, parts["xl/workbook.xml"])
		}
	}
}

// A price is a number, as its sum is; without one both are blank. By hand: 3 of 2.35 are 7.05.
func TestWorkbookPrices(t *testing.T) {
	p := demo(t)
	p.Circuit.Job.Currency = "EUR"
	p.Bill.Items = []takeoff.Item{{Name: "elbow", Kind: "elbow-90", Quantity: 2, Spare: 1, Unit: "pc", New: true, Price: "2.35"}, {Name: "tee", Kind: "tee", Quantity: 1, Unit: "pc", New: true}}
	data, err := XLSX(p, quantity.MetricSystem)
	if err != nil {
		t.Fatal(err)
	}
	texts, parts := sharedStrings(t, data)
	body := string(parts["xl/worksheets/sheet1.xml"])
	for _, cell := range []string{`r="I2"[^>]*><v>2\.35<`, `r="J2"[^>]*><v>7\.05<`, `r="J4"[^>]*><v>7\.05<`} {
		if !regexp.MustCompile(cell).MatchString(body) {
			t.Errorf("no %s in %s", cell, body)
		}
	}
	if slices.Contains(texts, "2.35") || !slices.Contains(texts, "price of one EUR") || !slices.Contains(texts, "sum EUR") {
		t.Errorf("a price is a text, or has no currency: %q", texts)
	}
}

// What a piece hangs on is named as in the cut list of the papers: no kind of the file's, no bare
// number of a joint.
func TestWorkbookNamesPiecesAsThePapers(t *testing.T) {
	p := demo(t)
	p.Cuts.Pieces[0].MeasureWhat = []string{"elbow-90 1-1/2 in, centre to socket stop"}
	p.Cuts.Pieces[0].Measure, p.Cuts.Pieces[0].OverMM, p.Cuts.Pieces[0].FitJoint = true, 53, 12
	data, err := XLSX(p, quantity.MetricSystem)
	if err != nil {
		t.Fatal(err)
	}
	texts, _ := sharedStrings(t, data)
	all := strings.Join(texts, "\n")
	for _, want := range []string{"measure first: 90° elbow 1-1/2 in, centre to socket stop", "fit it at joint J12, last"} {
		if !strings.Contains(all, want) {
			t.Errorf("no %q in %s", want, all)
		}
	}
}

// Each sheet says how far it reaches: a reader that goes by that alone gets every row. The last cell is
// found in the sheet itself.
func TestWorkbookSaysItsReach(t *testing.T) {
	data, err := XLSX(demo(t), quantity.MetricSystem)
	if err != nil {
		t.Fatal(err)
	}
	_, parts := sharedStrings(t, data)
	reach := regexp.MustCompile(`<dimension ref="A1:([A-Z]+)(\d+)">`)
	row := regexp.MustCompile(`<row r="(\d+)"`)
	column := regexp.MustCompile(`<c r="([A-Z]+)1"`)
	for _, name := range []string{"sheet1", "sheet2", "sheet3"} {
		body := string(parts["xl/worksheets/"+name+".xml"])
		got, rows, columns := reach.FindStringSubmatch(body), row.FindAllStringSubmatch(body, -1), column.FindAllStringSubmatch(body, -1)
		if got == nil || got[1] != columns[len(columns)-1][1] || got[2] != rows[len(rows)-1][1] {
			t.Errorf("%s says %q; its last column is %s, its last row %s", name, got, columns[len(columns)-1][1], rows[len(rows)-1][1])
		}
	}
}

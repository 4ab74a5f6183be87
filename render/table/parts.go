package table

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"dryfit/graph/plan"
	"dryfit/graph/takeoff"
)

type itemJSON struct {
	Item             string   `json:"item"`
	Kind             string   `json:"kind"`
	Spec             string   `json:"spec"`
	Size             string   `json:"size"`
	Ends             string   `json:"ends"`
	Quantity         float64  `json:"quantity"`
	Unit             string   `json:"unit"`
	Spare            float64  `json:"spare,omitempty"`
	EquivalentLength float64  `json:"equivalent_length_m"`
	K                float64  `json:"k"`
	Source           string   `json:"source"`
	Own              bool     `json:"own_row,omitempty"`
	New              bool     `json:"new"`
	Measure          bool     `json:"measure_first,omitempty"`
	Where            []string `json:"where"`
	Price            string   `json:"price,omitempty"`
	Code             string   `json:"code,omitempty"`
}

type totalJSON struct {
	Name     string  `json:"name"`
	Pipe     float64 `json:"pipe_m"`
	Fittings float64 `json:"fittings_m"`
	Total    float64 `json:"total_m"`
}

func items(bill *takeoff.Bill) []itemJSON {
	out := make([]itemJSON, 0, len(bill.Items))
	for _, i := range bill.Items {
		where := i.Where
		if where == nil {
			where = []string{}
		}
		out = append(out, itemJSON{
			Item: i.Name, Kind: i.Kind, Spec: string(i.Spec), Size: i.Size, Ends: i.Ends,
			Quantity: round(i.Quantity, 3), Unit: i.Unit, Spare: round(i.Spare, 3),
			EquivalentLength: round(i.EquivalentLengthM, 3), K: round(i.K, 4), Source: i.Source,
			Own: i.Own, New: i.New, Measure: i.Measure, Where: where, Price: i.Price, Code: i.Code,
		})
	}
	return out
}

func totals(list []takeoff.Total) []totalJSON {
	out := make([]totalJSON, 0, len(list))
	for _, t := range list {
		out = append(out, totalJSON{t.Name, round(t.PipeM, 3), round(t.FittingsM, 3), round(t.PipeM+t.FittingsM, 3)})
	}
	return out
}

// PartsCSV prints the bill, a line an item.
func PartsCSV(p *plan.Plan, _ Style) ([]byte, error) {
	var rows [][]string
	for _, i := range p.Bill.Items {
		rows = append(rows, []string{
			stateOf(i.New), cell(i.Name), i.Kind, string(i.Spec), i.Size, i.Ends, fixed(i.Quantity, 2), i.Unit, fixed(i.Spare, 0),
			fixed(i.K, 3), fixed(i.EquivalentLengthM, 2), measureMark(i), cell(i.Price), cell(i.Code),
			cell(strings.Join(i.Where, "; ")), cell(i.Source),
		})
	}
	return writeCSV([]string{"work", "item", "kind", "spec", "size", "ends", "quantity", "unit", "spare", "k", "equivalent_length_m",
		"note", "price", "code", "where", "source"}, rows), nil
}

func stateOf(isNew bool) string {
	if isNew {
		return "new"
	}
	return "existing"
}

func measureMark(i takeoff.Item) string {
	var notes []string
	if i.Measure {
		notes = append(notes, "measure first")
	}
	if i.Own {
		notes = append(notes, "your row")
	}
	return strings.Join(notes, "; ")
}

// PartsText prints the bill for a terminal: what to order, what is there, the totals.
func PartsText(p *plan.Plan, s Style) ([]byte, error) {
	var b strings.Builder
	for _, isNew := range []bool{true, false} {
		rows := partRows(p.Bill, isNew, s)
		if len(rows) == 0 {
			continue
		}
		b.WriteString(s.title(map[bool]string{true: "To order (new work)", false: "There already"}[isNew]))
		b.WriteString(grid(s, []string{"qty", "spare", "item", "K", "eq. length", "note", "where"},
			[]string{"qty", "spare", "K", "eq. length"}, rows) + "\n")
	}
	b.WriteString(equivalentText(p, s))
	fmt.Fprintf(&b, "all together %s\n%s\n", s.pipeLength(p.Bill.TotalEquivalentLengthM), p.Bill.Method)
	return []byte(b.String()), nil
}

func partRows(bill *takeoff.Bill, isNew bool, s Style) [][]string {
	var rows [][]string
	for _, i := range bill.Items {
		if i.New != isNew {
			continue
		}
		quantity := fixed(i.Quantity, 0)
		if i.Quantity != round(i.Quantity, 0) {
			quantity = fixed(i.Quantity, 1)
		}
		spare, k, length := "", "", ""
		if i.Spare > 0 {
			spare = "+" + fixed(i.Spare, 0)
		}
		if i.K > 0 {
			k = fixed(i.K, 2)
		}
		if i.EquivalentLengthM > 0 {
			length = s.pipeLength(i.EquivalentLengthM)
		}
		rows = append(rows, []string{quantity + " " + i.Unit, spare, i.Name, k, length, measureMark(i), shortWhere(i.Where)})
	}
	return rows
}

// whereWidth is how many characters of the places are printed on a terminal; the other
// formats have them all.
const whereWidth = 36

// shortWhere names as many places as fit and counts the rest.
func shortWhere(where []string) string {
	text := ""
	for i, w := range where {
		if i > 0 && utf8.RuneCountInString(text)+len(w) > whereWidth {
			return fmt.Sprintf("%s, +%d more", text, len(where)-i)
		}
		if i > 0 {
			text += ", "
		}
		text += w
	}
	return text
}

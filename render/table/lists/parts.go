package lists

import (
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph/plan"
	"dryfit/graph/takeoff"
	"dryfit/render/table/form"
)

type itemJSON struct {
	Item             string      `json:"item"`
	Kind             string      `json:"kind"`
	Spec             string      `json:"spec"`
	Size             string      `json:"size"`
	Ends             string      `json:"ends"`
	Quantity         float64     `json:"quantity"`
	Unit             string      `json:"unit"`
	Spare            float64     `json:"spare,omitempty"`
	EquivalentLength float64     `json:"equivalent_length_m"`
	K                float64     `json:"k"`
	Source           string      `json:"source"`
	Own              bool        `json:"own_row,omitempty"`
	New              bool        `json:"new"`
	Measure          bool        `json:"measure_first,omitempty"`
	Where            []string    `json:"where"`
	Price            form.Amount `json:"price,omitempty"`
	Code             string      `json:"code,omitempty"`
}

type totalJSON struct {
	Name     string   `json:"name"`
	Pipe     float64  `json:"pipe_m"`
	Fittings *float64 `json:"fittings_m,omitempty"`
	Total    *float64 `json:"total_m,omitempty"`
	Why      string   `json:"why,omitempty"` // there is no equivalent length that means something
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
			Quantity: form.Round(i.Quantity, 3), Unit: i.Unit, Spare: form.Round(i.Spare, 3),
			EquivalentLength: form.Round(i.EquivalentLengthM, 3), K: form.Round(i.K, 4), Source: i.Source,
			Own: i.Own, New: i.New, Measure: i.Measure, Where: where, Price: form.Amount(i.Price), Code: i.Code,
		})
	}
	return out
}

func totals(list []takeoff.Total) []totalJSON {
	out := make([]totalJSON, 0, len(list))
	for _, t := range list {
		one := totalJSON{Name: t.Name, Pipe: form.Round(t.PipeM, 3), Why: noEquivalent(t.FittingsM)}
		if one.Why == "" {
			one.Fittings, one.Total = form.Ptr(form.Round(t.FittingsM, 3)), form.Ptr(form.Round(t.PipeM+t.FittingsM, 3))
		}
		out = append(out, one)
	}
	return out
}

// PartsCSV prints the bill, a line an item.
func PartsCSV(p *plan.Plan, _ form.Style) ([]byte, error) {
	var rows [][]string
	for _, i := range p.Bill.Items {
		rows = append(rows, []string{
			stateOf(i.New), form.Cell(i.Name), i.Kind, string(i.Spec), i.Size, i.Ends, quantity.Trim(form.Round(i.Quantity, 2)), i.Unit, form.Fixed(i.Spare, 0),
			form.Fixed(i.K, 3), form.Fixed(i.EquivalentLengthM, 2), measureMark(i), form.Cell(i.Price), form.Cell(i.Code),
			form.Cell(strings.Join(i.Where, "; ")), form.Cell(i.Source),
		})
	}
	return form.WriteCSV([]string{"work", "item", "kind", "spec", "size", "ends", "quantity", "unit", "spare", "k", "equivalent_length_m",
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

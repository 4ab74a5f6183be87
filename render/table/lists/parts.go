package lists

import (
	"fmt"
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
	EquivalentLength *float64    `json:"equivalent_length_m,omitempty"`
	EquivalentWhy    string      `json:"equivalent_length_why,omitempty"` // there is none that means something
	K                float64     `json:"k"`                               // of a hand valve as of all lengths here: open
	Set              []setJSON   `json:"set,omitempty"`                   // of hand valves: as they are set
	Source           string      `json:"source"`
	Own              bool        `json:"own_row,omitempty"`
	New              bool        `json:"new"`
	Measure          bool        `json:"measure_first,omitempty"`
	Where            []string    `json:"where"`
	Price            form.Amount `json:"price,omitempty"`
	Code             string      `json:"code,omitempty"`
}

// setJSON is a hand valve that is neither open nor shut, as it is set.
type setJSON struct {
	Part             string   `json:"part"`
	Open             float64  `json:"open,omitempty"` // the share
	Kv               float64  `json:"kv_m3_h,omitempty"`
	EquivalentLength *float64 `json:"equivalent_length_m,omitempty"`
	EquivalentWhy    string   `json:"equivalent_length_why,omitempty"`
	K                float64  `json:"k"`
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
		out = append(out, itemJSON{
			Item: i.Name, Kind: i.Kind, Spec: string(i.Spec), Size: i.Size, Ends: i.Ends,
			Quantity: form.Round(i.Quantity, 3), Unit: i.Unit, Spare: form.Round(i.Spare, 3),
			EquivalentLength: equivalentTotal(i.EquivalentLengthM), EquivalentWhy: noEquivalent(i.EquivalentLengthM), K: form.Round(i.K, 4), Set: settings(i), Source: i.Source,
			Own: i.Own, New: i.New, Measure: i.Measure, Where: takeoff.Apart(i.Where), Price: form.Amount(i.Price), Code: i.Code,
		})
	}
	return out
}

func settings(i takeoff.Item) []setJSON {
	var out []setJSON
	for _, s := range i.Set {
		out = append(out, setJSON{
			Part: s.Part, Open: form.Round(float64(s.Open), 4), Kv: form.Round(s.Kv, 4), K: form.Round(s.K, 4),
			EquivalentLength: equivalentTotal(s.EquivalentLengthM), EquivalentWhy: noEquivalent(s.EquivalentLengthM),
		})
	}
	return out
}

// setWords says how a hand valve is set: "bypass, 15 % open", "bypass, set to Cv 26.8 gpm".
func setWords(s takeoff.Setting, units quantity.System) string {
	if s.Kv > 0 {
		return s.Part + ", set to " + quantity.Kv.Of(s.Kv).In(units)
	}
	return s.Part + ", " + s.Open.Words()
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
			form.Fixed(i.K, 3), equivalentCell(i.EquivalentLengthM), measureMark(i), form.Cell(i.Price), form.Cell(i.Code),
			form.Cell(strings.Join(takeoff.Apart(i.Where), "; ")), form.Cell(i.Source),
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
	if why := noEquivalent(i.EquivalentLengthM); why != "" {
		notes = append(notes, "no equivalent length: "+why)
	}
	for _, s := range i.Set {
		notes = append(notes, fmt.Sprintf("k and length are of it open; %s: k %s", setWords(s, quantity.MetricSystem), form.Fixed(s.K, 1)))
	}
	return strings.Join(notes, "; ")
}

// equivalentCell is an equivalent length in a cell; empty where it means nothing, which the note says.
func equivalentCell(m float64) string {
	if noEquivalent(m) != "" {
		return ""
	}
	return form.Fixed(m, 2)
}

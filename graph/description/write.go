package description

import (
	"strings"

	"dryfit/graph"
	"dryfit/graph/description/field"
	"dryfit/graph/description/pipework"
)

// Write writes a circuit as a full description, in the order of the circuit. What it writes
// reads back to the same circuit, places in the file apart: quantities stand in a unit in
// which they are exact.
func Write(c *graph.Circuit) []byte {
	var b strings.Builder
	writeTable(&b, "[job]", jobFields, &c.Job)
	water := c.Water
	writeTable(&b, "[water]", waterFields, &water)
	writeTable(&b, "[pipe]", pipeFields, &c.Pipe)
	writeTable(&b, "[site]", siteFields, &c.Site)
	for _, p := range c.Parts {
		b.WriteString("\n[[part]]\n")
		part := *p
		if p.Kind == graph.Tub {
			part.Existing = false // goes without saying
		}
		field.WriteFields(&b, pipework.FieldsOf(p.Kind), &part)
	}
	maybeTable(&b, "[cabinet]", pipework.CabinetFields, c.Cabinet)
	for _, run := range c.Runs {
		pipework.WriteRun(&b, run, c.Pipe)
	}
	for i := range c.Modes {
		b.WriteString("\n[[mode]]\n")
		field.WriteFields(&b, pipework.ModeFields, &c.Modes[i])
	}
	if c.Retrofit != nil {
		b.WriteString("\n[retrofit]\n")
		field.WriteFields(&b, pipework.RetrofitFields, c.Retrofit)
	}
	maybeTable(&b, "[heat-loss]", heatLossFields, c.HeatLoss)
	maybeTable(&b, "[cover]", coverFields, c.Cover)
	for i := range c.Shells {
		b.WriteString("\n[[shell]]\n")
		field.WriteFields(&b, shellFields, &c.Shells[i])
	}
	maybeTable(&b, "[use]", useFields, c.Use)
	maybeTable(&b, "[climate]", climateFields, c.Climate)
	maybeTable(&b, "[tariff]", tariffFields, c.Tariff)
	for i := range c.Supplies {
		b.WriteString("\n[[supply]]\n")
		field.WriteFields(&b, supplyFields, &c.Supplies[i])
	}
	for i := range c.Stock {
		b.WriteString("\n[[stock]]\n")
		field.WriteFields(&b, stockFields, &c.Stock[i])
	}
	for i := range c.Readings {
		b.WriteString("\n[[reading]]\n")
		field.WriteFields(&b, readingFields, &c.Readings[i])
	}
	for i := range c.Accepted {
		b.WriteString("\n[[accept]]\n")
		field.WriteFields(&b, acceptFields, &c.Accepted[i])
	}
	if len(c.Prices) > 0 || c.Offer != (graph.Offer{}) {
		b.WriteString("\n[prices]\n")
		field.WriteFields(&b, offerFields, &c.Offer)
		for i := range c.Prices {
			writePrice(&b, &c.Prices[i])
		}
	}
	writeRows(&b, c.Catalog)
	return []byte(strings.TrimPrefix(b.String(), "\n"))
}

// writeTable writes a table that stands once; nothing where it has nothing to say.
func writeTable[T any](b *strings.Builder, header string, fields []field.Field[T], from *T) {
	var inner strings.Builder
	field.WriteFields(&inner, fields, from)
	if inner.Len() > 0 {
		b.WriteString("\n" + header + "\n" + inner.String())
	}
}

// maybeTable writes a table that was there, though it says nothing.
func maybeTable[T any](b *strings.Builder, header string, fields []field.Field[T], from *T) {
	if from != nil {
		b.WriteString("\n" + header + "\n")
		field.WriteFields(b, fields, from)
	}
}

func writePrice(b *strings.Builder, p *graph.Price) {
	b.WriteString(field.Key(p.Item) + " = ")
	if p.Code == "" {
		b.WriteString(field.Quote(p.Price) + "\n")
		return
	}
	b.WriteString(field.Inline(priceFields, p) + "\n")
}

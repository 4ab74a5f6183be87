package description

import (
	"bytes"
	"encoding/json"
	"slices"
	"strings"

	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/description/field"
	"dryfit/graph/description/meaning"
	"dryfit/graph/description/pipework"
	"dryfit/graph/description/schema"
)

// SchemaFile is what the first line of a template calls the schema, beside the description.
const SchemaFile = "dryfit.schema.json"

// cannotSay lists what Read holds a description to and a schema can't.
const cannotSay = "A schema can't say everything that dryfit check does: which units fit a quantity and what is plausible; that ids are unique and that the parts, ports, runs, rows and speeds that are named are there; that every port is joined; that what may stand in one of two places stands in one (the spec and size of a run or of [pipe]); that what a request is worked out from is given (where an outlet is, for pipes that find it); that sizes and specs belong together; that flows of a curve rise; what the points and tables of a catalogue row hold; and that a date stands without quotes."

// Schema returns a JSON Schema (draft 2020-12) of a description, made of the tables of fields
// by which Read reads it. Every key has its meaning, and an example where there is one.
func Schema() []byte {
	var tables schema.Shape
	shapes := topShapes()
	for _, t := range topTables {
		s := shapes[t.name]
		if t.list {
			s = schema.List(s, 0)
		}
		tables = tables.With(t.name, field.KeyShape(s, "", t.name))
	}
	s := append(schema.Shape{
		{Name: "$schema", Says: "https://json-schema.org/draft/2020-12/schema"},
		{Name: "title", Says: "Description of a tub's pipework and of the heat pump to be fitted to it"},
		{Name: "$comment", Says: cannotSay},
	}, schema.Table(tables, []string{"part"})...)
	s = s.With("$defs", schema.Shape{{Name: "row", Says: rowShape()}})
	var b, out bytes.Buffer
	text, err := s.MarshalJSON()
	if err == nil {
		b.Write(text)
		err = json.Indent(&out, b.Bytes(), "", "  ")
	}
	if err != nil {
		panic("description: the schema can't be written: " + err.Error())
	}
	out.WriteByte('\n')
	return out.Bytes()
}

// topShapes are the tables of a description.
func topShapes() map[string]schema.Shape {
	return map[string]schema.Shape{
		"catalog":   catalogShape(),
		"pipe":      field.TableShape(pipeFields, "pipe"),
		"job":       field.TableShape(jobFields, "job"),
		"water":     field.TableShape(waterFields, "water"),
		"site":      field.TableShape(siteFields, "site"),
		"part":      partShape(),
		"cabinet":   field.TableShape(pipework.CabinetFields, "cabinet"),
		"run":       runShape(),
		"mode":      field.TableShape(pipework.ModeFields, "mode"),
		"retrofit":  field.TableShape(pipework.RetrofitFields, "retrofit"),
		"stock":     field.TableShape(stockFields, "stock"),
		"accept":    field.TableShape(acceptFields, "accept"),
		"reading":   field.TableShape(readingFields, "reading"),
		"prices":    pricesShape(),
		"heat-loss": field.TableShape(heatLossFields, "heat-loss"),
		"cover":     field.TableShape(coverFields, "cover"),
		"shell":     field.TableShape(shellFields, "shell"),
		"use":       field.TableShape(useFields, "use"),
		"climate":   field.TableShape(climateFields, "climate").With("anyOf", []schema.Shape{schema.Has("file"), schema.Has("air")}),
		"tariff":    field.TableShape(tariffFields, "tariff"),
		"supply":    field.TableShape(supplyFields, "supply"),
	}
}

// partShape is a part of any kind: the keys of all of them, and for each kind those it has.
func partShape() schema.Shape {
	type of struct {
		shape schema.Shape
		text  string
		mixed bool // other kinds say otherwise
	}
	all := map[string]*of{}
	var order []string
	var kinds []schema.Shape
	for _, k := range graph.Kinds() {
		own := schema.Shape{}
		var names []string
		for _, f := range pipework.ReadFields(k) {
			if f.Shape == nil {
				continue
			}
			names = append(names, f.Key)
			s := field.ShapeIn(f, string(k), sharedTable(k), "part")
			if k == graph.Tub && f.Key == "loss" {
				s = field.KeyShape(schema.Word("none"), "tub", "loss")
			}
			own = own.With(f.Key, s)
			text, _ := s.MarshalJSON()
			switch o := all[f.Key]; {
			case o == nil:
				all[f.Key] = &of{shape: s, text: string(text)}
				order = append(order, f.Key)
			case o.text != string(text):
				o.mixed = true
			}
		}
		required, either := field.Needs(pipework.ReadFields(k))
		then := schema.Shape{{Name: "propertyNames", Says: schema.Word(names...)}, {Name: "required", Says: required}}
		if len(either) > 0 {
			then = then.With("anyOf", either)
		}
		kinds = append(kinds, schema.Shape{
			{Name: "if", Says: schema.Shape{{Name: "properties", Says: schema.Shape{{Name: "kind", Says: schema.Shape{{Name: "const", Says: k}}}}}, {Name: "required", Says: []string{"kind"}}}},
			{Name: "then", Says: then.With("properties", own)},
		})
	}
	var keys schema.Shape
	for _, name := range order {
		s := all[name].shape
		if all[name].mixed { // what each kind says of it stands with the kind
			s = field.Describe(nil, mixedMeaning(name), meaning.Examples("part", name))
		}
		keys = keys.With(name, s)
	}
	// What the kinds agree on stands once.
	for i := range kinds {
		then := kinds[i][1].Says.(schema.Shape)
		last := len(then) - 1
		own := slices.DeleteFunc(then[last].Says.(schema.Shape), func(k schema.Keyword) bool { return !all[k.Name].mixed })
		then[last].Says = own
	}
	return schema.Table(keys, []string{"id", "kind"}).With("allOf", kinds)
}

// mixedMeaning is what a key means by the kinds that have it, where they differ.
func mixedMeaning(key string) string {
	var means []string
	of := map[string]string{}
	for _, k := range graph.Kinds() {
		if !slices.ContainsFunc(pipework.ReadFields(k), func(f field.Field[graph.Part]) bool { return f.Key == key && f.Shape != nil }) {
			continue
		}
		words := meaning.Of(string(k), key)
		if words == "" {
			words = meaning.Of("part", key)
		}
		if words == "" {
			continue
		}
		if of[words] == "" {
			means = append(means, words)
			of[words] = string(k)
		} else if len(of[words]) < 40 {
			of[words] += ", " + string(k)
		}
	}
	if len(means) == 1 {
		return means[0]
	}
	for i, words := range means {
		if meaning.Of("part", key) != words {
			means[i] = words + " (" + of[words] + ")"
		}
	}
	return strings.Join(means, "; ")
}

// sharedTable is where the meanings of a kind's keys stand that it shares with others.
func sharedTable(k graph.Kind) string {
	if k.IsHandValve() {
		return "valve"
	}
	return ""
}

// runShape is a run: with legs or with a length.
func runShape() schema.Shape {
	return field.TableShape(pipework.RunFields, "run").
		With("oneOf", []schema.Shape{schema.Has("legs"), schema.Has("length")}).
		With("dependentSchemas", schema.Shape{{Name: "fittings", Says: schema.Has("length")}})
}

// pricesShape is the prices: those of the whole, and of every part by its name in the list.
func pricesShape() schema.Shape {
	var keys schema.Shape
	for _, f := range offerFields {
		keys = keys.With(f.Key, field.ShapeIn(f, "prices"))
	}
	return schema.Shape{{Name: "type", Says: "object"}, {Name: "properties", Says: keys},
		{Name: "additionalProperties", Says: schema.Either(priceShape(), field.TableShape(priceFields, "price"))}}
}

// catalogShape is rows of the user's own: which columns there are, and not what they hold.
func catalogShape() schema.Shape {
	var kinds schema.Shape
	for _, name := range catalog.KindNames() {
		kinds = kinds.With(name, field.Describe(schema.List(schema.Shape{{Name: "$ref", Says: "#/$defs/row"}}, 0), "rows of your own for "+graph.A(name), nil))
	}
	return schema.Table(kinds, nil)
}

// rowShape is a row of the catalogue: its keys, and how the value of each is written.
func rowShape() schema.Shape {
	var columns schema.Shape
	for _, name := range catalog.ColumnNames() {
		columns = columns.With(name, field.KeyShape(columnShape(name), "row", name))
	}
	return schema.Table(columns, nil)
}

// columnShape is the value of a key of a row; what points and tables hold is left to check.
func columnShape(name string) schema.Shape {
	switch catalog.Form(name) {
	case "amount":
		return schema.Quantity()
	case "number":
		return schema.Shape{{Name: "type", Says: "number"}, {Name: "minimum", Says: 0}}
	case "truth":
		return schema.Flag()
	case "points":
		return schema.Shape{{Name: "type", Says: "array"}}
	case "table":
		return schema.Shape{{Name: "type", Says: []string{"array", "object"}}}
	}
	switch name {
	case "spec", "spec2":
		return schema.Word(specNames()...)
	case "sized":
		return schema.Word("low", "high")
	}
	return schema.Shape{{Name: "type", Says: "string"}}
}

func specNames() []string {
	var out []string
	for _, s := range catalog.Specs() {
		out = append(out, string(s))
	}
	return out
}

package description

import (
	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/description/located"
	"dryfit/graph/settle"
)

// waterFields are the keys of [water].
var waterFields = []field[graph.Water]{
	qtyField("volume", volume, func(w *graph.Water) *float64 { return &w.VolumeM3 }),
	qtySet("temperature", waterWarmth, func(w *graph.Water) *float64 { return &w.TemperatureC }, func(w *graph.Water) *bool { return &w.TemperatureSet }),
	qtyField("density", density, func(w *graph.Water) *float64 { return &w.Density }),
	qtyField("viscosity", viscosity, func(w *graph.Water) *float64 { return &w.Viscosity }),
	textField("notes", `how the water is kept`, func(w *graph.Water) *string { return &w.Notes }),
}

func readWater(r *reader, v located.Value) {
	w := &r.circuit.Water
	w.Pos = r.KeyPos(v)
	w.KeyPos = readTable(r, v, "[water]", waterFields, w)
	weighWater(r)
}

// weighWater settles what a metre of the water weighs, before anything given in metres of it is read.
func weighWater(r *reader) {
	r.metre = settle.Metre(r.circuit)
	r.catalog = r.catalog.InWater(r.metre)
}

// pipeFields are the keys of [pipe].
var pipeFields = []field[graph.PipeDefault]{
	specField("spec", func(p *graph.PipeDefault) *catalog.Spec { return &p.Spec }),
	sizeField("size", func(p *graph.PipeDefault) *catalog.Size { return &p.Size }),
	qtyField("measured-outside-diameter", outsideWidth, func(p *graph.PipeDefault) *float64 { return &p.MeasuredOutsideMM }),
	wordField("material", graph.Materials(), func(p *graph.PipeDefault) *string { return &p.Material }),
}

func readPipe(r *reader, v located.Value) {
	p := &r.circuit.Pipe
	p.Pos = r.KeyPos(v)
	if s, ok := v.In("spec"); ok {
		if text, ok := s.V.(string); ok {
			r.metric = catalog.Spec(text).Family() == catalog.Metric
		}
	}
	p.KeyPos = readTable(r, v, "[pipe]", pipeFields, p)
	r.sizeInCatalog(v, p.Spec, p.Size)
}

package description

import (
	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/description/field"
	"dryfit/graph/description/located"
	"dryfit/graph/settle"
)

// waterFields are the keys of [water].
var waterFields = []field.Field[graph.Water]{
	field.Qty("volume", field.Volume, func(w *graph.Water) *float64 { return &w.VolumeM3 }),
	field.QtySet("temperature", field.WaterWarmth, func(w *graph.Water) *float64 { return &w.TemperatureC }, func(w *graph.Water) *bool { return &w.TemperatureSet }),
	field.Qty("density", field.Density, func(w *graph.Water) *float64 { return &w.Density }),
	field.Qty("viscosity", field.Viscosity, func(w *graph.Water) *float64 { return &w.Viscosity }),
	field.Prose("notes", `how the water is kept`, func(w *graph.Water) *string { return &w.Notes }),
}

func readWater(r *field.Reader, v located.Value) {
	w := &r.Circuit.Water
	w.Pos = r.KeyPos(v)
	w.KeyPos = field.ReadTable(r, v, "[water]", waterFields, w)
}

// weighWater settles what a metre of the water weighs, before anything given in metres of it is read,
// once: what rows laid over the catalogue give in metres is of that water from then on.
func weighWater(r *field.Reader) {
	r.Metre = settle.Metre(r.Circuit)
	r.Catalog = r.Catalog.InWater(r.Metre)
}

// pipeFields are the keys of [pipe].
var pipeFields = []field.Field[graph.PipeDefault]{
	field.Spec("spec", func(p *graph.PipeDefault) *catalog.Spec { return &p.Spec }),
	field.Size("size", func(p *graph.PipeDefault) *catalog.Size { return &p.Size }),
	field.Qty("measured-outside-diameter", field.OutsideWidth, func(p *graph.PipeDefault) *float64 { return &p.MeasuredOutsideMM }),
	field.Word("material", graph.Materials(), func(p *graph.PipeDefault) *string { return &p.Material }),
}

func readPipe(r *field.Reader, v located.Value) {
	p := &r.Circuit.Pipe
	p.Pos = r.KeyPos(v)
	if s, ok := v.In("spec"); ok {
		if text, ok := s.V.(string); ok {
			r.Metric = catalog.Spec(text).Family() == catalog.Metric
		}
	}
	p.KeyPos = field.ReadTable(r, v, "[pipe]", pipeFields, p)
	r.SizeInCatalog(v, p.Spec, p.Size)
}

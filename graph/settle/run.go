package settle

import (
	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/catalog/tables"
	"dryfit/graph"
)

// Run is a run with every value it needs. Spec and Size are as written, or [pipe]'s.
type Run struct {
	*graph.Run
	Pipe    Pick[catalog.Row] // row of its pipe; zero Row where the catalogue has none
	Bore    Value             // mm
	Rough   Value             // mm
	Outside Value             // mm
	Rating  Value             // Pa, at 20 to 23 °C
	Derated Value             // Pa, at the water's temperature
	Length  Value             // mm along its axis, of a run known by its length; else route finds it
	Nominal bool              // Bore is the nominal size, for want of a row
	Ends    [2]End            // at From and To: what stands between the part and the pipe
}

func (s *Stage) settleRun(out *Run, r *graph.Run) {
	out.Run = r
	row, ok := s.cat.Pipe(r.Spec, r.Size)
	from := Origin{}
	if ok {
		from = ofRow(&row, r.KeyPos["spec"], false)
		out.Pipe = Pick[catalog.Row]{row, from}
	}
	switch {
	case r.BoreMM > 0:
		out.Bore = number(r.BoreMM, quantity.Length, given(r.KeyPos["bore"]))
		out.Bore.Spread = out.writtenBoreSpread()
	case row.BoreMM > 0:
		out.Bore = number(row.BoreMM, quantity.Length, from)
		out.Bore.Spread = out.boreSpread()
	case !r.Size.IsZero():
		out.Bore = number(r.Size.NominalMM(), quantity.Length, assumed("the nominal size: the catalogue has no such pipe"))
		out.Bore.Spread, out.Nominal = out.boreSpread(), true
	}
	switch {
	case r.RoughnessMM > 0 || r.RoughnessMM == 0 && (r.BoreMM > 0 || r.KeyPos["roughness"].IsValid()):
		out.Rough = number(r.RoughnessMM, quantity.Length, given(r.KeyPos["roughness"]))
	case ok:
		out.Rough = number(row.RoughnessMM, quantity.Length, from)
		out.Rough.Spread = out.roughSpread()
	case r.Spec != "": // of a size that is not in the catalogue: its wall is what its kind of pipe has
		s.wallAs(out, r.Spec, "that of "+quantity.Text(r.Spec.Pipe())+" of other sizes")
	case r.BoreMM > 0: // of no kind: most is rigid pipe
		s.wallAs(out, catalog.PVCSch40, "that of smooth plastic pipe: nobody says what pipe it is")
	}
	switch {
	case r.MeasuredOutsideMM > 0:
		out.Outside = number(r.MeasuredOutsideMM, quantity.Length, given(r.KeyPos["measured-outside-diameter"]))
	case row.OutsideMM > 0:
		out.Outside = number(row.OutsideMM, quantity.Length, from)
	}
	if row.RatingPa > 0 {
		out.Rating = number(row.RatingPa, quantity.Pressure, from)
		pa, _ := tables.RatingAt(row, s.Water.TemperatureC.V)
		out.Derated = number(pa, quantity.Pressure, ofKeys(Key{r.ID, "rating"}, Key{waterID, "temperature"}))
	}
	if len(r.Legs) == 0 {
		out.Length = number(r.LengthMM, quantity.Length, given(r.KeyPos["length"]))
		if r.LengthMM > 0 {
			out.Length.Spread = spreadOf(tables.SpreadRunLength, r.Known)
		}
	}
}

// wallAs takes the roughness of pipe of another kind or size for that of a run.
func (s *Stage) wallAs(out *Run, spec catalog.Spec, why quantity.Text) {
	if sizes := s.cat.PipeSizes(spec); len(sizes) > 0 {
		other, _ := s.cat.Pipe(spec, sizes[0])
		out.Rough = number(other.RoughnessMM, quantity.Length, assumed(why))
		out.Rough.Spread = out.roughSpread()
	}
}

// Row returns the row of the run's pipe with what the run says itself laid over it.
func (r *Run) Row() catalog.Row {
	row := r.Pipe.V
	if r.Bore.Known && !r.Nominal {
		row.BoreMM = r.Bore.V
	}
	if r.Rough.Known {
		row.RoughnessMM = r.Rough.V
	}
	if r.Outside.Known {
		row.OutsideMM = r.Outside.V
	}
	return row
}

// SizeBore returns the bore in mm of pipe of a size: of the spec where the catalogue has it,
// else of the family's; the nominal size where it has none.
func (s *Stage) SizeBore(spec catalog.Spec, size catalog.Size) float64 {
	specs := []catalog.Spec{spec, catalog.PVCSch40}
	if size.Metric {
		specs = []catalog.Spec{spec, catalog.PVCPN16, catalog.PVCPN10}
	}
	for _, one := range specs {
		if row, ok := s.cat.Pipe(one, size); ok && row.BoreMM > 0 {
			return row.BoreMM
		}
	}
	return size.NominalMM()
}

// SizeOutside returns the outside diameter in mm of pipe of a size: of the spec where the
// catalogue has it, else of either family's; the nominal size where it has none.
func (s *Stage) SizeOutside(spec catalog.Spec, size catalog.Size) float64 {
	for _, one := range []catalog.Spec{spec, catalog.PVCSch40, catalog.PVCPN16} {
		if row, ok := s.cat.Pipe(one, size); ok {
			return row.OutsideMM
		}
	}
	return size.NominalMM()
}

// BoreOf returns the bore in mm of a size as it meets a run: the run's own where it is of
// that size, else that of pipe of its spec or family.
func (s *Stage) BoreOf(r *Run, size catalog.Size) float64 {
	if size == r.Size {
		return r.Bore.V
	}
	return s.SizeBore(r.Spec, size)
}

// PipeRow returns the row of pipe of a spec and size, as it comes off the shelf; the zero Row
// where the catalogue has none.
func (s *Stage) PipeRow(spec catalog.Spec, size catalog.Size) catalog.Row {
	row, _ := s.cat.Pipe(spec, size)
	return row
}

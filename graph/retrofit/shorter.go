package retrofit

// Saving is a key of [retrofit] that makes the assembly shorter when it is changed, and by
// how much, mm.
type Saving struct {
	Key string // "true-union": the other of the two; "bypass-size", "extra", "service-valve": left out
	MM  float64
}

// Shorter lists the changes that make the assembly shorter at a place.
func (site *Site) Shorter(place Place, choice Choice) []Saving {
	c, lay := site.circuit, site.lay
	path := lay.Path(place.Run)
	if path == nil || c.Retrofit == nil {
		return nil
	}
	w := newWork(c, path.Run, site.stops).guarded(c, site.net, path.Run).at(path, place.Leg)
	now := w.newAssembly(choice)
	var out []Saving
	add := func(key string, a assembly) {
		if mm := now.needed() - a.needed(); mm >= 1 {
			out = append(out, Saving{Key: key, MM: mm})
		}
	}
	if _, b, has := w.element(choice); has {
		other := w
		other.trueUnion = !w.trueUnion
		if _, ob, _ := other.element(choice); ob.row.Name != b.row.Name {
			add("true-union", other.newAssembly(choice))
		}
	}
	if w.lineSize.Nominal > w.oldRigid().Nominal {
		small := w
		small.lineSize = w.oldRigid()
		add("bypass-size", small.newAssembly(choice))
	}
	if w.serviced(choice) {
		bare := *w.asked
		bare.ServiceValve = false
		short := w
		short.asked = &bare
		add("service-valve", short.newAssembly(choice))
	}
	if w.asked.ExtraMM > 0 {
		bare := *w.asked
		bare.ExtraMM = 0
		short := w
		short.asked = &bare
		add("extra", short.newAssembly(choice))
	}
	return out
}

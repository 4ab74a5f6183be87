package retrofit

// Shorter lists the keys of [retrofit] that make the assembly shorter at a place, by a millimetre or more,
// when they are changed: "true-union" to the other of the two; "bypass-size", "extra", "service-valve" left out.
func (site *Site) Shorter(place Place, choice Choice) []string {
	c, lay := site.circuit, site.lay
	path := lay.Path(place.Run)
	if path == nil || c.Retrofit == nil {
		return nil
	}
	w := newWork(c, path.Run, site.stops).guarded(c, site.net, path.Run).at(path, place.Leg)
	now := w.newAssembly(choice)
	var out []string
	add := func(key string, a assembly) {
		if now.needed()-a.needed() >= 1 {
			out = append(out, key)
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

package isometric

// split shares the members out over sheets.
func (d *drawing) split(ms []member) []group {
	p, ok := d.fit(ms)
	return []group{{ms: ms, pic: p, fits: ok}}
}

func (d *drawing) matchNotes(p *picture, k int) []string { return nil }

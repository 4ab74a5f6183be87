package settle

import "dryfit/catalog"

// HandRoom is the room that a hand needs at pipe of a size, mm beyond the outside of the pipe
// or nut: for a "spanner" at a nut, the "handle" or "wheel" of a valve, the "saw" at a cut, the
// primer's "brush" at a joint. assumed says that nobody measured it; ok is false where no row
// has the size.
func (s *Stage) HandRoom(what string, size catalog.Size) (mm float64, assumed, ok bool) {
	row, ok := s.cat.HandRoom(what, size)
	return row.RoomMM, !row.Own, ok
}

package world

import (
	"os"
	"path/filepath"
	"testing"
	"time"
)

// Nothing is shown in the first second, nor where nobody looks; what is shown goes before
// anything else is written.
func TestProgress(t *testing.T) {
	shown := func(live bool, use func(p *Progress)) string {
		t.Helper()
		file, err := os.Create(filepath.Join(t.TempDir(), "err"))
		if err != nil {
			t.Fatal(err)
		}
		defer func() { _ = file.Close() }()
		use(&Progress{To: file, live: live, started: time.Now()}) // no clock of its own
		data, err := os.ReadFile(file.Name())
		if err != nil {
			t.Fatal(err)
		}
		return string(data)
	}
	work := func(p *Progress) {
		p.Tell("drawing isometric", 1, 8)
		p.draw(900 * time.Millisecond)
		p.draw(2500 * time.Millisecond)
		p.Write([]byte("done\n"))
		p.draw(3 * time.Second)
	}
	if got, want := shown(true, work), "\r\x1b[Kdryfit: drawing isometric, 2 of 8 (2 s)\r\x1b[Kdone\n"; got != want {
		t.Errorf("on a terminal %q, want %q", got, want)
	}
	if got, want := shown(false, work), "done\n"; got != want {
		t.Errorf("elsewhere %q, want %q", got, want)
	}
}

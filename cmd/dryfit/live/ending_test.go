package live

import (
	"context"
	"testing"

	"dryfit/graph/whatif"
)

// A server told to end waits for nothing that is being worked out: here its reading of the files
// goes on until the server has ended, and only then is let go.
func TestEndsWhileReading(t *testing.T) {
	reading, letGo := make(chan struct{}, 100), make(chan struct{})
	s := serveLoaded(t, "", noPapers, 0, func() {
		reading <- struct{}{}
		<-letGo
	})
	<-reading
	s.stop() // fails where it does not end
	close(letGo)
}

// What takes long is given up when its context is done, whenever that is, and is not begun after.
func TestUnless(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	if got, ok := unless(ctx, func() int { return 7 }); got != 7 || !ok {
		t.Errorf("left alone: %d, %v", got, ok)
	}
	letGo, ended := make(chan struct{}), make(chan struct{})
	got, ok := unless(ctx, func() int {
		defer close(ended)
		cancel()
		<-letGo
		return 7
	})
	if got != 0 || ok {
		t.Errorf("done while it runs: %d, %v", got, ok)
	}
	close(letGo)
	<-ended
	if got, ok := unless(ctx, func() int { t.Error("begun when it was done"); return 7 }); got != 0 || ok {
		t.Errorf("done before: %d, %v", got, ok)
	}
}

// Once a server is told to end, no file is written any more, and one that is being written is
// waited for.
func TestWritesToTheEnd(t *testing.T) {
	at, err := Listen("127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	s := New(Config{Load: func() (whatif.Job, []string, error) { return whatif.Job{}, nil, ErrNoFile }}, NewDoor(at.Addr(), ""))
	ctx, cancel := context.WithCancel(t.Context())
	served := make(chan error, 1)
	_, shown := s.board.newest()
	go func() { served <- s.Serve(ctx, at) }()
	<-shown
	writing, whole := make(chan struct{}), false
	go func() {
		if err := s.change(func() error {
			close(writing)
			<-ctx.Done()
			whole = true
			return nil
		}); err != nil {
			t.Error(err)
		}
	}()
	<-writing
	cancel()
	if err := <-served; err != nil {
		t.Error(err)
	}
	if !whole {
		t.Error("it ended while a file was being written")
	}
	if err := s.change(func() error { t.Error("written after the end"); return nil }); err == nil {
		t.Error("what came after the end was not refused")
	}
}

// Package world is what the command may touch: files, standard output and error, signals, the line
// that shows how far a long command is, and the codes it exits with.
package world

import (
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"strings"
	"sync"
	"syscall"

	"golang.org/x/term"

	"dryfit/cmd/dryfit/disk"
	"dryfit/cmd/dryfit/stdout"
	"dryfit/graph"
	"dryfit/graph/description/located"
)

// World is what the command may touch.
type World struct {
	Stdout *Stream
	Stderr *Progress
	Getenv func(string) string
	Files  *disk.Files // every file that is read or written
	Stop   stop        // what a signal ends
}

// stop is what a signal ends in place of the whole command: its zero value ends the command.
type stop struct {
	mu  sync.Mutex
	end func() // nil: none
}

// By lets the first signal call end, which must bring the command to its end; a second signal
// ends it as it is.
func (s *stop) By(end func()) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.end = end
}

// take returns what the next signal calls, once.
func (s *stop) take() func() {
	s.mu.Lock()
	defer s.mu.Unlock()
	end := s.end
	s.end = nil
	return end
}

// New is the real one. A reader of standard output that stops early ends nothing: a
// pack is written all the same.
func New() *World {
	signal.Ignore(syscall.SIGPIPE)
	w := &World{
		Stderr: &Progress{To: os.Stderr},
		Getenv: os.Getenv,
		Files:  &disk.Files{Stdin: os.Stdin},
	}
	w.Stdout = &Stream{File: os.Stdout, Before: w.Stderr.clear, closed: stdout.Closed()}
	w.Stderr.live = w.terminal(w.Stderr)
	return w
}

// MindSignals ends the command from now on when it is interrupted or terminated, at once, and
// takes its temporary files away. It waits for nothing.
func (w *World) MindSignals() {
	c := make(chan os.Signal, 1)
	for _, s := range []os.Signal{os.Interrupt, syscall.SIGTERM, syscall.SIGHUP} {
		if !signal.Ignored(s) { // nohup asks for that
			signal.Notify(c, s)
		}
	}
	go w.endBy(c)
}

// endBy ends the command by the first signal, or by the second where a command has an end of its
// own.
func (w *World) endBy(c <-chan os.Signal) {
	got := <-c
	if end := w.Stop.take(); end != nil {
		end()
		got = <-c
	}
	w.Files.Stop()
	w.Stderr.clear()
	number, _ := got.(syscall.Signal)
	os.Exit(Signal + int(number))
}

// End returns the exit code of a command that came to code: what could not be printed is an
// error.
func (w *World) End(code int) int {
	w.Stderr.clear()
	if err := w.Stdout.close(); err != nil {
		return Complain(w, fmt.Errorf("standard output: %w", err))
	}
	return code
}

// Complain prints a message about wrong use.
func Complain(w *World, err error) int {
	for _, line := range strings.Split(err.Error(), "\n") {
		fmt.Fprintf(w.Stderr, "dryfit: %s\n", graph.Inert(line))
	}
	return WrongUse
}

// Tell prints a line that is no complaint on standard error. Names in it may hold anything a file's
// name may: what a terminal would obey is shown instead.
func Tell(w *World, format string, of ...any) {
	fmt.Fprintln(w.Stderr, graph.Inert(fmt.Sprintf(format, of...)))
}

// Read reads an input of the user's; "-" is standard input.
func (w *World) Read(name string) ([]byte, error) { return w.Files.Read(name, located.MaxBytes) }

// ShownName is how messages call an input.
func ShownName(name string) string {
	if name == "-" {
		return "<stdin>"
	}
	return name
}

// Write writes a result to the file named by -o, or to standard output.
func (w *World) Write(name string, data []byte) int {
	if name == "-" {
		_, _ = w.Stdout.Write(data) // end says what went wrong
		return Done
	}
	if err := w.Files.Write(name, data); err != nil {
		return Complain(w, err)
	}
	return Done
}

// Stream is standard output: it keeps the first thing that went wrong.
type Stream struct {
	File   *os.File
	Before func() // is called before anything is written
	closed bool   // it was when the command started, and file is the null device
	err    error
}

// Write prints to standard output.
func (s *Stream) Write(data []byte) (int, error) {
	if s.err != nil {
		return 0, s.err
	}
	if s.closed {
		s.err = errors.New("it is closed")
		return 0, s.err
	}
	s.Before()
	n, err := s.File.Write(data)
	s.err = err
	return n, err
}

// close returns what went wrong; a reader that has had enough is nothing wrong.
func (s *Stream) close() error {
	err := s.err
	if err == nil {
		err = s.File.Close()
	}
	if errors.Is(err, syscall.EPIPE) || errors.Is(err, os.ErrClosed) {
		return nil
	}
	var path *os.PathError
	if errors.As(err, &path) {
		err = path.Err
	}
	return err
}

// terminal reports whether text to a stream is read on a terminal that can do more than print.
func (w *World) terminal(to io.Writer) bool {
	var file *os.File
	switch to := to.(type) {
	case *Stream:
		file = to.File
	case *Progress:
		file = to.To
	}
	return file != nil && w.Getenv("TERM") != "dumb" && term.IsTerminal(int(file.Fd()))
}

// Colour reports whether text to a stream may be coloured.
func (w *World) Colour(to io.Writer) bool { return w.Getenv("NO_COLOR") == "" && w.terminal(to) }

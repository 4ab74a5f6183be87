package main

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

// world is what the command may touch.
type world struct {
	stdout *stream
	stderr *progress
	getenv func(string) string
	files  *disk.Files // every file that is read or written
	stop   stop        // what a signal ends
}

// stop is what a signal ends in place of the whole command: its zero value ends the command.
type stop struct {
	mu  sync.Mutex
	end func() // nil: none
}

// by lets the first signal call end, which must bring the command to its end; a second signal
// ends it as it is.
func (s *stop) by(end func()) {
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

// newWorld is the real one. A reader of standard output that stops early ends nothing: a
// pack is written all the same.
func newWorld() *world {
	signal.Ignore(syscall.SIGPIPE)
	w := &world{
		stderr: &progress{to: os.Stderr},
		getenv: os.Getenv,
		files:  &disk.Files{Stdin: os.Stdin},
	}
	w.stdout = &stream{file: os.Stdout, before: w.stderr.clear, closed: stdout.Closed()}
	w.stderr.live = w.terminal(w.stderr)
	return w
}

// mindSignals ends the command when it is interrupted or terminated, at once, and takes its
// temporary files away.
func (w *world) mindSignals() {
	c := make(chan os.Signal, 1)
	for _, s := range []os.Signal{os.Interrupt, syscall.SIGTERM, syscall.SIGHUP} {
		if !signal.Ignored(s) { // nohup asks for that
			signal.Notify(c, s)
		}
	}
	got := <-c
	if end := w.stop.take(); end != nil {
		end()
		got = <-c
	}
	w.files.Stop()
	w.stderr.clear()
	number, _ := got.(syscall.Signal)
	os.Exit(exitSignal + int(number))
}

// end returns the exit code of a command that came to code: what could not be printed is an
// error.
func (w *world) end(code int) int {
	w.stderr.clear()
	if err := w.stdout.close(); err != nil {
		return complain(w, fmt.Errorf("standard output: %w", err))
	}
	return code
}

// complain prints a message about wrong use.
func complain(w *world, err error) int {
	for _, line := range strings.Split(err.Error(), "\n") {
		fmt.Fprintf(w.stderr, "dryfit: %s\n", graph.Inert(line))
	}
	return exitUse
}

// read reads an input of the user's; "-" is standard input.
func (w *world) read(name string) ([]byte, error) { return w.files.Read(name, located.MaxBytes) }

// shownName is how messages call an input.
func shownName(name string) string {
	if name == "-" {
		return "<stdin>"
	}
	return name
}

// write writes a result to the file named by -o, or to standard output.
func (w *world) write(name string, data []byte) int {
	if name == "-" {
		_, _ = w.stdout.Write(data) // end says what went wrong
		return exitDone
	}
	if err := w.files.Write(name, data); err != nil {
		return complain(w, err)
	}
	return exitDone
}

// stream is standard output: it keeps the first thing that went wrong.
type stream struct {
	file   *os.File
	before func() // is called before anything is written
	closed bool   // it was when the command started, and file is the null device
	err    error
}

func (s *stream) Write(data []byte) (int, error) {
	if s.err != nil {
		return 0, s.err
	}
	if s.closed {
		s.err = errors.New("it is closed")
		return 0, s.err
	}
	s.before()
	n, err := s.file.Write(data)
	s.err = err
	return n, err
}

// close returns what went wrong; a reader that has had enough is nothing wrong.
func (s *stream) close() error {
	err := s.err
	if err == nil {
		err = s.file.Close()
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
func (w *world) terminal(to io.Writer) bool {
	var file *os.File
	switch to := to.(type) {
	case *stream:
		file = to.file
	case *progress:
		file = to.to
	}
	return file != nil && w.getenv("TERM") != "dumb" && term.IsTerminal(int(file.Fd()))
}

// colour reports whether text to a stream may be coloured.
func (w *world) colour(to io.Writer) bool { return w.getenv("NO_COLOR") == "" && w.terminal(to) }

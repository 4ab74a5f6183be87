package main

import (
	"bufio"
	"io"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"regexp"
	"runtime"
	"strings"
	"syscall"
	"testing"
	"time"

	"dryfit/graph/description/ladder"
)

// serveCommand is the command under test with serve's words; it has printed where it listens.
type serveCommand struct {
	cmd   *exec.Cmd
	links []string
	ended chan error
}

// startServe starts the command as its users do, in a folder.
func startServe(t *testing.T, dir string, words ...string) *serveCommand {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(self) //nolint:noctx // ended below
	cmd.Args = append([]string{"dryfit", "serve"}, words...)
	cmd.Dir = dir
	cmd.Env = append(os.Environ(), "NO_COLOR=1")
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	said := &strings.Builder{}
	cmd.Stderr = said
	if err := startListening(cmd); err != nil {
		t.Fatal(err)
	}
	s := &serveCommand{cmd: cmd, ended: make(chan error, 1)}
	lines := bufio.NewReader(out)
	first, err := lines.ReadString('\n')
	if err != nil {
		t.Fatalf("%v: %s", err, said)
	}
	s.links = append(s.links, strings.TrimSpace(first))
	go func() {
		_, _ = io.Copy(io.Discard, lines)
		s.ended <- cmd.Wait()
	}()
	t.Cleanup(func() { _ = cmd.Process.Kill() })
	return s
}

// startListening starts a command that is interrupted as by its user's keyboard: where the tests
// themselves were started in the background, an interrupt is ignored, and what they start would
// ignore it with them.
func startListening(cmd *exec.Cmd) error {
	c := make(chan os.Signal, 1)
	signal.Notify(c, os.Interrupt)
	defer signal.Stop(c)
	return cmd.Start()
}

// A signal ends the page at once, with exit code 0, whatever is being made: of a job of 500 runs
// that is the answer itself, for seconds after the page can be opened.
func TestSignalEndsServe(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("signals are another thing there")
	}
	demo, err := filepath.Abs("../../testdata/two-speed.toml")
	if err != nil {
		t.Fatal(err)
	}
	large := filepath.Join(t.TempDir(), "large.toml")
	if err := os.WriteFile(large, ladder.Of(500), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		file, listen, link string
		signal             os.Signal
	}{
		{demo, "127.0.0.1:0", `^http://127\.0\.0\.1:\d+/$`, os.Interrupt},
		{demo, "0.0.0.0:0", `^http://\S+:\d+/\?token=[A-Z2-7]{26}$`, syscall.SIGTERM},
		{large, "127.0.0.1:0", `^http://127\.0\.0\.1:\d+/$`, os.Interrupt},
		{large, "127.0.0.1:0", `^http://127\.0\.0\.1:\d+/$`, syscall.SIGTERM},
	} {
		s := startServe(t, t.TempDir(), "--listen", c.listen, c.file)
		if !regexp.MustCompile(c.link).MatchString(s.links[0]) {
			t.Errorf("--listen %s: %q", c.listen, s.links[0])
		}
		began := time.Now()
		if err := s.cmd.Process.Signal(c.signal); err != nil {
			t.Fatal(err)
		}
		select {
		case err := <-s.ended:
			if err != nil {
				t.Errorf("%v: %v", c.signal, err)
			}
			if took := time.Since(began); took > 3*time.Second {
				t.Errorf("%v: took %v", c.signal, took)
			}
		case <-time.After(20 * time.Second):
			t.Errorf("%v: it goes on", c.signal)
		}
	}
}

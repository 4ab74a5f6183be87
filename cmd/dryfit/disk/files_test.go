package disk

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
)

func read(t *testing.T, file string) string {
	t.Helper()
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

func wantError(t *testing.T, err error, want string) {
	t.Helper()
	if err == nil || !strings.Contains(err.Error(), want) {
		t.Errorf("got %v, want %q", err, want)
	}
}

// endless is a pipe nobody ends; it counts what was taken.
type endless struct{ taken int64 }

func (e *endless) Read(p []byte) (int, error) {
	e.taken += int64(len(p))
	return len(p), nil
}

func TestReadStopsAtTheCap(t *testing.T) {
	pipe := &endless{}
	f := &Files{Stdin: pipe}
	_, err := f.Read("-", 1000)
	wantError(t, err, "standard input is longer than 1000 bytes")
	if pipe.taken > 2000 {
		t.Errorf("%d bytes were taken of the pipe", pipe.taken)
	}
	_, err = f.Read("-", 1000)
	wantError(t, err, "only once")
	long := filepath.Join(t.TempDir(), "long")
	write(t, long, strings.Repeat("x", 1001))
	_, err = f.Read(long, 1000)
	wantError(t, err, "1001 bytes long")
	if _, err := os.Stat("/dev/zero"); err == nil {
		_, err = f.Read("/dev/zero", 1000)
		wantError(t, err, "longer than 1000 bytes")
	}
}

func TestInputIsNoOutput(t *testing.T) {
	dir := t.TempDir()
	in := filepath.Join(dir, "job.toml")
	write(t, in, "mine")
	hard, soft := filepath.Join(dir, "hard"), filepath.Join(dir, "soft")
	if err := errors.Join(os.Link(in, hard), os.Symlink("job.toml", soft)); err != nil {
		t.Skip("no links here:", err)
	}
	f := &Files{}
	if _, err := f.Read(in, 1000); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{in, hard, soft, filepath.Join(dir, ".", "x", "..", "job.toml")} {
		wantError(t, f.Write(name, []byte("lost")), "an input")
	}
	if got := read(t, in); got != "mine" {
		t.Errorf("the input is now %q", got)
	}
}

func TestWrite(t *testing.T) {
	dir := t.TempDir()
	name := filepath.Join(dir, "list.csv")
	write(t, name, "old")
	if err := os.Chmod(name, 0o640); err != nil {
		t.Fatal(err)
	}
	link := filepath.Join(dir, "link")
	if err := os.Symlink("list.csv", link); err != nil {
		t.Skip("no links here:", err)
	}
	if err := new(Files).Write(link, []byte("new")); err != nil {
		t.Fatal(err)
	}
	info, err := os.Lstat(name)
	if err != nil {
		t.Fatal(err)
	}
	if got := read(t, name); got != "new" || runtime.GOOS != "windows" && info.Mode().Perm() != 0o640 {
		t.Errorf("holds %q with mode %v", got, info.Mode())
	}
	if to, err := os.Readlink(link); to != "list.csv" {
		t.Errorf("the link leads to %q, %v", to, err)
	}
	if err := os.Symlink("not-yet", filepath.Join(dir, "dangling")); err != nil {
		t.Fatal(err)
	}
	if err := new(Files).Write(filepath.Join(dir, "dangling"), []byte("made")); err != nil {
		t.Fatal(err)
	}
	if got := read(t, filepath.Join(dir, "not-yet")); got != "made" {
		t.Errorf("through a dangling link: %q", got)
	}
	if got := strings.Join(names(t, dir), " "); got != "dangling link list.csv not-yet" {
		t.Errorf("the folder holds %q", got)
	}
	wantError(t, new(Files).Write(filepath.Join(dir, "none", "x"), nil), "there is no folder")
	wantError(t, new(Files).Write(dir, nil), "is a folder")
	if _, err := os.Stat("/dev/full"); err == nil {
		wantError(t, new(Files).Write("/dev/full", []byte("x")), "the disk is full")
	}
}

func TestCreateLeavesWhatIsThere(t *testing.T) {
	dir := t.TempDir()
	name := filepath.Join(dir, "job.toml")
	if err := new(Files).Create(name, []byte("first")); err != nil {
		t.Fatal(err)
	}
	if err := new(Files).Create(name, []byte("second")); !errors.Is(err, fs.ErrExist) {
		wantError(t, err, "is there already")
	}
	// one that came in while it was being written
	if err := new(Files).beside(name, 0, []byte("third"), place); !errors.Is(err, fs.ErrExist) {
		t.Errorf("the name was taken all the same: %v", err)
	}
	if got := read(t, name); got != "first" {
		t.Errorf("holds %q", got)
	}
	if got := names(t, dir); len(got) != 1 {
		t.Errorf("left behind: %q", got)
	}
}

// What a killed command left is taken away by the next; what another command is writing, and
// what only looks alike, is not.
func TestSweep(t *testing.T) {
	if !locks {
		t.Skip("nothing is swept here")
	}
	dir := t.TempDir()
	write(t, filepath.Join(dir, temporaryPrefix+"1"), "half")
	if err := os.Mkdir(filepath.Join(dir, temporaryPrefix+"2"), 0o755); err != nil {
		t.Fatal(err)
	}
	write(t, filepath.Join(dir, temporaryPrefix+"2", "half"), "half")
	write(t, filepath.Join(dir, temporaryPrefix+"photos"), "mine")
	other := &Files{}
	busy, err := other.temporary(dir)
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = busy.Close() }()
	if err := new(Files).Write(filepath.Join(dir, "out"), []byte("x")); err != nil {
		t.Fatal(err)
	}
	want := filepath.Base(busy.Name()) + " " + temporaryPrefix + "photos out"
	if got := strings.Join(names(t, dir), " "); got != want {
		t.Errorf("the folder holds %q, want %q", got, want)
	}
	other.Stop()
	if _, err := os.Lstat(busy.Name()); err == nil {
		t.Error("a command that stops leaves its temporary file")
	}
}

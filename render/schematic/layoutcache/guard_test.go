//go:build unix

package layoutcache

import (
	"bytes"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"testing"
)

// nobody is the user the probe runs as where the tests run as root: root can write anywhere.
const nobody = 65534

// probe is the built program and a fresh place to run it in.
type probe struct {
	t               *testing.T
	program         string
	root, home, tmp string
	uid             int
}

var program string

// seed is a home with a good cache, to be copied: of one small function, compiled and kept in the
// same way as the engine, which takes half a second.
var seed string

func TestMain(m *testing.M) {
	dir, err := os.MkdirTemp("", "layoutcache-probe-")
	if err != nil {
		panic(err)
	}
	program = filepath.Join(dir, "probe")
	out, err := exec.Command("go", "build", "-o", program, "./testdata/probe").CombinedOutput()
	if err != nil {
		panic(string(out))
	}
	if err := os.Chmod(dir, 0o755); err != nil {
		panic(err)
	}
	seed = filepath.Join(dir, "small")
	if err := os.Mkdir(seed, 0o700); err != nil {
		panic(err)
	}
	cmd := exec.Command(program)
	cmd.Env = []string{"HOME=" + seed, "TMPDIR=/nonexistent"}
	if out, err := cmd.CombinedOutput(); err != nil {
		panic(string(out))
	}
	code := m.Run()
	os.RemoveAll(dir)
	os.Exit(code)
}

func newProbe(t *testing.T) *probe {
	t.Helper()
	t.Parallel()
	root, err := os.MkdirTemp("", "layoutcache-test-")
	if err != nil {
		t.Fatal(err)
	}
	p := &probe{t: t, program: program, root: root, home: filepath.Join(root, "home"), tmp: filepath.Join(root, "tmp"), uid: os.Geteuid()}
	t.Cleanup(func() {
		_ = filepath.WalkDir(root, func(path string, d fs.DirEntry, _ error) error {
			if d != nil && d.IsDir() {
				_ = os.Chmod(path, 0o700)
			}
			return nil
		})
		os.RemoveAll(root)
	})
	p.must(os.Chmod(root, 0o755), os.Mkdir(p.home, 0o755), os.Mkdir(p.tmp, 0o700), os.Chmod(p.tmp, 0o777|os.ModeSticky))
	if p.uid == 0 {
		p.uid = nobody
		p.must(os.Chown(p.home, nobody, nobody))
	}
	return p
}

func (p *probe) must(errs ...error) {
	p.t.Helper()
	for _, err := range errs {
		if err != nil {
			p.t.Fatal(err)
		}
	}
}

// give makes everything under the path the probe's.
func (p *probe) give(path string) {
	p.t.Helper()
	if os.Geteuid() == 0 {
		p.must(filepath.WalkDir(path, func(path string, _ fs.DirEntry, _ error) error {
			return os.Lchown(path, p.uid, p.uid)
		}))
	}
}

// run runs the probe and returns what it printed; it must compile and exit 0.
func (p *probe) run(env ...string) map[string]string {
	p.t.Helper()
	if env == nil {
		env = []string{"HOME=" + p.home, "TMPDIR=" + p.tmp}
	}
	cmd := exec.Command(p.program)
	cmd.Env = env
	cmd.Dir = "/"
	if os.Geteuid() == 0 {
		cmd.SysProcAttr = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: uint32(p.uid), Gid: uint32(p.uid)}}
	}
	var out, errs bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &errs
	if err := cmd.Run(); err != nil {
		p.t.Fatalf("the program died: %v\n%s%s", err, out.String(), errs.String())
	}
	got := map[string]string{}
	for line := range strings.Lines(out.String()) {
		k, v, _ := strings.Cut(strings.TrimSpace(line), " ")
		got[k] = v
	}
	if got["compiled"] != "true" {
		p.t.Errorf("nothing was compiled: %v", got)
	}
	return got
}

// warm gives the probe a good cache of the small function.
func (p *probe) warm() {
	p.t.Helper()
	p.must(os.CopyFS(p.home, os.DirFS(seed)))
	p.must(filepath.WalkDir(filepath.Join(p.home, ".cache"), func(path string, d fs.DirEntry, _ error) error {
		if d.IsDir() {
			return os.Chmod(path, 0o700)
		}
		return os.Chmod(path, 0o600)
	}))
	p.give(filepath.Join(p.home, ".cache"))
}

func (p *probe) layout() string { return filepath.Join(p.home, ".cache", "dryfit", "layout") }

// cacheFile returns the one file of native code in the folder.
func (p *probe) cacheFile(folder string) string {
	p.t.Helper()
	var files []string
	each(folder, func(path string) { files = append(files, path) })
	if len(files) != 1 {
		p.t.Fatalf("cache files in %s: %q, want one", folder, files)
	}
	if _, err := os.Stat(files[0] + sumSuffix); err != nil {
		p.t.Errorf("no sum beside %s", files[0])
	}
	return files[0]
}

// Code is kept, used again, and made anew where a byte of it has changed: of the small function in the way
// of the engine itself, whose code a script of the command finds kept.
func TestFirstAndSecondRun(t *testing.T) {
	p := newProbe(t)
	var kept []byte
	var first fs.FileInfo
	for i := range 3 {
		if i == 2 {
			file := p.cacheFile(p.layout())
			if again, err := os.Stat(file); err != nil || !os.SameFile(first, again) || !again.ModTime().Equal(first.ModTime()) {
				t.Errorf("the second run wrote the cache file again (%v)", err)
			}
			data, err := os.ReadFile(file)
			kept = slices.Clone(data)
			data[len(data)/2] ^= 1
			p.must(err, os.WriteFile(file, data, 0o600))
		}
		got := p.run()
		if i == 0 {
			var err error
			first, err = os.Stat(p.cacheFile(p.layout()))
			p.must(err)
		}
		if got["folder"] != p.layout() || got["why"] != "" {
			t.Errorf("folder %q (%s), want %q", got["folder"], got["why"], p.layout())
		}
	}
	if again, err := os.ReadFile(p.cacheFile(p.layout())); err != nil || !bytes.Equal(again, kept) {
		t.Error("the cache file was not made anew")
	}
	if fi, err := os.Stat(p.layout()); err != nil || fi.Mode().Perm() != 0o700 {
		t.Errorf("the folder's mode is %v (%v)", fi.Mode(), err)
	}
	if left, _ := os.ReadDir(p.tmp); len(left) != 0 {
		t.Errorf("%v was left in the temporary directory", left)
	}
}

func TestNoHome(t *testing.T) {
	for name, env := range map[string]func(p *probe) []string{
		"HOME empty":        func(p *probe) []string { return []string{"HOME=", "TMPDIR=" + p.tmp} },
		"HOME not set":      func(p *probe) []string { return []string{"TMPDIR=" + p.tmp} },
		"HOME is a file":    func(p *probe) []string { return []string{"HOME=/dev/null", "TMPDIR=" + p.tmp} },
		"HOME is not there": func(p *probe) []string { return []string{"HOME=" + p.root + "/none", "TMPDIR=" + p.tmp} },
		"HOME is relative":  func(p *probe) []string { return []string{"HOME=here", "TMPDIR=" + p.tmp} },
		"HOME can't be written": func(p *probe) []string {
			p.must(os.Chmod(p.home, 0o555))
			return []string{"HOME=" + p.home, "TMPDIR=" + p.tmp}
		},
	} {
		t.Run(name, func(t *testing.T) {
			p := newProbe(t)
			got := p.run(env(p)...)
			if !strings.HasPrefix(got["folder"], p.tmp+"/dryfit-") {
				t.Errorf("folder %q (%s), want one in %s", got["folder"], got["why"], p.tmp)
			}
			if _, err := os.Stat(filepath.Join(p.root, "none")); err == nil {
				t.Error("a home directory was made")
			}
		})
	}
}

func TestNeitherHomeNorTemporaryDirectory(t *testing.T) {
	p := newProbe(t)
	if got := p.run("HOME=", "TMPDIR="+filepath.Join(p.root, "none")); got["folder"] != "" || got["why"] == "" {
		t.Errorf("folder %q (%s), want none", got["folder"], got["why"])
	}
}

func TestSharedTemporaryDirectoryWithSomebodysFolders(t *testing.T) {
	p := newProbe(t)
	if os.Geteuid() != 0 {
		t.Skip("only root can make another's folder")
	}
	// Root stands for somebody else here. He made our folder first.
	p.must(os.MkdirAll(filepath.Join(p.tmp, "dryfit-65534", "layout"), 0o700))
	if got := p.run("HOME=", "TMPDIR="+p.tmp); got["folder"] != "" {
		t.Errorf("another's folder %q was used", got["folder"])
	}
	if left, _ := os.ReadDir(filepath.Join(p.tmp, "dryfit-65534/layout")); len(left) != 0 {
		t.Errorf("%v was written in another's folder", left)
	}
}

func TestTemporaryDirectoryOthersCanRenameIn(t *testing.T) {
	p := newProbe(t)
	p.must(os.Chmod(p.tmp, 0o777)) // not sticky
	if got := p.run("HOME=", "TMPDIR="+p.tmp); got["folder"] != "" {
		t.Errorf("a cache was kept in a directory others can rename in: %q", got["folder"])
	}
}

func TestFolderOpenToOthersIsSetAside(t *testing.T) {
	p := newProbe(t)
	p.warm()
	planted := p.cacheFile(p.layout())
	p.must(os.Chmod(p.layout(), 0o777))
	got := p.run()
	if got["folder"] != p.layout() || got["why"] == "" {
		t.Errorf("folder %q, why %q: want it set aside and said", got["folder"], got["why"])
	}
	if _, err := os.Stat(strings.Replace(planted, "/layout/", "/layout.set-aside/", 1)); err != nil {
		t.Errorf("what lay in the open folder is not set aside: %v", err)
	}
	if fi, _ := os.Stat(p.layout()); fi.Mode().Perm() != 0o700 {
		t.Errorf("the new folder's mode is %v", fi.Mode())
	}
}

func TestLinkInPlaceOfTheFolder(t *testing.T) {
	p := newProbe(t)
	elsewhere := filepath.Join(p.root, "elsewhere")
	p.must(os.MkdirAll(filepath.Dir(p.layout()), 0o700), os.Mkdir(elsewhere, 0o700), os.Symlink(elsewhere, p.layout()))
	p.give(filepath.Join(p.home, ".cache"))
	p.give(elsewhere)
	got := p.run()
	if got["folder"] == p.layout() {
		t.Error("a link was followed")
	}
	if left, _ := os.ReadDir(elsewhere); len(left) != 0 {
		t.Errorf("%v was written through a link", left)
	}
}

func TestFileInPlaceOfTheFolder(t *testing.T) {
	p := newProbe(t)
	p.must(os.MkdirAll(filepath.Dir(p.layout()), 0o700), os.WriteFile(p.layout(), []byte("x"), 0o600))
	p.give(filepath.Join(p.home, ".cache"))
	p.run()
}

func TestDamagedCacheFile(t *testing.T) {
	for name, damage := range map[string]func(data []byte) []byte{
		"empty":            func([]byte) []byte { return nil },
		"cut short":        func(d []byte) []byte { return d[:len(d)/2] },
		"first byte":       func(d []byte) []byte { d[0] ^= 1; return d },
		"number of pieces": func(d []byte) []byte { copy(d[15:], "\xff\xff\xff\xff\xff\xff"); return d },
		"text":             func([]byte) []byte { return []byte("not native code") },
	} {
		t.Run(name, func(t *testing.T) {
			p := newProbe(t)
			p.warm()
			file := p.cacheFile(p.layout())
			data, err := os.ReadFile(file)
			p.must(err, os.WriteFile(file, damage(slices.Clone(data)), 0o600))
			if got := p.run(); got["folder"] != p.layout() {
				t.Errorf("folder %q (%s)", got["folder"], got["why"])
			}
			again, err := os.ReadFile(p.cacheFile(p.layout()))
			if err != nil || !bytes.Equal(again, data) {
				t.Error("the cache file was not made anew")
			}
		})
	}
}

func TestCacheFileWithoutSum(t *testing.T) {
	p := newProbe(t)
	p.warm()
	file := p.cacheFile(p.layout())
	p.must(os.Remove(file+sumSuffix), os.WriteFile(file, nil, 0o600))
	p.run()
	p.cacheFile(p.layout())
}

// A folder that can be read but not written is of use only while the good file is in it.
func TestCacheThatCannotBeWritten(t *testing.T) {
	p := newProbe(t)
	p.warm()
	file := p.cacheFile(p.layout())
	inner := filepath.Dir(file)
	p.must(os.Chmod(inner, 0o500))
	if got := p.run(); got["folder"] != p.layout() {
		t.Errorf("a good cache that can't be written was not used: %v", got)
	}
	p.must(os.Chmod(inner, 0o700), os.Remove(file), os.Remove(file+sumSuffix), os.Chmod(inner, 0o500))
	p.run() // compiled for this run only
	p.must(os.Chmod(inner, 0o700), os.WriteFile(file, []byte("damaged"), 0o400), os.Chmod(inner, 0o500))
	p.give(file)
	p.run() // nor can the damaged file be removed
}

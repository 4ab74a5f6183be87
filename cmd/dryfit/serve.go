package main

import (
	"context"
	"crypto/sha256"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"strings"
	"sync"
	"time"

	"dryfit/cmd/dryfit/disk"
	"dryfit/cmd/dryfit/live"
	"dryfit/cmd/dryfit/photos"
	"dryfit/cmd/dryfit/world"
	"dryfit/graph/description"
	"dryfit/graph/description/located"
	"dryfit/graph/whatif"
	page "dryfit/render/live"
	"dryfit/render/photo"
)

func serveVerb() *verb {
	return &verb{
		name: "serve", args: "[FILE]",
		does:    "the pack as a page in the browser that follows the file as it is saved",
		more:    "Only this machine can open it, unless --listen names another address: then whoever\nhas the link that is printed can look on, and nobody can change the file from there.\nWithout a file the page offers the circuits and writes the description of the one picked.\nCtrl-C ends it.",
		example: "dryfit serve --open job.toml\ndryfit serve --listen 0.0.0.0 job.toml",
		run:     runServe,
	}
}

func runServe(v *verb, args []string, w *world.World) int {
	var j job
	var listen string
	var open, times bool
	f := v.flags()
	f.StringVar(&listen, "listen", "", "address to listen at, with a port or without; this machine alone if left out")
	f.BoolVar(&open, "open", false, "open the page in the browser")
	f.BoolVar(&times, "times", false, "say how long each answer took")
	f.StringVar(&j.units, "units", "", "metric or inch; what the description says if left out")
	f.StringArrayVar(&j.catalogs, "catalog", nil, "file of catalogue rows that add to or replace the built-in ones; may be repeated")
	if code, done := j.start(v, f, nil, args, w); done {
		return code
	}
	switch {
	case f.NArg() > 1:
		return world.Complain(w, fmt.Errorf("serve takes one description, not %d: %s", f.NArg(), strings.Join(f.Args(), " ")))
	case f.Arg(0) == "-":
		return world.Complain(w, errors.New("serve follows a file: name one, standard input is read only once"))
	}
	it := &served{file: f.Arg(0), catalogs: j.catalogs, units: j.units}
	if it.file != "" {
		if _, _, err := it.load(); err != nil {
			return world.Complain(w, err)
		}
	}
	at, err := live.Listen(listen)
	if err != nil {
		return world.Complain(w, err)
	}
	door := live.NewDoor(at.Addr(), listen)
	cfg := live.Config{File: it.file, Load: it.load, Papers: papersApart}
	if door.Private() {
		cfg.Write = func(was, text []byte) error { return w.Files.Replace(it.name(), was, text) }
	} else if it.file == "" {
		return world.Complain(w, errors.New("serve without a file begins a job, and only this machine may do that: name a file, or leave --listen out"))
	}
	if it.file == "" {
		cfg.Begin = func(circuit, name string) error { return it.begin(w, circuit, name) }
	}
	if times {
		cfg.Tell = func(what string, took time.Duration) {
			world.Tell(w, "%s: %d ms", what, took.Milliseconds())
		}
	}
	debug.SetGCPercent(live.Tidy)
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	w.Stop.By(cancel)
	links := door.Links(at.Addr())
	it.greet(w, links, door.Private())
	if open {
		if err := browse(ctx, links[0]); err != nil {
			world.Tell(w, "dryfit: no browser could be opened: %v", err)
		}
	}
	if err := live.New(cfg, door).Serve(ctx, at); err != nil {
		return world.Complain(w, err)
	}
	return world.Done
}

// greet says where the page is, who may look on, and what to do there.
func (it *served) greet(w *world.World, links []string, private bool) {
	for _, l := range links {
		fmt.Fprintln(w.Stdout, l)
	}
	if !private {
		if code, err := live.Code(links[0], w.Colour(w.Stderr)); err == nil {
			fmt.Fprint(w.Stderr, code)
		}
		world.Tell(w, "whoever has the link can look on; nobody can change the file from there")
	}
	if it.file == "" {
		world.Tell(w, "pick a circuit there; Ctrl-C ends it")
	} else {
		world.Tell(w, "%s is shown there, and followed; Ctrl-C ends it", it.file)
	}
}

// served is the description that is served, and what lies beside it.
type served struct {
	catalogs []string
	units    string

	mu   sync.Mutex
	file string // "" until one is begun

	small map[[sha256.Size]byte]photo.Photo // what pictures became, by their bytes
}

// reduced is photo.Reduce, which takes a second for a large picture, done once for each.
func (s *served) reduced(name string, data []byte) (photo.Photo, error) {
	sum := sha256.Sum256(data)
	s.mu.Lock()
	p, ok := s.small[sum]
	s.mu.Unlock()
	if ok {
		p.Name = name
		return p, nil
	}
	p, err := photo.Reduce(name, data)
	if err != nil {
		return photo.Photo{}, err
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.small == nil || len(s.small) >= mostReduced {
		s.small = map[[sha256.Size]byte]photo.Photo{}
	}
	s.small[sum] = p
	return p, nil
}

// mostReduced is how many reduced pictures are kept.
const mostReduced = 64

func (s *served) name() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.file
}

// begin writes a template into the folder the command was started in, under a plain name, and
// serves it from then on. A file that is there is left alone.
func (s *served) begin(w *world.World, circuit, name string) error {
	if name != filepath.Base(name) || strings.ContainsAny(name, `/\:`) || strings.HasPrefix(name, ".") || filepath.Ext(name) != ".toml" {
		return fmt.Errorf("%q is no name of a file: write one such as job.toml", name)
	}
	text, err := description.Template(circuit)
	if err != nil {
		return err
	}
	if err := w.Files.Create(name, text); err != nil {
		return err
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	s.file = name
	return nil
}

// load reads the description and what lies beside it, anew each time, and says which files
// those are.
func (s *served) load() (whatif.Job, []string, error) {
	file := s.name()
	if file == "" {
		return whatif.Job{}, nil, live.ErrNoFile
	}
	names := append([]string{file}, s.catalogs...)
	text, err := disk.Peek(file, located.MaxBytes)
	if err != nil {
		return whatif.Job{}, names, err
	}
	out := whatif.Job{File: file, Text: text, Units: s.units}
	for _, name := range s.catalogs {
		data, err := disk.Peek(name, located.MaxBytes)
		if err != nil {
			return out, names, err
		}
		out.Catalogs = append(out.Catalogs, whatif.File{Name: name, Data: data})
	}
	c, _ := out.Read()
	if c == nil {
		return out, names, nil
	}
	for _, p := range c.Job.Photos {
		names = append(names, filepath.Join(filepath.Dir(file), filepath.FromSlash(p.File)))
	}
	photos, found := photos.Read(file, c.Job, disk.PeekWithin, s.reduced)
	if len(found) > 0 {
		return out, names, fmt.Errorf("%s: %s", found[0].Pos, found[0].Message)
	}
	for _, p := range photos {
		out.Photos = append(out.Photos, whatif.File{Name: p.Name, Data: p.JPEG})
	}
	if c.Climate == nil || c.Climate.File == "" {
		return out, names, nil
	}
	name := c.Climate.File
	if !filepath.IsAbs(name) {
		name = filepath.Join(filepath.Dir(file), name)
	}
	names = append(names, name)
	out.Weather, err = disk.Peek(name, mostWeather)
	if err != nil {
		return out, names, fmt.Errorf("%s: [climate] file: %w", c.Climate.Pos, err)
	}
	return out, names, nil
}

// papersWord is the verb by which the command starts itself to make papers: drawings can take
// long, and a newer save ends the process that makes what nobody will look at any more.
const papersWord = "__papers"

// makePapers reads an order on standard input and writes what is made.
func makePapers(w *world.World) int {
	if err := live.ServeOrder(w.Files.Stdin, w.Stdout); err != nil {
		return world.Complain(w, err)
	}
	return world.Done
}

// papersApart makes papers in a process of their own, which ends with ctx.
func papersApart(ctx context.Context, o live.Order, got func([]page.Section)) error {
	self, err := os.Executable()
	if err != nil {
		return live.Make(o, got)
	}
	order, err := live.Ordered(o)
	if err != nil {
		return err
	}
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	cmd := exec.CommandContext(ctx, self, papersWord)
	cmd.Args[0] = os.Args[0]
	cmd.Stdin = order
	out, err := cmd.StdoutPipe()
	if err != nil {
		return err
	}
	said := &strings.Builder{}
	cmd.Stderr = said
	if err := cmd.Start(); err != nil {
		return err
	}
	bad := live.Batches(out, got)
	if bad != nil {
		cancel() // nobody reads on: it would wait for ever to be heard
	}
	if err := cmd.Wait(); err != nil {
		if lines := strings.TrimSpace(said.String()); lines != "" {
			last := lines[strings.LastIndexByte(lines, '\n')+1:]
			return fmt.Errorf("%s", last)
		}
		if bad == nil {
			bad = err
		}
	}
	return bad
}

// browse opens a link in the user's browser.
func browse(ctx context.Context, link string) error {
	name, args := "xdg-open", []string{link}
	switch runtime.GOOS {
	case "darwin":
		name = "open"
	case "windows":
		name, args = "rundll32", []string{"url.dll,FileProtocolHandler", link}
	}
	cmd := exec.CommandContext(context.WithoutCancel(ctx), name, args...)
	if err := cmd.Start(); err != nil {
		return err
	}
	go func() { _ = cmd.Wait() }()
	return nil
}

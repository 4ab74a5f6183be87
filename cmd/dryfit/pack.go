package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"

	"dryfit/render/pack"
)

func packVerb() *verb {
	return &verb{
		name: "pack", args: "FILE -o DIR",
		does:    "everything as one job pack for the fitter, in a folder",
		more:    "The folder is written whole or not at all. A folder that dryfit did not write, or that\nholds files of yours, is refused. Open index.html in it: it needs no network.",
		example: "dryfit pack job.toml -o job",
		run:     runPack,
	}
}

func runPack(v *verb, args []string, w *world) int {
	var j job
	f := v.flags()
	j.add(f)
	out := f.Lookup("output")
	out.Usage, out.DefValue = "folder to write", ""
	if code, done := j.start(v, f, nil, args, w); done {
		return code
	}
	if j.output == "-" || j.output == "" {
		return complain(w, errors.New("pack writes a folder: name it with -o DIR"))
	}
	if err := mayReplace(j.output); err != nil {
		return complain(w, err)
	}
	if code, ok := j.read(f, v, w); !ok {
		return code
	}
	p, err := j.make(pack.Wants())
	if err != nil {
		return complain(w, err)
	}
	made, err := pack.Make(p, j.style(w).Units)
	if err != nil {
		return complain(w, err)
	}
	if err := writeFolder(j.output, made.Files); err != nil {
		return complain(w, fileError(j.output, err))
	}
	warnMissing(made.Missing, w)
	fmt.Fprintf(w.stderr, "%s written: open %s\n", j.output, filepath.Join(j.output, "index.html"))
	return j.say(p.Findings, w)
}

// mark is the file that tells a folder dryfit wrote from one it did not; it lists the
// other files.
const mark = ".dryfit-pack"

// mayReplace refuses a folder that is there and is not a pack of dryfit's, or that has
// files in it which the pack did not; and a link or a file in its place.
func mayReplace(dir string) error {
	dir = filepath.Clean(dir) // a "/" at the end would follow a link
	info, err := os.Lstat(dir)
	if errors.Is(err, os.ErrNotExist) {
		return nil
	}
	if err != nil {
		return err
	}
	switch {
	case info.Mode()&os.ModeSymlink != 0:
		return fmt.Errorf("%s is a link; name the folder itself", dir)
	case !info.IsDir():
		return fmt.Errorf("%s is a file, and a pack is a folder: name another", dir)
	}
	entries, err := os.ReadDir(dir)
	if err != nil {
		return err
	}
	if len(entries) == 0 {
		return nil
	}
	listed, err := os.ReadFile(filepath.Join(dir, mark))
	if err != nil {
		return fmt.Errorf("%s is there and dryfit did not write it: name another folder", dir)
	}
	known := pack.MarkedNames(listed)
	for _, e := range entries {
		if e.Name() != mark && !slices.Contains(known, e.Name()) {
			return fmt.Errorf("%s holds %q, which dryfit did not write: move it out, or name another folder", dir, e.Name())
		}
	}
	return nil
}

// writeFolder writes the files into a new folder beside dir and puts it in dir's place.
func writeFolder(dir string, files []pack.File) (err error) {
	dir = filepath.Clean(dir)
	parent := filepath.Dir(dir)
	if err := os.MkdirAll(parent, 0o755); err != nil {
		return err
	}
	fresh, err := os.MkdirTemp(parent, ".dryfit-new-")
	if err != nil {
		return err
	}
	defer func() { _ = os.RemoveAll(fresh) }()
	if err := os.Chmod(fresh, 0o755); err != nil {
		return err
	}
	files = append(slices.Clone(files), pack.File{Name: mark, Data: pack.Mark(files)})
	for _, f := range files {
		if err := os.WriteFile(filepath.Join(fresh, f.Name), f.Data, 0o644); err != nil {
			return err
		}
	}
	return swap(fresh, dir, parent)
}

// swap puts fresh in the place of dir; the old folder is put back if that fails.
func swap(fresh, dir, parent string) error {
	if _, err := os.Lstat(dir); errors.Is(err, os.ErrNotExist) {
		return os.Rename(fresh, dir)
	}
	old, err := os.MkdirTemp(parent, ".dryfit-old-")
	if err != nil {
		return err
	}
	aside := filepath.Join(old, "pack")
	if err := os.Rename(dir, aside); err != nil {
		return errors.Join(err, os.RemoveAll(old))
	}
	if err := os.Rename(fresh, dir); err != nil {
		return errors.Join(err, os.Rename(aside, dir), os.RemoveAll(old))
	}
	return os.RemoveAll(old)
}

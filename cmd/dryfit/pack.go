package main

import (
	"errors"
	"fmt"
	"path/filepath"

	"dryfit/cmd/dryfit/disk"
	"dryfit/cmd/dryfit/world"
	"dryfit/graph"
	"dryfit/render/pack"
	"dryfit/render/pack/planfile"
	"dryfit/render/photo"
)

func packVerb() *verb {
	return &verb{
		name: "pack", args: "FILE -o DIR",
		does:    "everything as one job pack for the fitter, in a folder",
		more:    "The folder is written whole or not at all. A folder that dryfit did not write, or that\nholds files of yours, is refused; so is a pack you have changed, unless --force is given.\nOpen index.html in it: it needs no network.",
		example: "dryfit pack job.toml -o job",
		run:     runPack,
	}
}

// mostPlanBytes bounds the plan.json of an earlier pack.
const mostPlanBytes = 64 << 20

// earlierOf reads the plan of the pack in a folder; nil where none is named.
func earlierOf(folder string) (*planfile.Earlier, error) {
	if folder == "" {
		return nil, nil
	}
	name := filepath.Join(folder, "plan.json")
	data, err := disk.Peek(name, mostPlanBytes)
	if err != nil {
		return nil, err
	}
	earlier, err := planfile.Read(data)
	if err != nil {
		return nil, fmt.Errorf("%s %w", name, err)
	}
	return earlier, nil
}

func runPack(v *verb, args []string, w *world.World) int {
	var j job
	var force bool
	var paper, since string
	f := v.flags()
	j.add(f)
	f.BoolVar(&force, "force", false, "replace a pack whose files have been changed since")
	f.StringVar(&paper, "paper", "a4", "a4, a3 or letter, for drawings and book; what does not go on one sheet is cut into more")
	f.StringVar(&since, "since", "", "folder of an earlier pack: the first page says what differs from it")
	out := f.Lookup("output")
	out.Usage, out.DefValue = "folder to write", ""
	if code, done := j.start(v, f, nil, args, w); done {
		return code
	}
	page, err := pageOf(paper)
	if err != nil {
		return world.Complain(w, err)
	}
	if j.output == "-" || j.output == "" {
		return world.Complain(w, errors.New("pack writes a folder: name it with -o DIR"))
	}
	if err := w.Files.Replaceable(j.output, force); err != nil {
		return world.Complain(w, err)
	}
	earlier, err := earlierOf(since)
	if err != nil {
		return world.Complain(w, fmt.Errorf("--since: %w", err))
	}
	if code, ok := j.read(f, v, w); !ok {
		return code
	}
	photos := j.readPhotos(w, photo.Reduce)
	if graph.HasErrors(j.findings) {
		return j.say(j.findings, w)
	}
	if err := w.Files.Replaceable(j.output, force); err != nil { // again: it may hold an input
		return world.Complain(w, err)
	}
	if code := j.readWeather(w); code != world.Done {
		return code
	}
	p, err := j.make(pack.Wants())
	if err != nil {
		return world.Complain(w, err)
	}
	made, err := pack.Make(p, pack.Options{Units: j.style(w).Units, Page: page, Tell: j.tell, Source: j.sources[j.file], Since: earlier, Photos: photos})
	if err != nil {
		return world.Complain(w, err)
	}
	files := make([]disk.File, len(made.Files))
	for i, one := range made.Files {
		files[i] = disk.File(one)
	}
	if err := w.Files.WriteFolder(j.output, files, force); err != nil {
		return world.Complain(w, err)
	}
	warnMissing(made.Missing, made.Unjoined, w)
	code := j.say(p.Findings, w)
	world.Tell(w, "%s written%s: open %s", j.output, counted(p.Findings), filepath.Join(j.output, "index.html"))
	return code
}

// counted is how many findings of each sort there are, in brackets; empty where there is none.
func counted(ds []graph.Diagnostic) string {
	if len(ds) == 0 {
		return ""
	}
	return " (" + graph.InShort(ds) + ")"
}

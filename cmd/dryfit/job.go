package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/pflag"
	"golang.org/x/term"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/description/located"
	"dryfit/graph/plan"
	"dryfit/render/table"
)

// job is what every verb that reads a description takes.
type job struct {
	format, output, units string
	catalogs              []string
	file                  string
	source                []byte
	circuit               *graph.Circuit
	findings              []graph.Diagnostic // of reading
}

// add puts the shared flags into f.
func (j *job) add(f *pflag.FlagSet, formats ...string) {
	if len(formats) > 0 {
		f.StringVar(&j.format, "format", formats[0], "how to print: "+strings.Join(formats, ", "))
	}
	f.StringVarP(&j.output, "output", "o", "-", "file to write; - is standard output")
	f.StringVar(&j.units, "units", "", "metric or inch; what the description says if left out")
	f.StringArrayVar(&j.catalogs, "catalog", nil, "file of catalogue rows that add to or replace the built-in ones; may be repeated")
}

// start reads the words after the verb into f and looks at those every verb has. done is
// true when nothing is left to do, with the exit code.
func (j *job) start(v *verb, f *pflag.FlagSet, formats, args []string, w *world) (code int, done bool) {
	if code, done := v.parse(f, args, w); done {
		return code, true
	}
	if err := j.checkWords(formats); err != nil {
		return complain(w, err), true
	}
	return exitDone, false
}

// checkWords looks at what the flags say once they are parsed.
func (j *job) checkWords(formats []string) error {
	if len(formats) > 0 && !slices.Contains(formats, j.format) {
		return wrongWord("--format", j.format, formats)
	}
	if j.units != "" && j.units != "metric" && j.units != "inch" {
		return wrongWord("--units", j.units, []string{"metric", "inch"})
	}
	return nil
}

func wrongWord(flag, got string, want []string) error {
	s := fmt.Sprintf("%s is %q; it can be %s", flag, got, strings.Join(want, ", "))
	if near, ok := catalog.NearestWord(got, want); ok {
		s += fmt.Sprintf("; did you mean %q?", near)
	}
	return fmt.Errorf("%s", s)
}

// read reads the description and the catalogue files. It returns false when there is no
// circuit to go on with; then everything has been said and code is the exit code.
func (j *job) read(f *pflag.FlagSet, v *verb, w *world) (code int, ok bool) {
	switch f.NArg() {
	case 0:
		return complain(w, fmt.Errorf("%s wants a description: dryfit %s FILE (dryfit new writes one to start from)", v.name, v.name)), false
	case 1:
		j.file = f.Arg(0)
	default:
		return complain(w, fmt.Errorf("%s takes one description, not %d: %s", v.name, f.NArg(), strings.Join(f.Args(), " "))), false
	}
	source, err := readCapped(j.file)
	if err != nil {
		return complain(w, err), false
	}
	j.source = source
	rows, bad, code := readCatalogs(j.catalogs, w)
	if code != exitDone {
		return code, false
	}
	j.circuit, j.findings = description.ReadWith(j.file, source, rows)
	j.findings = append(j.findings, bad...)
	if j.circuit == nil || graph.HasErrors(j.findings) {
		if v.name == "check" {
			return j.printFindings(j.findings, w), false
		}
		fmt.Fprint(w.stderr, j.render(j.findings, w.stderr, w))
		return exitFindings, false
	}
	if j.units != "" {
		j.circuit.Job.Units = j.units // findings and reasons are worded in it too
	}
	return exitDone, true
}

// readCapped reads a file, refusing what is far too large to be a description.
func readCapped(file string) ([]byte, error) {
	info, err := os.Stat(file)
	if err != nil {
		return nil, fileError(file, err)
	}
	if info.IsDir() {
		return nil, fmt.Errorf("%s is a folder; a description is a file like job.toml", file)
	}
	if info.Size() > located.MaxBytes {
		return nil, fmt.Errorf("%s is %d bytes long; a description is at most %d", file, info.Size(), located.MaxBytes)
	}
	data, err := os.ReadFile(file)
	return data, fileError(file, err)
}

// fileError says in plain words why a file can't be read or written.
func fileError(name string, err error) error {
	switch dir := filepath.Dir(name); {
	case err == nil:
		return nil
	case errors.Is(err, fs.ErrNotExist):
		if _, lost := os.Stat(dir); lost != nil {
			return fmt.Errorf("there is no folder %s", dir)
		}
		return fmt.Errorf("there is no file %s", name)
	case errors.Is(err, fs.ErrPermission):
		return fmt.Errorf("%s may not be read or written by you: %w", name, fs.ErrPermission)
	}
	return err
}

// readCatalogs reads the files named by --catalog.
func readCatalogs(files []string, w *world) (rows []catalog.Row, findings []graph.Diagnostic, code int) {
	for _, file := range files {
		data, err := readCapped(file)
		if err != nil {
			return nil, nil, complain(w, err)
		}
		r, ds := description.ReadCatalog(file, data)
		rows = append(rows, r...)
		findings = append(findings, ds...)
	}
	return rows, findings, exitDone
}

// make works the job out.
func (j *job) make(want plan.Want) (*plan.Plan, error) {
	p, err := plan.Make(j.circuit, want)
	if p != nil {
		p.Findings = graph.SortDiagnostics(append(slices.Clone(j.findings), p.Findings...))
	}
	return p, err
}

// say prints the findings of a verb whose result is something else, and returns the exit code.
func (j *job) say(ds []graph.Diagnostic, w *world) int {
	fmt.Fprint(w.stderr, j.render(ds, w.stderr, w))
	if graph.HasErrors(ds) {
		return exitFindings
	}
	return exitDone
}

// printFindings prints findings as the result of a verb.
func (j *job) printFindings(ds []graph.Diagnostic, w *world) int {
	var out []byte
	var err error
	switch j.format {
	case "json":
		out, err = table.FindingsJSON(ds)
	case "csv":
		out = table.FindingsCSV(ds)
	default:
		out = []byte(j.render(ds, w.stdout, w))
		if len(ds) == 0 {
			out = fmt.Appendf(out, "%s: nothing to mend\n", j.file)
		}
	}
	if err != nil {
		return complain(w, err)
	}
	if code := writeOut(j.output, out, w); code != exitDone {
		return code
	}
	if graph.HasErrors(ds) {
		return exitFindings
	}
	return exitDone
}

// render writes findings with their source lines.
func (j *job) render(ds []graph.Diagnostic, to any, w *world) string {
	return located.Render(ds, map[string][]byte{j.file: j.source}, colour(to, w))
}

// style says how tables are printed.
func (j *job) style(w *world) table.Style {
	s := table.Style{Units: quantity.MetricSystem, Colour: j.output == "-" && colour(w.stdout, w)}
	units := j.units
	if units == "" && j.circuit != nil {
		units = j.circuit.Job.Units
	}
	if units == "inch" {
		s.Units = quantity.InchSystem
	}
	return s
}

// colour reports whether text to a stream may be coloured.
func colour(to any, w *world) bool {
	file, ok := to.(*os.File)
	return ok && w.getenv("NO_COLOR") == "" && w.getenv("TERM") != "dumb" && term.IsTerminal(int(file.Fd()))
}

// writeOut writes a result to the file named by -o, or to standard output.
func writeOut(name string, data []byte, w *world) int {
	if name == "-" {
		if _, err := w.stdout.Write(data); err != nil {
			return complain(w, err)
		}
		return exitDone
	}
	if err := os.WriteFile(name, data, 0o644); err != nil {
		return complain(w, fileError(name, err))
	}
	return exitDone
}

package main

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/cmd/dryfit/world"
	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/description/located"
	"dryfit/graph/plan"
	"dryfit/render/table"
	"dryfit/render/table/form"
)

// job is what every verb that reads a description takes.
type job struct {
	format, output, units string
	catalogs              []string
	file                  string
	quiet                 bool
	tell                  graph.Tell        // shows what is being done
	sources               map[string][]byte // what was read, by file
	circuit               *graph.Circuit
	findings              []graph.Diagnostic // of reading
}

// add puts the shared flags into f.
func (j *job) add(f *pflag.FlagSet, formats ...string) {
	if len(formats) > 0 {
		f.StringVar(&j.format, "format", formats[0], "how to print, by the name of -o if left out: "+strings.Join(formats, ", "))
	}
	f.StringVarP(&j.output, "output", "o", "-", "file to write; - is standard output")
	f.StringVar(&j.units, "units", "", "metric or inch; what the description says if left out")
	f.BoolVarP(&j.quiet, "quiet", "q", false, "don't show what is being done and how far it is")
	f.StringArrayVar(&j.catalogs, "catalog", nil, "file of catalogue rows that add to or replace the built-in ones; may be repeated")
}

// start reads the words after the verb into f and looks at those every verb has. done is
// true when nothing is left to do, with the exit code.
func (j *job) start(v *verb, f *pflag.FlagSet, formats, args []string, w *world.World) (code int, done bool) {
	if code, done := v.parse(f, args, w); done {
		return code, true
	}
	err := j.checkWords(formats)
	if err == nil && len(formats) > 0 {
		j.format, err = world.FormatOf(j.output, j.format, f.Changed("format"), formats)
	}
	if err != nil {
		return world.Complain(w, err), true
	}
	return world.Done, false
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
	return fmt.Errorf("%s is %q; it can be %s%s", flag, got, strings.Join(want, ", "), meant(got, want))
}

// read reads the description and the catalogue files. It returns false when there is no
// circuit to go on with; then everything has been said and code is the exit code.
func (j *job) read(f *pflag.FlagSet, v *verb, w *world.World) (code int, ok bool) {
	switch f.NArg() {
	case 0:
		return world.Complain(w, fmt.Errorf("%s wants a description: dryfit %s FILE, or - to read it from standard input (dryfit new writes one to start from)", v.name, v.name)), false
	case 1:
		j.file = f.Arg(0)
	default:
		return world.Complain(w, fmt.Errorf("%s takes one description, not %d: %s", v.name, f.NArg(), strings.Join(f.Args(), " "))), false
	}
	return j.readFile(v, w)
}

// readFile reads the description j.file names, as read does.
func (j *job) readFile(v *verb, w *world.World) (code int, ok bool) {
	source, err := w.Read(j.file)
	if err != nil {
		return world.Complain(w, err), false
	}
	j.file = world.ShownName(j.file)
	j.keep(j.file, source)
	rows, bad, code := j.readCatalogs(j.catalogs, w)
	if code != world.Done {
		return code, false
	}
	j.circuit, j.findings = description.ReadWith(j.file, source, rows)
	j.findings = append(j.findings, bad...)
	if j.circuit == nil || graph.HasErrors(j.findings) {
		if v.name == "check" {
			return j.printFindings(j.findings, "", w), false
		}
		fmt.Fprint(w.Stderr, j.render(j.findings, w.Stderr, w))
		return world.Findings, false
	}
	j.watch(w)
	if j.units != "" {
		j.circuit.Job.Units = j.units // findings and reasons are worded in it too
	}
	return world.Done, true
}

// watch lets the job show what is being done.
func (j *job) watch(w *world.World) {
	if !j.quiet {
		j.tell = w.Stderr.Tell
	}
}

// keep holds what was read, for findings to show their lines.
func (j *job) keep(file string, data []byte) {
	if j.sources == nil {
		j.sources = map[string][]byte{}
	}
	j.sources[file] = data
}

// readCatalogs reads files of catalogue rows; the output must be none of them.
func (j *job) readCatalogs(files []string, w *world.World) (rows []catalog.Row, findings []graph.Diagnostic, code int) {
	for _, file := range files {
		data, err := w.Read(file)
		if err != nil {
			return nil, nil, world.Complain(w, err)
		}
		j.keep(world.ShownName(file), data)
		r, ds := description.ReadCatalog(world.ShownName(file), data)
		rows = append(rows, r...)
		findings = append(findings, ds...)
	}
	if err := w.Files.Writable(j.output); err != nil {
		return nil, nil, world.Complain(w, err)
	}
	return rows, findings, world.Done
}

// make works the job out.
func (j *job) make(want plan.Want) (*plan.Plan, error) {
	p, err := plan.Make(j.circuit, want, j.tell)
	if p != nil {
		p.Findings = graph.SortDiagnostics(append(slices.Clone(j.findings), p.Findings...))
	}
	return p, err
}

// say prints the findings of a verb whose result is something else, and returns the exit code.
func (j *job) say(ds []graph.Diagnostic, w *world.World) int {
	fmt.Fprint(w.Stderr, j.render(ds, w.Stderr, w))
	if graph.HasErrors(ds) {
		return world.Findings
	}
	return world.Done
}

// printFindings prints findings as the result of a verb, and what was not judged ("" nothing).
func (j *job) printFindings(ds []graph.Diagnostic, notJudged string, w *world.World) int {
	var out []byte
	var err error
	switch j.format {
	case "json":
		var more []string
		if notJudged != "" {
			more = append(more, notJudged)
		}
		out, err = table.FindingsJSON(ds, j.style(w), more...)
	case "csv":
		out = table.FindingsCSV(ds, j.style(w))
	default:
		out = []byte(j.render(ds, w.Stdout, w))
		switch len(ds) {
		case 0:
			out = fmt.Appendf(out, "%s: nothing to mend\n", graph.Inert(j.file))
		case 1: // it is counted at a glance
		default:
			out = fmt.Appendf(out, "%s: %s\n", graph.Inert(j.file), graph.InShort(ds))
		}
		if notJudged != "" {
			out = fmt.Appendln(out, notJudged)
		}
	}
	if err != nil {
		return world.Complain(w, err)
	}
	if code := w.Write(j.output, out); code != world.Done {
		return code
	}
	if graph.HasErrors(ds) {
		return world.Findings
	}
	return world.Done
}

// render writes findings with their source lines.
func (j *job) render(ds []graph.Diagnostic, to io.Writer, w *world.World) string {
	return located.Render(ds, j.sources, j.style(w).Units, w.Colour(to))
}

// style says how tables are printed.
func (j *job) style(w *world.World) form.Style {
	units := j.units
	if units == "" && j.circuit != nil {
		units = j.circuit.Job.Units
	}
	return form.Style{Units: quantity.SystemOf(units), Colour: j.output == "-" && w.Colour(w.Stdout)}
}

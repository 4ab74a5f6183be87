package main

import (
	"errors"
	"fmt"
	"io"
	"runtime/debug"
	"strings"

	"github.com/spf13/pflag"

	"dryfit/catalog/quantity"
	"dryfit/cmd/dryfit/notices"
	"dryfit/cmd/dryfit/world"
)

// verb is one word of the command.
type verb struct {
	name, args, does string
	more             string // what the help says beyond the flags
	example          string // lines to paste
	run              func(v *verb, args []string, w *world.World) int
	probe            **pflag.FlagSet // where run only has to leave its flags; nil: it runs
}

// verbs lists them in the order of a job.
func verbs() []*verb {
	return []*verb{newVerb(), checkVerb(), cutinVerb(), flowVerb(), heatVerb(), matchVerb(), partsVerb(), cutsVerb(), drawVerb(), packVerb(), serveVerb(), quoteVerb(), showVerb(), catalogVerb(), schemaVerb(), formatVerb(), completionVerb(), versionVerb()}
}

func findVerb(name string) *verb {
	for _, v := range verbs() {
		if v.name == name {
			return v
		}
	}
	return nil
}

func unknownVerb(name string) error {
	var names []string
	for _, v := range verbs() {
		names = append(names, v.name)
	}
	return fmt.Errorf("no verb %q%s (dryfit help lists them)", name, meant(name, names))
}

// usage is the help of the whole command.
func usage() string {
	var b strings.Builder
	b.WriteString("dryfit plans the fitting of a heat pump into hot tub pipework before anybody cuts a pipe.\n\nusage: dryfit VERB [FILE] [flags]\n\n")
	for _, v := range verbs() {
		fmt.Fprintf(&b, "  %-22s %s\n", v.name+" "+v.args, v.does)
	}
	b.WriteString("\nStart with:  dryfit new --circuit two-speed job.toml\nThen:        dryfit check job.toml\nHelp:        dryfit help VERB\n")
	return b.String()
}

func (v *verb) usage(f *pflag.FlagSet) string {
	s := fmt.Sprintf("dryfit %s %s\n  %s\n", v.name, v.args, v.does)
	if v.more != "" {
		s += "\n" + v.more + "\n"
	}
	if f != nil && f.HasFlags() {
		s += "\nflags:\n" + f.FlagUsages()
	}
	return s + "\nexample:\n  " + strings.ReplaceAll(v.example, "\n", "\n  ") + "\n"
}

// isHelp reports whether a word asks for help.
func isHelp(word string) bool { return word == "help" || word == "--help" || word == "-h" }

// help prints the help of the command, or of one verb.
func help(args []string, w *world.World) int {
	if len(args) == 0 {
		io.WriteString(w.Stdout, usage())
		return world.Done
	}
	switch v := findVerb(args[0]); {
	case v != nil:
		return v.run(v, []string{"--help"}, w)
	case isHelp(args[0]):
		io.WriteString(w.Stdout, usage())
		return world.Done
	}
	return world.Complain(w, unknownVerb(args[0]))
}

func versionVerb() *verb {
	return &verb{name: "version", args: "[--notices]", does: "which dryfit this is, and the licences of what is built in", example: "dryfit version --notices", run: runVersion}
}

// runVersion prints what is running, or the licences of what is built in.
func runVersion(v *verb, args []string, w *world.World) int {
	var licences bool
	f := v.flags()
	f.BoolVar(&licences, "notices", false, "print the licences of everything that is built in")
	if code, done := v.parse(f, args, w); done {
		return code
	}
	switch {
	case f.NArg() > 0:
		return world.Complain(w, fmt.Errorf("version takes no file: %s", strings.Join(f.Args(), " ")))
	case licences:
		io.WriteString(w.Stdout, notices.Text)
		return world.Done
	}
	version := "unknown"
	if info, ok := debug.ReadBuildInfo(); ok {
		version = info.Main.Version
	}
	fmt.Fprintln(w.Stdout, "dryfit", version)
	return world.Done
}

// flags makes the flag set of a verb; parse errors go through explainFlag.
func (v *verb) flags() *pflag.FlagSet {
	f := pflag.NewFlagSet(v.name, pflag.ContinueOnError)
	f.SortFlags = false
	f.Usage = func() {}
	f.SetOutput(io.Discard)
	return f
}

// parse reads args into f. done is true when nothing is left to do (help was asked, or the
// words were wrong), with the exit code.
func (v *verb) parse(f *pflag.FlagSet, args []string, w *world.World) (code int, done bool) {
	if v.probe != nil {
		*v.probe = f
		return world.Done, true
	}
	given := map[string]bool{}
	err := f.ParseAll(args, func(g *pflag.Flag, value string) error {
		if err := once(g, value, given); err != nil {
			return err
		}
		return f.Set(g.Name, value)
	})
	switch {
	case err == nil:
		return 0, false
	case errors.Is(err, pflag.ErrHelp):
		io.WriteString(w.Stdout, v.usage(f))
		return world.Done, true
	default:
		return world.Complain(w, explainFlag(v, f, err)), true
	}
}

// once refuses a flag that is given a second time, where one of the two would be forgotten, and one
// that is empty, as a variable of the shell leaves it that was never set.
func once(g *pflag.Flag, value string, given map[string]bool) error {
	list := g.Value.Type() == "stringArray"
	switch {
	case value == "" && (list || g.Value.Type() == "string"):
		return fmt.Errorf("--%s is empty: give it a value, or leave it out", g.Name)
	case given[g.Name] && !list:
		return fmt.Errorf("--%s is given twice: once is enough", g.Name)
	}
	given[g.Name] = true
	return nil
}

// explainFlag adds the near name to a mistyped flag.
func explainFlag(v *verb, f *pflag.FlagSet, err error) error {
	var unknown *pflag.NotExistError
	text := err.Error()
	if errors.As(err, &unknown) {
		var names []string
		f.VisitAll(func(g *pflag.Flag) { names = append(names, "--"+g.Name) })
		name := "--" + unknown.GetSpecifiedName()
		text = fmt.Sprintf("%s has no flag %s%s", v.name, name, meant(name, names))
		if short := unknown.GetSpecifiedShortnames(); short != "" { // -fromat, or the name of a file
			near := meant("--"+short, names)
			if near == "" {
				near = fmt.Sprintf("; a file whose name begins with - is written ./-%s", short)
			}
			text = fmt.Sprintf("%s has no flag -%s%s", v.name, short, near)
		}
	}
	return fmt.Errorf("%s (dryfit help %s shows its flags)", text, v.name)
}

// meant is what is added to an error about a word that is not there: the one it was most
// likely meant to be; "" where none is near.
func meant(word string, there []string) string {
	if near, ok := quantity.Nearest(word, there); ok {
		return fmt.Sprintf("; did you mean %q?", near)
	}
	return ""
}

// meantAmong is meant; where none of the words is near it names them, as many as fit on a few lines.
func meantAmong(word string, there []string) string {
	const most = 30
	switch near := meant(word, there); {
	case near != "":
		return near
	case len(there) > most:
		return fmt.Sprintf("; there are %s and %d more", strings.Join(there[:most], ", "), len(there)-most)
	case len(there) > 0:
		return "; there are " + strings.Join(there, ", ")
	}
	return ""
}

package main

import (
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"dryfit/catalog"
	"dryfit/cmd/dryfit/world"
	"dryfit/graph/description"
)

// completeWord is the verb that the shells' scripts call: the words after dryfit follow, the
// last of them as far as it is typed (":" where it is empty). It prints what that word can be,
// one a line, and filesWanted where a file may stand.
const (
	completeWord = "__complete"
	filesWanted  = ":files"
)

// printCandidates never fails: where nothing is known nothing is printed.
func printCandidates(args []string, w *world.World) int {
	if len(args) == 0 {
		args = []string{""}
	}
	done, word := args[:len(args)-1], args[len(args)-1]
	if word == ":" {
		word = ""
	}
	done, word = joinedFlag(done, strings.Trim(strings.ReplaceAll(word, `\`, ""), `"'`))
	for _, c := range candidates(done, word, w) {
		if c == filesWanted || strings.HasPrefix(c, word) {
			fmt.Fprintln(w.Stdout, c)
		}
	}
	return world.Done
}

// joinedFlag takes "--flag", "=" apart again, as a shell that breaks words at "=" gives them.
func joinedFlag(done []string, word string) ([]string, string) {
	out := done[:0:0]
	for _, d := range done {
		if d != "=" {
			out = append(out, d)
		}
	}
	if word == "=" {
		word = ""
	}
	return out, word
}

// candidates are the words that can follow those that are done.
func candidates(done []string, word string, w *world.World) []string {
	if len(done) == 0 {
		out := []string{"help"}
		for _, v := range verbs() {
			out = append(out, v.name)
		}
		return out
	}
	if isHelp(done[0]) {
		return candidates(nil, word, w)
	}
	v := findVerb(done[0])
	if v == nil {
		return nil
	}
	flags := v.itsFlags(w)
	if name, _, ok := strings.Cut(word, "="); ok && strings.HasPrefix(name, "--") {
		var out []string
		for _, c := range flagValues(flags, strings.TrimPrefix(name, "--")) {
			if c != filesWanted {
				c = name + "=" + c
			}
			out = append(out, c)
		}
		return out
	}
	if strings.HasPrefix(word, "-") {
		out := []string{"--help"}
		if flags != nil {
			flags.VisitAll(func(f *pflag.Flag) { out = append(out, "--"+f.Name) })
		}
		return out
	}
	if open := openFlag(flags, done); open != "" {
		return flagValues(flags, open)
	}
	return positional(v, argsOf(flags, done[1:]), w)
}

// itsFlags are the flags of a verb.
func (v *verb) itsFlags(w *world.World) *pflag.FlagSet {
	var flags *pflag.FlagSet
	probed := *v
	probed.probe = &flags
	v.run(&probed, nil, w)
	return flags
}

// openFlag is the flag that the last word names and that still wants its value; "" for none.
func openFlag(flags *pflag.FlagSet, done []string) string {
	last := done[len(done)-1]
	if flags == nil || !strings.HasPrefix(last, "-") || strings.Contains(last, "=") {
		return ""
	}
	var f *pflag.Flag
	if name, long := strings.CutPrefix(last, "--"); long {
		f = flags.Lookup(name)
	} else if len(last) == 2 {
		f = flags.ShorthandLookup(last[1:])
	}
	if f == nil || f.NoOptDefVal != "" {
		return ""
	}
	return f.Name
}

// argsOf are the words that are no flags and no values of flags.
func argsOf(flags *pflag.FlagSet, words []string) []string {
	var out []string
	for i, word := range words {
		if !strings.HasPrefix(word, "-") && (i == 0 || openFlag(flags, words[:i]) == "") {
			out = append(out, word)
		}
	}
	return out
}

// fileFlags are those whose value is the name of a file or a folder.
var fileFlags = []string{"output", "catalog", "pieces", "write-plan", "against", "logo"}

// flagValues are the words a flag takes: those its help lists behind a colon.
func flagValues(flags *pflag.FlagSet, name string) []string {
	switch {
	case flags == nil || flags.Lookup(name) == nil:
		return nil
	case slices.Contains(fileFlags, name):
		return []string{filesWanted}
	case name == "explain":
		return explained()
	case name == "units":
		return []string{"metric", "inch"}
	}
	_, list, ok := strings.Cut(flags.Lookup(name).Usage, ": ")
	if !ok {
		return nil
	}
	var out []string
	for _, word := range strings.Split(strings.ReplaceAll(list, " or ", ", "), ",") {
		if word = strings.TrimSpace(word); word != "" && !strings.ContainsAny(word, " ;\"") {
			out = append(out, word)
		}
	}
	return out
}

// positional are the words that may stand after those that are no flags.
func positional(v *verb, args []string, w *world.World) []string {
	switch {
	case v.name == "completion" && len(args) == 0:
		return shells()
	case v.name == "catalog":
		return catalogWords(args)
	case v.name == "show" && len(args) == 1:
		return partsAndRuns(args[0], w)
	case strings.Contains(v.args, "FILE") && (len(args) == 0 || strings.HasSuffix(v.args, "...")):
		return []string{filesWanted}
	}
	return nil
}

// catalogWords are the words after catalog: what to do, and the names of kinds and rows.
func catalogWords(args []string) []string {
	var out []string
	switch {
	case len(args) == 0:
		return []string{"list", "show", "check", "units"}
	case args[0] == "check":
		return []string{filesWanted}
	case args[0] == "list":
		return catalog.KindNames()
	case args[0] == "show" && len(args) == 1:
		for _, row := range catalog.Embedded().Rows() {
			out = append(out, row.Name)
		}
	}
	return out
}

// partsAndRuns are the names in a description, as far as it reads.
func partsAndRuns(file string, w *world.World) []string {
	text, err := w.Read(file)
	if err != nil {
		return nil
	}
	c, _ := description.Read(file, text)
	if c == nil {
		return nil
	}
	var out []string
	for _, p := range c.Parts {
		out = append(out, p.ID)
	}
	for _, r := range c.Runs {
		out = append(out, r.ID)
	}
	return out
}

package main

import (
	"fmt"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/cmd/dryfit/photos"
	"dryfit/cmd/dryfit/world"
	"dryfit/graph/description"
	"dryfit/graph/plan"
	"dryfit/graph/rule"
	"dryfit/render/photo"
	"dryfit/render/table"
)

func checkVerb() *verb {
	return &verb{
		name: "check", args: "FILE",
		does:    "read a description, apply every rule, print the findings with file:line:col",
		more:    "Rules judge the new work; what exists already gets at most a note.\n--explain NAME prints one rule, or what a key of the description means; --rules lists all rules.",
		example: "dryfit check job.toml\ndryfit check --format json job.toml\ndryfit check --explain unit-after-filter",
		run:     runCheck,
	}
}

func runCheck(v *verb, args []string, w *world.World) int {
	var j job
	var explain string
	var list bool
	f := v.flags()
	formats := []string{"text", "json", "csv"}
	j.add(f, formats...)
	f.StringVar(&explain, "explain", "", "print what a rule asks, and why; or what a key means, such as volume or water.volume")
	f.BoolVar(&list, "rules", false, "list every rule")
	if code, done := j.start(v, f, formats, args, w); done {
		return code
	}
	switch {
	case list:
		return w.Write(j.output, ruleList(quantity.SystemOf(j.units)))
	case explain != "":
		return explainRule(explain, j.output, quantity.SystemOf(j.units), w)
	}
	if code, ok := j.read(f, v, w); !ok {
		return code
	}
	_ = j.readPhotos(w, photos.Look)
	p, err := j.make(plan.Findings | plan.Flows)
	if err != nil {
		return world.Complain(w, err)
	}
	return j.printFindings(p.Findings, table.NotJudged(p), w)
}

// ruleList prints every rule, a line each.
func ruleList(units quantity.System) []byte {
	var out []byte
	for _, r := range rule.All() {
		out = fmt.Appendf(out, "%-34s %-8s %s\n", r.Name, r.Severity, quantity.Prose(r.Asks).In(units))
	}
	return out
}

// explainRule prints what stands behind a name: a rule, another name in brackets, or keys of the
// description.
func explainRule(name, output string, units quantity.System, w *world.World) int {
	name = strings.Trim(name, "[]")
	var text []byte
	if rule.ByName(name) != nil {
		text = append(text, rule.Explain(name).In(units)...)
	} else if word := rule.WordByName(name); word != nil {
		text = fmt.Appendf(text, "[%s] behind a finding is no rule. %s\n", word.Name, word.Says)
	}
	if keys := explainKey(name); len(keys) > 0 {
		if len(text) > 0 {
			text = append(text, '\n')
		}
		text = append(text, keys...)
	}
	if text != nil {
		return w.Write(output, text)
	}
	if table, _, ok := strings.Cut(name, "."); ok {
		if keys := description.KeysOf(table); len(keys) > 0 {
			if near := description.NearestKey(name); strings.HasPrefix(near, table+".") {
				return world.Complain(w, fmt.Errorf("no key %q; did you mean %q?", name, near))
			}
			return world.Complain(w, fmt.Errorf("no key %q: the keys of %s are %s", name, table, strings.Join(keys, ", ")))
		}
	}
	names := explained()
	if near, ok := quantity.Nearest(name, names); ok {
		return world.Complain(w, fmt.Errorf("no rule or key %q; did you mean %q?", name, near))
	}
	if near := description.NearestKey(name); near != "" {
		return world.Complain(w, fmt.Errorf("no rule or key %q; did you mean %q?", name, near))
	}
	return world.Complain(w, fmt.Errorf("no rule or key %q (dryfit check --rules lists the rules, dryfit schema every key)", name))
}

// explained are the names of rules and of what else stands in brackets.
func explained() []string {
	var names []string
	for _, r := range rule.All() {
		names = append(names, r.Name)
	}
	for _, word := range rule.Words {
		names = append(names, word.Name)
	}
	return names
}

// explainKey says what a key means in every table and kind of part that has it, how it is written,
// and an example; "water.volume" asks for that of one. Empty where there is no such key.
func explainKey(name string) []byte {
	var out []byte
	for _, k := range description.FindKeys(name) {
		path := strings.TrimSpace("[" + k.Path[0] + "] " + strings.Join(k.Path[1:], "."))
		if k.Path[0] == "catalog" && len(k.Path) > 1 {
			path = "[catalog.KIND] " + strings.Join(k.Path[2:], ".")
		}
		of := ""
		if len(k.Kinds) > 0 {
			of = " (" + strings.Join(k.Kinds, ", ") + ")"
		}
		out = fmt.Appendf(out, "%s%s: %s\n  written:  %s\n", path, of, k.Means, k.Form)
		if k.Example != "" {
			out = fmt.Appendf(out, "  example:  %s = %s\n", k.Path[len(k.Path)-1], k.Example)
		}
		keys, asked := k.Under()
		if len(k.Path) == 1 {
			if keys = description.KeysOf(k.Path[0]); len(keys) > 0 {
				asked = k.Path[0] + "." + keys[0]
			}
		}
		if len(keys) > 0 {
			out = fmt.Appendf(out, "  keys:     %s\n            (dryfit check --explain %s says what one means)\n", strings.Join(keys, ", "), asked)
		}
	}
	return out
}

// readPhotos adds what is wrong with the job's photos to the findings of reading.
func (j *job) readPhotos(w *world.World, each func(name string, data []byte) (photo.Photo, error)) []photo.Photo {
	photos, found := photos.Read(j.file, j.circuit.Job, w.Files.ReadWithin, each)
	j.findings = append(j.findings, found...)
	return photos
}

package main

import (
	"fmt"
	"maps"
	"slices"

	"dryfit/cmd/dryfit/photos"
	"dryfit/cmd/dryfit/world"
	"dryfit/graph/description/meaning"
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
		return w.Write(j.output, ruleList())
	case explain != "":
		return explainRule(explain, j.output, w)
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
func ruleList() []byte {
	var out []byte
	for _, r := range rule.All() {
		out = fmt.Appendf(out, "%-34s %-8s %s\n", r.Name, r.Severity, r.Asks)
	}
	return out
}

func explainRule(name, output string, w *world.World) int {
	if rule.ByName(name) != nil {
		return w.Write(output, []byte(rule.Explain(name)))
	}
	if text := explainKey(name); text != nil {
		return w.Write(output, text)
	}
	var names []string
	for _, r := range rule.All() {
		names = append(names, r.Name)
	}
	return world.Complain(w, fmt.Errorf("no rule or key %q%s (dryfit check --rules lists the rules)", name, meant(name, names)))
}

// explainKey says what a key means in every table and kind of part that has it; "water.volume"
// asks for that of one. Nil where there is no such key.
func explainKey(name string) []byte {
	var out []byte
	sections := meaning.Sections()
	for _, section := range slices.Sorted(maps.Keys(sections)) {
		for _, key := range slices.Sorted(slices.Values(sections[section])) {
			full, shown := section+"."+key, "["+section+"] "+key
			if section == "" {
				full, shown = key, "["+key+"]"
			}
			if name == key || name == full {
				out = fmt.Appendf(out, "%s: %s\n", shown, meaning.Of(section, key))
			}
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

package main

import (
	"fmt"

	"dryfit/cmd/dryfit/world"
	"dryfit/graph/plan"
	"dryfit/graph/rule"
	"dryfit/render/table"
)

func checkVerb() *verb {
	return &verb{
		name: "check", args: "FILE",
		does:    "read a description, apply every rule, print the findings with file:line:col",
		more:    "Rules judge the new work; what exists already gets at most a note.\n--explain NAME prints one rule, --rules lists them all.",
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
	f.StringVar(&explain, "explain", "", "print what a rule asks, and why")
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
	_ = j.readPhotos(w, lookAtPhoto)
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
	if rule.ByName(name) == nil {
		var names []string
		for _, r := range rule.All() {
			names = append(names, r.Name)
		}
		return world.Complain(w, fmt.Errorf("no rule %q%s (dryfit check --rules lists them)", name, meant(name, names)))
	}
	return w.Write(output, []byte(rule.Explain(name)))
}

package main

import (
	"embed"
	"fmt"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/cmd/dryfit/world"
)

// completionFiles are the scripts that make a shell complete the words of the command.
//
//go:embed completion/*
var completionFiles embed.FS

// shells are those there is a script for.
func shells() []string { return []string{"bash", "zsh", "fish", "powershell"} }

func completionVerb() *verb {
	return &verb{
		name: "completion", args: strings.Join(shells(), "|"),
		does: "a script that makes the shell complete verbs, flags, files, kinds, rules and rows",
		example: "source <(dryfit completion bash)                      # in ~/.bashrc\n" +
			"source <(dryfit completion zsh)                       # in ~/.zshrc, after compinit\n" +
			"dryfit completion fish | source                       # in config.fish\n" +
			"dryfit completion powershell | Out-String | Invoke-Expression   # in the profile",
		run: runCompletion,
	}
}

func runCompletion(v *verb, args []string, w *world.World) int {
	f := v.flags()
	if code, done := v.parse(f, args, w); done {
		return code
	}
	if f.NArg() != 1 {
		return world.Complain(w, fmt.Errorf("completion wants one shell: %s", strings.Join(shells(), ", ")))
	}
	script, err := completionFiles.ReadFile("completion/" + f.Arg(0))
	if err != nil {
		text := fmt.Sprintf("there is no script for %q: there are %s", f.Arg(0), strings.Join(shells(), ", "))
		if near, ok := quantity.Nearest(f.Arg(0), shells()); ok {
			text = fmt.Sprintf("there is no script for %q; did you mean %q?", f.Arg(0), near)
		}
		return world.Complain(w, fmt.Errorf("%s", text))
	}
	return w.Write("-", script)
}

package main

import (
	"fmt"
	"go/build/constraint"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
)

// module is the path all packages of the house begin with.
const module = "dryfit"

// imports reads which packages of the house each of them imports, tests apart, on every
// system it is built for. Both are named by their folder under the root.
func imports(root string) (map[string][]string, error) {
	out := map[string][]string{}
	err := sources(root, func(path string) error {
		if strings.HasSuffix(path, "_test.go") {
			return nil
		}
		folder, err := filepath.Rel(root, filepath.Dir(path))
		if err != nil {
			return err
		}
		names, skip, err := importsOf(path)
		if err != nil || skip {
			return err
		}
		folder = filepath.ToSlash(folder)
		out[folder] = append(out[folder], names...)
		return nil
	})
	for p := range out {
		slices.Sort(out[p])
		out[p] = slices.Compact(out[p])
	}
	return out, err
}

// sources visits the files of Go under the root, tests too, and none of those that are data of a test.
func sources(root string, visit func(path string) error) error {
	return filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case d.IsDir():
			if name := d.Name(); path != root && (name == "testdata" || strings.HasPrefix(name, ".")) {
				return fs.SkipDir
			}
			return nil
		case !strings.HasSuffix(path, ".go"):
			return nil
		}
		return visit(path)
	})
}

// importsOf reads one file; skip says that no build has it.
func importsOf(path string) (names []string, skip bool, err error) {
	data, err := os.ReadFile(path)
	if err != nil {
		return nil, false, err
	}
	for _, line := range strings.Split(string(data), "\n") {
		if constraint.IsGoBuild(line) && strings.Contains(line, "ignore") {
			return nil, true, nil
		}
		if strings.HasPrefix(line, "package ") {
			break
		}
	}
	f, err := parser.ParseFile(token.NewFileSet(), path, data, parser.ImportsOnly)
	if err != nil {
		return nil, false, err
	}
	for _, im := range f.Imports {
		name, err := strconv.Unquote(im.Path.Value)
		if err != nil {
			return nil, false, fmt.Errorf("%s: %w", path, err)
		}
		if rest, ok := strings.CutPrefix(name, module+"/"); ok {
			names = append(names, rest)
		}
	}
	return names, false, nil
}

// needed leaves out imports that lead where others lead as well: what a package reaches by
// way of another of its imports.
func needed(all map[string][]string) map[string][]string {
	reach := map[string]map[string]bool{}
	var from func(p string) map[string]bool
	from = func(p string) map[string]bool {
		if reach[p] == nil {
			reach[p] = map[string]bool{}
			for _, q := range all[p] {
				reach[p][q] = true
				for r := range from(q) {
					reach[p][r] = true
				}
			}
		}
		return reach[p]
	}
	out := map[string][]string{}
	for p, list := range all {
		for _, q := range list {
			if !slices.ContainsFunc(list, func(o string) bool { return o != q && from(o)[q] }) {
				out[p] = append(out[p], q)
			}
		}
	}
	return out
}

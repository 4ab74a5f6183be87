package main

import (
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// mostFiles is how many files a room may hold, its tests not among them; the families of rules may be more.
const mostFiles = 24

// developers is the page for developers.
func developers(t *testing.T) string {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(root, "DEVELOPERS.md"))
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

var inTicks = regexp.MustCompile("`([^`]+)`")

// ticked returns what stands in backticks.
func ticked(text string) []string {
	var out []string
	for _, m := range inTicks.FindAllStringSubmatch(text, -1) {
		out = append(out, m[1])
	}
	return out
}

// rows returns the rooms of each row of the table of rooms, with what the row says to begin reading at. A
// name without a folder is of a room beside the one before it, or in it.
func rows(t *testing.T) (rooms, files [][]string) {
	t.Helper()
	_, table, _ := strings.Cut(developers(t), "| room | what lives there | begin reading at |\n")
	for line := range strings.Lines(table) {
		cells := strings.Split(line, " | ")
		if len(cells) != 3 {
			break
		}
		var of []string
		for _, name := range ticked(cells[0]) {
			if _, err := os.Stat(filepath.Join(root, name)); err != nil && len(of) > 0 {
				last := of[len(of)-1]
				if name = path.Join(path.Dir(last), name); !there(name) {
					name = path.Join(last, path.Base(name))
				}
			}
			of = append(of, name)
		}
		if len(of) > 0 {
			rooms, files = append(rooms, of), append(files, ticked(cells[2]))
		}
	}
	return rooms, files
}

func there(name string) bool {
	_, err := os.Stat(filepath.Join(root, name))
	return err == nil
}

// Every room has its row in the table, every row a room, and what it says to begin reading at is in it.
func TestEveryRoomIsInTheTable(t *testing.T) {
	rooms, files := rows(t)
	var told []string
	for i, of := range rooms {
		told = append(told, of...)
		for _, file := range files[i] {
			if !slices.ContainsFunc(of, func(room string) bool { return there(path.Join(room, file)) }) && !there(path.Join("render", file)) {
				t.Errorf("no %s in %v", file, of)
			}
		}
	}
	want := slices.Clone(forTests)
	for _, floor := range floors {
		want = append(want, floor...)
	}
	for _, room := range want {
		if n := len(slices.DeleteFunc(slices.Clone(told), func(name string) bool { return name != room })); n != 1 {
			t.Errorf("%s stands in %d rows", room, n)
		}
	}
	for _, room := range told {
		if !there(room) {
			t.Errorf("%s has a row and is no folder", room)
		}
	}
}

// No room but the rules' grows beyond what one looks through.
func TestRoomsStaySmall(t *testing.T) {
	rooms, _ := rows(t)
	for _, of := range rooms {
		for _, room := range of {
			all, err := filepath.Glob(filepath.Join(root, room, "*.go"))
			if err != nil {
				t.Fatal(err)
			}
			n := len(slices.DeleteFunc(all, func(name string) bool { return strings.HasSuffix(name, "_test.go") }))
			if n > mostFiles && room != "graph/rule" {
				t.Errorf("%s holds %d files: divide it, or join what is one idea", room, n)
			}
		}
	}
}

var (
	aFile = regexp.MustCompile(`^[\w./-]*\w\.(go|txt|toml|js|csv|svg|sh|tmpl|md)$`)
	aGo   = regexp.MustCompile(`go test (?:-count=1 )?\./(\S+)(.*)`)
	aName = regexp.MustCompile(`-(run|bench) (\w+)`)
)

// What the page names is there: its files, and the tests and benchmarks by which its figures are measured.
func TestWhatIsNamedIsThere(t *testing.T) {
	tests := map[string]string{} // of a folder
	var all []string
	err := filepath.WalkDir(root, func(name string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() && strings.HasPrefix(d.Name(), ".") && d.Name() != ".ci" && name != root {
			return fs.SkipDir
		}
		if d.IsDir() {
			return nil
		}
		rel, err := filepath.Rel(root, name)
		if err != nil {
			return err
		}
		all = append(all, "/"+filepath.ToSlash(rel))
		if strings.HasSuffix(name, "_test.go") {
			data, err := os.ReadFile(name)
			if err != nil {
				return err
			}
			tests[path.Dir(filepath.ToSlash(rel))] += string(data)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	files, names := 0, 0
	for _, word := range ticked(developers(t)) {
		if m := aGo.FindStringSubmatch(word); m != nil {
			for _, n := range aName.FindAllStringSubmatch(m[2], -1) {
				names++
				kind := map[string]string{"run": "Test", "bench": "Benchmark"}[n[1]]
				if !regexp.MustCompile(`func ` + kind + `\w*` + n[2]).MatchString(tests[m[1]]) {
					t.Errorf("no %s of a name with %s in %s: %s", kind, n[2], m[1], word)
				}
			}
			continue
		}
		if !aFile.MatchString(word) || strings.Contains(word, "NAME") {
			continue
		}
		files++
		if !slices.ContainsFunc(all, func(name string) bool { return strings.HasSuffix(name, "/"+word) }) {
			t.Errorf("%s is named and not there", word)
		}
	}
	if files < 100 || names < 15 {
		t.Errorf("only %d files and %d names were looked for", files, names)
	}
}

package rule_test

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/description"
	_ "dryfit/graph/lots" // garbage is collected seldom
	"dryfit/graph/patch"
	"dryfit/graph/plan"
	"dryfit/graph/rule"
)

// TestRules holds every rule against its cases: testdata/NAME/fail.patch and pass.patch, and
// further ones in fail-WHAT.patch and pass-WHAT.patch, each testdata/clean.toml with a change
// (see patched); one that has little of that is written out, with .toml in place of .patch. A
// line the rule speaks of says so:
//
//	id = "unit"  # want NAME "regexp of the message" `and of a second one on that line`
//
// done-WHAT.patch is fail-WHAT.patch once more changed, as its hint says (see testDone).
//
// What comes unwanted fails like what is missing. The plain failing case shows the rule at its heaviest;
// a passing one is a job with no error and no warning of any rule.
func TestRules(t *testing.T) {
	for _, r := range rule.All() {
		t.Run(r.Name, func(t *testing.T) {
			for _, file := range cases(t, r, "fail") {
				heaviest := testFail(t, r, file)
				if strings.HasPrefix(filepath.Base(file), "fail.") && heaviest != r.Severity || heaviest > r.Severity {
					t.Errorf("%s: heaviest finding is of severity %q, the rule says %q", file, heaviest, r.Severity)
				}
			}
			for _, file := range cases(t, r, "pass") {
				testPass(t, r, file)
			}
			done, _ := filepath.Glob(filepath.Join("testdata", r.Name, "done*"))
			for _, file := range done {
				testDone(t, r, file)
			}
		})
	}
}

// cases lists the failing or passing descriptions of a rule, the plain one first.
func cases(t *testing.T, r *rule.Rule, what string) []string {
	t.Helper()
	plain, err := filepath.Glob(filepath.Join("testdata", r.Name, what+".*"))
	if err != nil || len(plain) != 1 {
		t.Fatalf("%s: %d plain cases that %s: want %s.patch (%v)", r.Name, len(plain), what, what, err)
	}
	files, _ := filepath.Glob(filepath.Join("testdata", r.Name, what+"-*"))
	return append(plain, files...)
}

// testFail demands the wanted findings of a rule, those and no others, and returns the
// heaviest severity.
func testFail(t *testing.T, r *rule.Rule, file string) graph.Severity {
	t.Helper()
	got := of(r, findings(t, file))
	left := wants(t, file)
	if len(left) == 0 {
		t.Errorf("%s wants nothing", file)
	}
	heaviest := graph.Note
	for _, d := range got {
		heaviest = max(heaviest, d.Severity)
		at := slices.IndexFunc(left, func(w want) bool {
			return w.rule == r.Name && w.line == d.Pos.Line && w.message.MatchString(d.Message.String())
		})
		if at < 0 {
			t.Errorf("%s: unwanted %s: %s\n%s", d.Pos, d.Severity, d.Message, lineOf(t, file, d.Pos.Line))
			continue
		}
		left = slices.Delete(left, at, at+1)
		checkWords(t, d)
	}
	for _, w := range left {
		t.Errorf("%s:%d: no finding of %s matches %q\n%s", file, w.line, w.rule, w.message, lineOf(t, file, w.line))
	}
	return heaviest
}

func testPass(t *testing.T, r *rule.Rule, file string) {
	t.Helper()
	for _, d := range findings(t, file) {
		if d.Rule == r.Name || d.Severity > graph.Note {
			t.Errorf("%s: unwanted %s: %s [%s]\n%s", d.Pos, d.Severity, d.Message, d.Rule, lineOf(t, file, d.Pos.Line))
		}
	}
}

var hintComment = regexp.MustCompile("(?m)^# hint `(.*)`$")

// testDone does what the hint of a failing case says: the patch holds that hint, as a comment "# hint" at
// its head, and what is changed to follow it. The rule then has nothing left to say, and no error comes of it.
func testDone(t *testing.T, r *rule.Rule, file string) {
	t.Helper()
	fail := filepath.Join("testdata", r.Name, "fail"+strings.TrimPrefix(filepath.Base(file), "done"))
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	before := findings(t, fail)
	hints := hintComment.FindAllStringSubmatch(string(data), -1)
	if len(hints) == 0 {
		t.Errorf("%s says no hint", file)
	}
	for _, m := range hints {
		if says := regexp.MustCompile(m[1]); !slices.ContainsFunc(of(r, before), func(d graph.Diagnostic) bool { return says.MatchString(d.Hint.String()) }) {
			t.Errorf("%s: nobody says %q in\n%v", fail, m[1], of(r, before))
		}
	}
	text, err := patch.Over(string(read(t, fail)), string(data))
	if err != nil {
		t.Fatalf("%s:%v", file, err)
	}
	for _, d := range found(t, file, []byte(text), 0) {
		was := slices.ContainsFunc(before, func(e graph.Diagnostic) bool { return e.Rule == d.Rule && e.Message == d.Message })
		if d.Rule == r.Name || d.Severity == graph.Error && !was {
			t.Errorf("%s: once the hint is followed: %s: %s [%s]", file, d.Severity, d.Message, d.Rule)
		}
	}
}

// quoted and digit find a number outside of the names in quotes.
var quoted, digit = regexp.MustCompile(`"[^"]*"`), regexp.MustCompile(`\d`)

// checkWords holds a finding against the voice of all findings: no capital, no full stop,
// the number it has and the number it needs, what to do, and where the other half is.
func checkWords(t *testing.T, d graph.Diagnostic) {
	t.Helper()
	bare := quoted.ReplaceAllString(d.Message.String(), "")
	if !digit.MatchString(bare) {
		t.Errorf("%s: no number in %q", d.Pos, d.Message)
	}
	for _, text := range []string{d.Message.String(), d.Hint.String()} {
		if text == "" || strings.HasSuffix(text, ".") || strings.ToUpper(text[:1]) != strings.ToLower(text[:1]) && strings.ToUpper(text[:1]) == text[:1] {
			t.Errorf("%s: %q is empty, begins with a capital or ends in a full stop", d.Pos, text)
		}
	}
	for _, other := range d.Related {
		if !other.Pos.IsValid() || other.Message == "" {
			t.Errorf("%s: related place %+v is not known", d.Pos, other)
		}
	}
}

// TestRulesHaveTestdata demands a folder for each rule, a rule for each folder, and nothing in
// it that no test reads.
func TestRulesHaveTestdata(t *testing.T) {
	entries, err := os.ReadDir("testdata")
	if err != nil {
		t.Fatal(err)
	}
	var got, want []string
	for _, e := range entries {
		if e.IsDir() {
			got = append(got, e.Name())
		}
	}
	for _, r := range rule.All() {
		want = append(want, r.Name)
	}
	slices.Sort(want)
	for _, name := range want {
		if !slices.Contains(got, name) {
			t.Errorf("no folder testdata/%s", name)
		}
	}
	name := regexp.MustCompile(`^(fail|pass|done)(-[a-z]+)*\.(patch|toml)$`)
	for _, folder := range got {
		if !slices.Contains(want, folder) {
			t.Errorf("testdata/%s belongs to no rule", folder)
		}
		files, err := os.ReadDir(filepath.Join("testdata", folder))
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range files {
			if !name.MatchString(f.Name()) {
				t.Errorf("testdata/%s/%s is read by no test", folder, f.Name())
			}
		}
	}
}

// want is one finding a description asks for.
type want struct {
	line    int
	rule    string
	message *regexp.Regexp
}

var wantComment = regexp.MustCompile(`# want (\S+) (.*)$`)

// wants reads the comments of a description.
func wants(t *testing.T, file string) []want {
	t.Helper()
	var out []want
	for i, line := range strings.Split(string(read(t, file)), "\n") {
		m := wantComment.FindStringSubmatch(line)
		if m == nil {
			continue
		}
		for rest := m[2]; rest != ""; rest = strings.TrimSpace(rest) {
			prefix, err := strconv.QuotedPrefix(rest)
			if err != nil {
				t.Fatalf("%s:%d: %q: %v", file, i+1, rest, err)
			}
			text, _ := strconv.Unquote(prefix)
			out = append(out, want{i + 1, m[1], regexp.MustCompile(text)})
			rest = rest[len(prefix):]
		}
	}
	return out
}

// read returns a description: as it is written, or what a patch makes of clean.toml. Lines in
// findings of a patched one are those of what comes out: lineOf shows them.
func read(t *testing.T, file string) []byte {
	t.Helper()
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if filepath.Ext(file) != ".patch" {
		return data
	}
	text, err := patch.Over(string(read(t, filepath.Join("testdata", "clean.toml"))), string(data))
	if err != nil {
		t.Fatalf("%s:%v", file, err)
	}
	return []byte(text)
}

// lineOf is a line of a description, with those about it.
func lineOf(t *testing.T, file string, line int) string {
	t.Helper()
	lines := strings.Split(string(read(t, file)), "\n")
	if line < 1 || line > len(lines) {
		return ""
	}
	return strings.Join(lines[max(0, line-3):min(len(lines), line+1)], "\n")
}

// findings carries a description through the house, flows and all.
func findings(t *testing.T, file string) []graph.Diagnostic {
	t.Helper()
	if ds, ok := foundIn[file]; ok {
		return ds
	}
	ds := found(t, file, read(t, file), 0)
	foundIn[file] = ds
	return ds
}

// foundIn is what was found in files, for more than one test to look at.
var foundIn = map[string][]graph.Diagnostic{}

// found is findings of a description that is no file, with more or less of a plan made.
func found(t *testing.T, file string, data []byte, more plan.Want) []graph.Diagnostic {
	t.Helper()
	c, ds := description.Read(file, data)
	if c == nil {
		t.Fatalf("%s can't be read: %v", file, ds)
	}
	p, err := plan.Make(c, plan.Findings|plan.Flows|more)
	if err != nil {
		t.Fatal(err)
	}
	return slices.Concat(ds, p.Findings, p.Following)
}

// of returns the findings of one rule.
func of(r *rule.Rule, ds []graph.Diagnostic) []graph.Diagnostic {
	return slices.DeleteFunc(slices.Clone(ds), func(d graph.Diagnostic) bool { return d.Rule != r.Name })
}

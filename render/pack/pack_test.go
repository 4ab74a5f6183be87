package pack

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"errors"
	"html"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/lots"
	"dryfit/graph/plan"
	"dryfit/render/book"
	"dryfit/render/scene"
	"dryfit/render/tag"
)

var demos = []string{"circulation", "large-circulation", "plug-in", "plunge-pool", "two-speed"}

func planOf(t *testing.T, name string, source []byte) *plan.Plan {
	t.Helper()
	return wanted(t, name, source, Wants())
}

// solvedDemo is a demo without ranges and lists.
func solvedDemo(t *testing.T, name string) *plan.Plan {
	t.Helper()
	return wanted(t, name+".toml", readDemo(t, name), plan.Findings|plan.Flows)
}

func wanted(t *testing.T, name string, source []byte, want plan.Want) *plan.Plan {
	t.Helper()
	c, ds := description.Read(name, source)
	if c == nil {
		t.Fatalf("%s does not read: %v", name, ds)
	}
	p, err := plan.Make(c, want)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// jobPlan is the plan of a job of the plan's tests, made once.
func jobPlan(t *testing.T, name string) *plan.Plan {
	t.Helper()
	if demoPlans["job "+name] == nil {
		source, err := os.ReadFile(filepath.Join("..", "..", "graph", "plan", "testdata", "jobs", name+".toml"))
		if err != nil {
			t.Fatal(err)
		}
		demoPlans["job "+name] = planOf(t, name+".toml", source)
	}
	return demoPlans["job "+name]
}

// demoPlan is the plan of a demo, and demoPack its pack, each made once for all tests: none
// of them changes it.
func demoPlan(t *testing.T, name string) *plan.Plan {
	t.Helper()
	if demoPlans[name] == nil {
		demoPlans[name] = planOf(t, name+".toml", readDemo(t, name))
	}
	return demoPlans[name]
}

func demoPack(t *testing.T, name string) *Pack {
	t.Helper()
	if demoPacks[name] == nil {
		demoPacks[name] = makePack(t, demoPlan(t, name))
	}
	return demoPacks[name]
}

var demoPlans, demoPacks = map[string]*plan.Plan{}, map[string]*Pack{}

func makePack(t *testing.T, p *plan.Plan) *Pack {
	t.Helper()
	made, err := Make(p, Options{Units: quantity.MetricSystem})
	if err != nil {
		t.Fatal(err)
	}
	return made
}

func fileOf(t *testing.T, made *Pack, name string) []byte {
	t.Helper()
	for _, f := range made.Files {
		if f.Name == name {
			return f.Data
		}
	}
	t.Fatalf("the pack has no %s", name)
	return nil
}

// walk reads a page tag by tag: every element that opens is closed in its turn. It returns
// the ids, the links and the text.
func walk(t *testing.T, page []byte) (ids, links []string, text string) {
	t.Helper()
	void := []string{"meta", "br", "img", "hr", "input"}
	d := xml.NewDecoder(bytes.NewReader(page))
	d.Strict, d.Entity = false, xml.HTMLEntity
	var open []string
	var words strings.Builder
	scripts := 0
	for {
		token, err := d.RawToken()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		switch e := token.(type) {
		case xml.StartElement:
			switch e.Name.Local {
			case "iframe", "img":
				t.Errorf("the page has a <%s>", e.Name.Local)
			case "script": // the one the page's policy names by its hash
				if scripts++; scripts > 1 || len(e.Attr) > 0 {
					t.Errorf("script %d of the page, %v", scripts, e.Attr)
				}
			}
			for _, a := range e.Attr {
				switch name := strings.ToLower(a.Name.Local); {
				case name == "id":
					ids = append(ids, a.Value)
				case name == "href":
					links = append(links, a.Value)
				case strings.HasPrefix(name, "on"), name == "src":
					t.Errorf("<%s> has %s=%q", e.Name.Local, a.Name.Local, a.Value)
				}
			}
			if !slices.Contains(void, e.Name.Local) {
				open = append(open, e.Name.Local)
			}
		case xml.EndElement:
			if slices.Contains(void, e.Name.Local) {
				continue
			}
			if len(open) == 0 || open[len(open)-1] != e.Name.Local {
				t.Fatalf("</%s> closes %v", e.Name.Local, open)
			}
			open = open[:len(open)-1]
		case xml.CharData:
			words.Write(e)
			words.WriteByte(' ')
		}
	}
	if len(open) > 0 {
		t.Fatalf("left open: %v", open)
	}
	return ids, links, strings.Join(strings.Fields(words.String()), " ")
}

// fewDemos are the demos whose whole packs are made: a tub, a pool and a set of hoses, with -wide all.
func fewDemos() []string {
	return slices.DeleteFunc(slices.Clone(demos), func(name string) bool { return !lots.Named(name, "two-speed", "plunge-pool", "plug-in") })
}

// The page of every demo (but see fewDemos) closes what it opens, links only to places in itself, asks nothing
// of a network, and holds what a fitter takes to the tub.
func TestPage(t *testing.T) {
	for _, name := range fewDemos() {
		t.Run(name, func(t *testing.T) {
			p := demoPlan(t, name)
			made := demoPack(t, name)
			page := fileOf(t, made, "index.html")
			ids, links, text := walk(t, page)
			if len(links) < 8 {
				t.Errorf("%d links in the contents", len(links))
			}
			for _, l := range links {
				id, inside := strings.CutPrefix(l, "#")
				if inside && !slices.Contains(ids, id) || !inside && !slices.ContainsFunc(made.Files, func(f File) bool { return f.Name == l }) {
					t.Errorf("link %q leads nowhere in the page or the pack", l)
				}
			}
			for _, want := range []string{`content="default-src 'none'; style-src 'unsafe-inline'; img-src 'self'; script-src 'sha256-`} {
				if !strings.Contains(html.UnescapeString(string(page)), want) {
					t.Errorf("the page lacks %s", want)
				}
			}
			for _, ask := range []string{"url(", "@import", "http-equiv=\"refresh\""} {
				if bytes.Contains(page, []byte(ask)) {
					t.Errorf("the page holds %s", ask)
				}
			}
			for _, want := range []string{p.Circuit.Job.Name, "Before anybody starts", "Heating and set points", "For the electrician", "Order of work", "The answer", "For the owner", "What to look at each month", "Cut list", "Stock plan", "Parts",
				"What to bring", "Tools", "Consumables", "Valve schedule", "What to expect", "How sure", "Commissioning record", "When something is wrong", "Findings",
				"HOLD:", "The tub is out of use from", "How long the cement wants"} {
				if !strings.Contains(text, want) {
					t.Errorf("the page says nothing of %q", want)
				}
			}
			names := tag.Of(p.Circuit, p.Net())
			for _, j := range p.After.Layout.Joints {
				if blank := tag.Joint(j.Number) + " " + between(j, names); !strings.Contains(text, blank) {
					t.Errorf("joint %d, %s, has no blank in the record", j.Number, blank)
				}
			}
		})
	}
}

// A pack made again is the same to the byte, and where the description lies is no part of it.
func TestPackIsSame(t *testing.T) {
	a, b := demoPack(t, "plug-in"), makePack(t, planOf(t, "../far/away/plug-in.toml", readDemo(t, "plug-in")))
	if len(a.Files) != len(b.Files) {
		t.Fatalf("%d files, then %d", len(a.Files), len(b.Files))
	}
	for i := range a.Files {
		if a.Files[i].Name != b.Files[i].Name || !bytes.Equal(a.Files[i].Data, b.Files[i].Data) {
			t.Errorf("%s is not the same twice, or tells where the description lay", a.Files[i].Name)
		}
	}
	for _, f := range a.Files {
		if filepath.Base(f.Name) != f.Name {
			t.Errorf("%q names a folder", f.Name)
		}
	}
}

// Whatever a user writes, it is text in every file of the pack.
func TestUserTextIsInert(t *testing.T) {
	source := strings.NewReplacer(
		`name = "Five-seat tub, one two-speed pump"`, `name = "<script>alert(1)</script>"`,
		`reference = "demo-two-speed"`, `reference = "=HYPERLINK(1)"`,
		`notes = ["invented data: for trying the tool, not for building"]`, `notes = ["../../etc/passwd", "</style><script>alert(2)</script>", "<img src=x onerror=alert(3)>"]`,
		`prepared-by = "invented"`, `prepared-by = "\" onload=\"x"`,
		`"T-INV"`, `"=cmd|' /C x'!A0"`,
	).Replace(string(readDemo(t, "two-speed")))
	made := makePack(t, planOf(t, "../<b>.toml", []byte(source)))
	page := fileOf(t, made, "index.html")
	_, _, text := walk(t, page)
	for _, want := range []string{"<script>alert(1)</script>", "=HYPERLINK(1)", "../../etc/passwd", "<img src=x onerror=alert(3)>"} {
		if !strings.Contains(text, want) {
			t.Errorf("the page does not show %q as text", want)
		}
	}
	for _, f := range made.Files {
		if strings.ContainsAny(f.Name, `/\<>`) {
			t.Errorf("a file is named %q", f.Name)
		}
		switch filepath.Ext(f.Name) {
		case ".svg", ".html":
			if bytes.Count(f.Data, []byte("<script")) > 1 || bytes.Contains(f.Data, []byte("<script>alert")) || bytes.Contains(f.Data, []byte("<img")) {
				t.Errorf("%s holds a tag of the user's", f.Name)
			}
		case ".csv":
			if bytes.Contains(f.Data, []byte(",=")) || bytes.Contains(f.Data, []byte(",\"=")) || bytes.Contains(f.Data, []byte("\n=")) {
				t.Errorf("%s holds a formula", f.Name)
			}
		}
	}
}

// A name written with what joins letters stands on page and order as it is written; drawings and the book,
// whose font sets no letters together, leave the joiners out, and put no box for them.
func TestJoinersInEveryFile(t *testing.T) {
	const name, plain = "خانه\u200cها", "خانهها"
	source := strings.Replace(string(readDemo(t, "two-speed")), `name = "Five-seat tub, one two-speed pump"`, `name = "`+name+`"`, 1)
	seen := map[string]int{}
	for _, f := range makePack(t, planOf(t, "joined.toml", []byte(source))).Files {
		ext := filepath.Ext(f.Name)
		data := string(f.Data)
		if ext == ".xlsx" {
			data = unzipped(t, f.Data)
		}
		if strings.Contains(data, `x200c`) {
			t.Errorf("%s shows the number of a joiner", f.Name)
		}
		switch ext {
		case ".html", ".xlsx", ".json":
			if strings.Contains(data, name) {
				seen[ext]++
			}
		case ".svg":
			if strings.ContainsFunc(data, graph.Joiner) {
				t.Errorf("%s draws a joiner", f.Name)
			}
			if strings.Contains(data, plain) {
				seen[ext]++
			}
		}
	}
	for _, ext := range []string{".html", ".xlsx", ".json", ".svg"} {
		if seen[ext] == 0 {
			t.Errorf("no %s holds the name", ext)
		}
	}
	if got := scene.Visible(name); got != plain {
		t.Errorf("the book would set %q", got)
	}
}

// unzipped is what every file of an archive holds, one behind the other.
func unzipped(t *testing.T, data []byte) string {
	t.Helper()
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	var all strings.Builder
	for _, f := range z.File {
		r, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		if _, err := io.Copy(&all, r); err != nil {
			t.Fatal(err)
		}
	}
	return all.String()
}

func readDemo(t *testing.T, name string) []byte {
	t.Helper()
	source, err := os.ReadFile(filepath.Join("..", "..", "testdata", name+".toml"))
	if err != nil {
		t.Fatal(err)
	}
	return source
}

// An escape in a text of TOML reaches no file raw, whether or not the reader lets it in.
func TestControlCharacters(t *testing.T) {
	got := string(book.Inert([]byte("a\x1b[2Jb\tc\nd\u202ee\x00\u0085")))
	if want := "a\\x1b[2Jb\tc\nd\\x202ee\\x00\\x85"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	source := strings.Replace(string(readDemo(t, "two-speed")), `name = "Five-seat tub, one two-speed pump"`, `name = "red \u001b[31m tub"`, 1)
	c, ds := description.Read("escape.toml", []byte(source))
	if c == nil {
		if len(ds) == 0 {
			t.Fatal("refused without a word")
		}
		return
	}
	for _, f := range makePack(t, planOf(t, "escape.toml", []byte(source))).Files {
		if ext := filepath.Ext(f.Name); ext != ".png" && ext != ".pdf" && bytes.ContainsRune(f.Data, '\x1b') {
			t.Errorf("%s holds an escape", f.Name)
		}
	}
}

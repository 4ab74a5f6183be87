package pack

import (
	"bytes"
	"os"
	"strings"
	"testing"
)

// A job that nobody named has papers with a title all the same: that of its file, on the page,
// in the book and in every title block.
func TestNobodyNamedTheJob(t *testing.T) {
	source, err := os.ReadFile("../../testdata/plug-in.toml")
	if err != nil {
		t.Fatal(err)
	}
	name := []byte("name = \"Plug-in tub, unit in the return hose\"\n")
	if !bytes.Contains(source, name) {
		t.Fatal("the demo has another name")
	}
	made := makePack(t, planOf(t, "by-the-shed.toml", bytes.Replace(source, name, nil, 1)))
	if page := fileOf(t, made, "index.html"); !bytes.Contains(page, []byte("<title>by-the-shed: job pack</title>")) || !bytes.Contains(page, []byte("<h1>by-the-shed</h1>")) {
		t.Error("the page has no title")
	}
	drawings := 0
	for _, f := range made.Files {
		if !strings.HasSuffix(f.Name, ".svg") {
			continue
		}
		drawings++
		if !bytes.Contains(f.Data, []byte(">by-the-shed<")) {
			t.Errorf("the title block of %s names no job", f.Name)
		}
	}
	if drawings < 5 {
		t.Errorf("%d drawings were looked at", drawings)
	}
}

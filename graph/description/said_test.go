package description

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"dryfit/graph/said"
)

// saidElsewhere are words that no file of testdata/wrong can bring about well, and what does.
var saidElsewhere = map[string]string{
	"%s is %d bytes long; at most %d are read": "TestHostileFiles",
	"shorten it": "TestHostileFiles",
	"the file is %d bytes long; a description is at most %d":                                        "TestHostileFiles",
	"a description holds one tub; split the file":                                                   "TestHostileFiles",
	"a carriage return without a line feed":                                                         "TestHostileFiles",
	"end lines with LF or CR LF: save it again in the editor with the line ends of Windows or Unix": "TestHostileFiles",
	"it stands on papers: shorten it":                                                               "TestHostileFiles",
	"keep those that show what the drawings don't":                                                  "TestHostileFiles",
	"%d photos are more than the %d that go with a job":                                             "TestHostileFiles",
	"there are more than %d legs":                                                                   "TestHostileFiles",
	"a part of so many ports is several parts":                                                      "TestHostileFiles",
	"there are %d ports; at most %d are read":                                                       "TestHostileFiles",
	"leave out the speeds that are not used":                                                        "TestHostileFiles",
	"there are %d speeds; at most %d are read":                                                      "TestHostileFiles",
	"take several together":                                                                         "TestHostileFiles",
	"there are %d boxes to keep clear; at most %d are read":                                         "TestHostileFiles",
	"there are %d %s; at most %d are read":                                                          "TestHostileFiles",
	"this catalogue holds no rows":                                                                  "match.txtar",
	"[[catalog.KIND]] tables, such as [[catalog.pump]], each with its name; or leave the file out":  "match.txtar",
}

// TestEveryMistakeIsMade looks for all that the reader may have to say, and what it then asks for, among
// what it says of testdata/wrong: nobody has seen how what is missing there reads.
func TestEveryMistakeIsMade(t *testing.T) {
	goldens, err := filepath.Glob("testdata/wrong/*.golden")
	if err != nil || len(goldens) == 0 {
		t.Fatalf("%d goldens (%v)", len(goldens), err)
	}
	var all strings.Builder
	for _, g := range goldens {
		data, err := os.ReadFile(g)
		if err != nil {
			t.Fatal(err)
		}
		all.Write(data)
	}
	var texts []said.Text
	for _, dir := range []string{".", "field", "located", "pipework"} {
		texts = append(texts, said.Handed(t, dir, "Fail", "Add")...)
	}
	for _, wrong := range said.Hold(texts, all.String(), saidElsewhere) {
		t.Error(wrong)
	}
}

package hydraulic

import (
	"os"
	"path/filepath"
	"reflect"
	"testing"

	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/route/laying"
)

// What a sample keeps is what the whole report says of the same flows.
func TestBriefIsTheReport(t *testing.T) {
	files, _ := filepath.Glob("../../testdata/*.toml")
	if len(files) == 0 {
		t.Fatal("no demos")
	}
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		c, ds := description.Read(file, data)
		if c == nil {
			t.Fatalf("%s: %v", file, ds)
		}
		c = c.At(graph.Before)
		for _, mode := range c.AllModes() {
			m, err := Build(laying.Of(c), mode, graph.Before)
			if err != nil {
				t.Fatal(err)
			}
			f, err := m.flow(nil)
			if err != nil {
				t.Fatal(err)
			}
			whole, brief := m.report(f), m.brief(f, nil)
			for i, w := range whole.Parts {
				b := brief.Parts[i]
				if b.Part != w.Part || b.Flow != w.Flow || b.Drop != w.Drop || b.HeadM != w.HeadM || b.ShutOffPa != w.ShutOffPa {
					t.Errorf("%s, mode %q, %s: %+v, not %+v", file, mode.Name, w.Part.ID, b, w)
				}
			}
			room := m.brief(f, nil) // of another sample: nothing of that is left
			for i := range room.Parts {
				p := &room.Parts[i]
				*p = PartFlow{Flow: 7, Drop: 7, State: "shut", HeadM: 7, ShutOffPa: 7, MarginPa: 7, Legs: p.Legs}
				for k := range p.Legs {
					p.Legs[k] = LegFlow{Port: "other", Flow: 7, Drop: 7}
				}
			}
			for i := range room.Runs {
				room.Runs[i] = RunFlow{Flow: 7, Drop: 7, Suction: true}
			}
			if again := m.brief(f, room); !reflect.DeepEqual(again, brief) {
				t.Errorf("%s, mode %q: written into another's: %+v, not %+v", file, mode.Name, again, brief)
			}
			for i, w := range whole.Runs {
				if b := brief.Runs[i]; b.Run != w.Run || b.Flow != w.Flow || b.Drop != w.Drop {
					t.Errorf("%s, mode %q, %s: %+v, not %+v", file, mode.Name, w.Run.ID, b, w)
				}
			}
		}
	}
}

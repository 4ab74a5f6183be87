package live

import (
	"fmt"
	"net/http"
	"net/url"
	"os"
	"strings"
	"sync"
	"testing"

	"dryfit/graph/lots"
	"dryfit/graph/whatif"
)

// Pages ask, look and fetch while the file is saved again and again: everything is answered,
// and the race detector (.ci/run) finds nothing shared.
func TestManyAtOnce(t *testing.T) {
	t.Parallel()
	s := serve(t, "plug-in", noPapers)
	states := s.states(t)
	until(t, states, "the answer", settled)
	text, err := os.ReadFile(s.file)
	if err != nil {
		t.Fatal(err)
	}
	times := lots.Count(12, 6)
	var all sync.WaitGroup
	for page := range 3 {
		all.Go(func() {
			for i := range times {
				q := askedFor{Values: whatif.Values{"water": fmt.Sprint(20 + (page+i)%15)}}
				for _, path := range []string{"ask", "difference", "cost"} {
					if code, said := s.post(t, path, q); code != http.StatusOK {
						t.Errorf("%s: %d %s", path, code, said)
					}
				}
			}
		})
	}
	all.Go(func() {
		for range times {
			for _, path := range []string{"", "names", "explain", "about?id=" + url.QueryEscape("pump"), "section/none"} {
				if code, said := s.get(t, path); code >= http.StatusBadRequest {
					t.Errorf("%s: %d %s", path, code, said)
				}
			}
		}
	})
	for i := range times {
		save(t, s.file, strings.Replace(string(text), `temperature = "37 °C"`, fmt.Sprintf("temperature = \"%d °C\"", 30+i%5), 1))
		until(t, states, "the answer to a save", settled)
	}
	save(t, s.file, string(text)+"\n# the last\n")
	all.Wait()
	until(t, states, "the last save", func(st state) bool { return settled(st) && st.File == hashOf(string(text)+"\n# the last\n") })
}

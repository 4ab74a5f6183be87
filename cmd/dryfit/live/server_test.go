package live

import (
	"bufio"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"dryfit/catalog/quantity"
	"dryfit/cmd/dryfit/disk"
	"dryfit/graph"
	"dryfit/graph/lots"
	"dryfit/graph/plan"
	"dryfit/graph/whatif"
	"dryfit/render/live"
)

// served is a server under test.
type served struct {
	url, file string
	stop      func() // and waits for the end
}

// serve serves a copy of a demo. Papers are made in the test's own process.
func serve(t testing.TB, demo string, papers func(context.Context, Order, func([]live.Section)) error) *served {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("../../../testdata", demo+".toml"))
	if err != nil {
		t.Fatal(err)
	}
	return serveText(t, string(text), papers)
}

// serveText serves a description.
func serveText(t testing.TB, text string, papers func(context.Context, Order, func([]live.Section)) error) *served {
	t.Helper()
	return serveLoaded(t, text, papers, 0, func() {})
}

// serveLoaded serves a description with a patience for headers; each reading of it waits for something first.
func serveLoaded(t testing.TB, text string, papers func(context.Context, Order, func([]live.Section)) error, patience time.Duration, wait func()) *served {
	t.Helper()
	out := &served{file: filepath.Join(t.TempDir(), "job.toml")}
	save(t, out.file, text)
	at, err := Listen("127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	if papers == nil {
		papers = func(_ context.Context, o Order, got func([]live.Section)) error { return Make(o, got) }
	}
	cfg := Config{File: out.file, Papers: papers, Patience: patience, Load: func() (whatif.Job, []string, error) {
		wait()
		text, err := os.ReadFile(out.file)
		return whatif.Job{File: out.file, Text: text}, []string{out.file}, err
	}, Write: func(was, text []byte) error { return (&disk.Files{}).Replace(out.file, was, text) }}
	ctx, cancel := context.WithCancel(context.Background())
	done := make(chan error, 1)
	go func() { done <- New(cfg, NewDoor(at.Addr(), "")).Serve(ctx, at) }()
	out.stop = func() {
		cancel()
		select {
		case err := <-done:
			if err != nil {
				t.Error(err)
			}
			done <- nil
		case <-time.After(20 * time.Second):
			t.Fatal("the server does not end")
		}
	}
	t.Cleanup(out.stop)
	out.url = "http://" + at.Addr().String() + "/"
	return out
}

func noPapers(context.Context, Order, func([]live.Section)) error { return nil }

// save puts a file in the place of another, as editors do.
func save(t testing.TB, name, text string) {
	t.Helper()
	if err := os.WriteFile(name+"~", []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Rename(name+"~", name); err != nil {
		t.Fatal(err)
	}
}

// states follows the stream of events.
func (s *served) states(t testing.TB) <-chan state {
	t.Helper()
	ctx, cancel := context.WithCancel(context.Background())
	t.Cleanup(cancel)
	r, err := http.NewRequestWithContext(ctx, http.MethodGet, s.url+"events", nil)
	if err != nil {
		t.Fatal(err)
	}
	answer, err := http.DefaultClient.Do(r)
	if err != nil {
		t.Fatal(err)
	}
	out := make(chan state, 1000)
	go func() {
		defer func() { _ = answer.Body.Close() }()
		lines := bufio.NewScanner(answer.Body)
		lines.Buffer(nil, 1<<20)
		for lines.Scan() {
			data, ok := strings.CutPrefix(lines.Text(), "data: ")
			var st state
			if ok && json.Unmarshal([]byte(data), &st) == nil {
				out <- st
			}
		}
	}()
	return out
}

// until waits for a state.
func until(t testing.TB, states <-chan state, what string, is func(state) bool) state {
	t.Helper()
	limit := time.After(60 * time.Second)
	for {
		select {
		case st := <-states:
			if is(st) {
				return st
			}
		case <-limit:
			t.Fatalf("waited in vain: %s", what)
		}
	}
}

func (s *served) get(t testing.TB, path string) (int, string) {
	t.Helper()
	answer, err := http.Get(s.url + path) //nolint:noctx // of the test's own server
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = answer.Body.Close() }()
	data, err := io.ReadAll(answer.Body)
	if err != nil {
		t.Fatal(err)
	}
	return answer.StatusCode, string(data)
}

// text fetches a section of a state.
func (s *served) text(t testing.TB, st state, id string) string {
	t.Helper()
	for _, p := range st.Pieces {
		if p.ID == id {
			code, text := s.get(t, "section/"+p.Hash)
			if code == http.StatusOK {
				return text
			}
		}
	}
	return ""
}

func settled(st state) bool { return strings.HasPrefix(st.Text, "Everything") }

func hash(st state, id string) string {
	for _, p := range st.Pieces {
		if p.ID == id {
			return p.Hash
		}
	}
	return ""
}

// A page that is opened before the job has been read once hears so, in the form it goes through, and
// then the answer.
func TestOpenedBeforeTheFirstAnswer(t *testing.T) {
	t.Parallel()
	text, err := os.ReadFile("../../../testdata/plug-in.toml")
	if err != nil {
		t.Fatal(err)
	}
	read := make(chan struct{})
	s := serveLoaded(t, string(text), noPapers, 0, func() { <-read })
	states := s.states(t)
	first := until(t, states, "the first state", func(state) bool { return true })
	if first.Pieces == nil || len(first.Pieces) != 0 {
		t.Errorf("before the job is read its sections are %v: no list", first.Pieces)
	}
	close(read)
	until(t, states, "the answer", settled)
}

// A save changes what it is about and nothing else: the pump's curve the answer, a remark
// nothing at all, a price no drawing.
func TestSaveAndRedraw(t *testing.T) {
	t.Parallel()
	var drawn []string
	demo, err := os.ReadFile("../../../testdata/plug-in.toml")
	if err != nil {
		t.Fatal(err)
	}
	// the smallest demo with a year and what it costs
	s := serveText(t, string(demo)+"\n[climate]\nair = [\"3 °C\", \"3 °C\", \"6 °C\", \"10 °C\", \"14 °C\", \"17 °C\", \"19 °C\", \"19 °C\", \"15 °C\", \"11 °C\", \"6 °C\", \"3 °C\"]\n[tariff]\nprice = \"0.31\"\n", func(_ context.Context, o Order, got func([]live.Section)) error {
		drawn = nil
		return Make(o, func(ss []live.Section) {
			for _, one := range ss {
				if one.Key != "" {
					drawn = append(drawn, one.ID)
				}
			}
			got(ss)
		})
	})
	states := s.states(t)
	first := until(t, states, "the papers", settled)
	if len(drawn) < 8 {
		t.Errorf("drawn at first: %v", drawn)
	}
	answer := s.text(t, first, "chapter-answer")
	if !strings.Contains(answer, "the heat pump gets 2.1\u00a0m3/h") || !strings.Contains(s.text(t, first, "drawing-schematic"), "<svg") {
		t.Errorf("the page says %s", answer)
	}
	text, err := os.ReadFile(s.file)
	if err != nil {
		t.Fatal(err)
	}

	changed := strings.Replace(string(text), `["2 m3/h", "2 m"]`, `["2 m3/h", "1.4 m"]`, 1)
	save(t, s.file, changed)
	until(t, states, "another answer", func(st state) bool { return hash(st, "chapter-answer") != hash(first, "chapter-answer") })
	second := until(t, states, "the papers again", settled)
	if hash(second, "drawing-isometric") != hash(first, "drawing-isometric") {
		t.Error("another curve of the pump draws another isometric")
	}
	if hash(second, "drawing-curves") == hash(first, "drawing-curves") {
		t.Error("another curve of the pump draws the same curves")
	}

	third := strings.Replace(changed, `price = "0.31"`, `price = "0.93"`, 1)
	save(t, s.file, third)
	until(t, states, "the answer with another price", func(st state) bool { return strings.Contains(st.Text, "follow") })
	last := until(t, states, "the papers of another price", settled)
	if len(drawn) != 1 || drawn[0] != "drawing-year" {
		t.Errorf("the price of power draws %v anew", drawn)
	}

	save(t, s.file, "# a remark\n"+third)
	same := until(t, states, "a remark", settled)
	for _, p := range last.Pieces {
		if p.ID != "findings" && hash(same, p.ID) != p.Hash { // the findings show lines of the file
			t.Errorf("a remark changes %s", p.ID)
		}
	}
}

// While the file has errors the last good page stays, marked as old, with the error and its
// line; mended, it is as it was.
func TestErrorTypedAndMended(t *testing.T) {
	t.Parallel()
	s := serve(t, "plug-in", noPapers)
	states := s.states(t)
	good := until(t, states, "the answer", func(st state) bool { return !st.Broken && len(st.Pieces) > 2 })
	text, err := os.ReadFile(s.file)
	if err != nil {
		t.Fatal(err)
	}
	wrong := strings.Replace(string(text), `kind = "pump"`, `kind = "pmup" # <script>alert(1)</script>`, 1)
	save(t, s.file, wrong)
	bad := until(t, states, "the error", func(st state) bool { return st.Broken })
	found := s.text(t, bad, "findings")
	if !bad.Old || !strings.Contains(found, "pmup") || !strings.Contains(found, `class="meant"`) || strings.Contains(found, "<script>") {
		t.Errorf("old %t, %s", bad.Old, found)
	}
	if hash(bad, "chapter-answer") != hash(good, "chapter-answer") {
		t.Error("the last good answer is gone")
	}
	if err := os.Remove(s.file); err != nil {
		t.Fatal(err)
	}
	until(t, states, "the file gone", func(st state) bool {
		return st.Broken && strings.Contains(st.Text, "job.toml") && !strings.Contains(st.Text, "error")
	})
	save(t, s.file, wrong)
	until(t, states, "the error again", func(st state) bool { return st.Broken && strings.Contains(st.Text, "1 error") })
	save(t, s.file, string(text))
	mended := until(t, states, "the error mended", func(st state) bool { return !st.Broken })
	if mended.Old || hash(mended, "findings") != hash(good, "findings") {
		t.Error("mended, the page is not as it was")
	}
}

// Papers that are still being made when the file goes are given up: nobody says then that the
// page is what the file says.
func TestFileGoneWhilePapersAreMade(t *testing.T) {
	t.Parallel()
	begun, ended := make(chan struct{}), make(chan struct{})
	s := serve(t, "plug-in", func(ctx context.Context, _ Order, _ func([]live.Section)) error {
		close(begun)
		<-ctx.Done()
		close(ended)
		return ctx.Err()
	})
	states := s.states(t)
	<-begun
	if err := os.Remove(s.file); err != nil {
		t.Fatal(err)
	}
	until(t, states, "the file gone", func(st state) bool { return st.Broken && st.Old })
	select {
	case <-ended:
	case <-time.After(20 * time.Second):
		t.Error("the papers are made on")
	}
}

// A remark that may wait is no blank.
func TestBlanksAreCounted(t *testing.T) {
	blank := graph.Diagnostic{Severity: graph.Error, Blank: true, Message: graph.Say("%q is still blank", "length")}
	note := graph.Diagnostic{Severity: graph.Warning, Message: graph.Say("something else")}
	wrong := graph.Diagnostic{Severity: graph.Error, Message: graph.Say("something else")}
	for _, c := range []struct {
		found []graph.Diagnostic
		want  int
	}{{[]graph.Diagnostic{blank, note, blank}, 2}, {[]graph.Diagnostic{blank, wrong}, 0}, {[]graph.Diagnostic{note}, 0}} {
		if got := blanksIn(c.found); got != c.want {
			t.Errorf("%v: %d, want %d", c.found, got, c.want)
		}
	}
}

// Of pages that put something into the same file at once one is heard, and the others are told
// that it was changed meanwhile.
func TestPutAtOnce(t *testing.T) {
	t.Parallel()
	s := serve(t, "plug-in", noPapers)
	shown := until(t, s.states(t), "the answer", settled)
	var all sync.WaitGroup
	codes := make([]int, 8)
	for i := range codes {
		all.Go(func() {
			codes[i], _ = s.post(t, "put", askedFor{Values: whatif.Values{"water": fmt.Sprint(20 + i)}, Text: shown.File})
		})
	}
	all.Wait()
	heard := slices.Index(codes, http.StatusOK)
	for i, code := range codes {
		if want := http.StatusConflict; i != heard && code != want {
			t.Errorf("put %d: %d, want %d; the one heard is %d", i, code, want, heard)
		}
	}
	if now, err := os.ReadFile(s.file); heard < 0 || err != nil || !strings.Contains(string(now), fmt.Sprintf(`temperature = "%d °C"`, 20+heard)) {
		t.Errorf("%v: the file does not hold what was heard, %d", codes, heard)
	}
}

// Two pages see the same, and neither waits for the other.
func TestTwoPages(t *testing.T) {
	t.Parallel()
	s := serve(t, "plug-in", noPapers)
	one, two := s.states(t), s.states(t)
	a := until(t, one, "one page", settled)
	b := until(t, two, "the other", settled)
	if hash(a, "chapter-answer") != hash(b, "chapter-answer") || hash(a, "chapter-answer") == "" {
		t.Error("two pages differ")
	}
}

// Nothing is served but what the page is made of.
func TestNothingElseIsServed(t *testing.T) {
	t.Parallel()
	s := serve(t, "plug-in", noPapers)
	until(t, s.states(t), "the answer", settled)
	for _, path := range []string{"job.toml", "../job.toml", "%2e%2e/job.toml", "section/../../job.toml", "section/none", "live.js/", "etc/passwd", "events/x"} {
		if code, text := s.get(t, path); code == http.StatusOK || strings.Contains(text, "[[part]]") {
			t.Errorf("%s: %d", path, code)
		}
	}
	for path, want := range map[string]string{"": "<main", "live.css": "body {", "live.js": "EventSource"} {
		if code, text := s.get(t, path); code != http.StatusOK || !strings.Contains(text, want) {
			t.Errorf("/%s: %d", path, code)
		}
	}
}

// A connection that never finishes its request is ended once patience is, and a header without end
// refused.
func TestPatienceEnds(t *testing.T) {
	t.Parallel()
	const patience = 300 * time.Millisecond
	text, err := os.ReadFile("../../../testdata/plug-in.toml")
	if err != nil {
		t.Fatal(err)
	}
	s := serveLoaded(t, string(text), noPapers, patience, func() {})
	until(t, s.states(t), "the answer", settled)
	host := strings.TrimSuffix(strings.TrimPrefix(s.url, "http://"), "/")
	c, err := net.Dial("tcp", host) //nolint:noctx // of the test's own server
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = c.Close() }()
	_, _ = io.WriteString(c, "GET / HTTP/1.1\r\nHost: "+host+"\r\nX: "+strings.Repeat("x", 2*mostHeader)+"\r\n\r\n")
	_ = c.SetReadDeadline(time.Now().Add(10 * time.Second))
	line, _ := bufio.NewReader(c).ReadString('\n')
	if !strings.Contains(line, "431") {
		t.Errorf("a header of %d bytes: %q", 2*mostHeader, line)
	}
	began := time.Now()
	slow, err := net.Dial("tcp", host) //nolint:noctx // of the test's own server
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = slow.Close() }()
	_, _ = io.WriteString(slow, "GET / HTTP/1.1\r\n")
	_ = slow.SetReadDeadline(time.Now().Add(patience + 10*time.Second))
	if _, err := io.ReadAll(slow); err != nil && os.IsTimeout(err) {
		t.Error("a request that never ends is waited for")
	}
	if waited := time.Since(began); waited < patience {
		t.Errorf("a request is waited for %v, not %v", waited, patience)
	}
	if headerTime <= patience || headerTime > requestTime {
		t.Errorf("where nobody says how long, a header is waited for %v", headerTime)
	}
}

// Saves without end leave no goroutine behind and little memory; the page ends on the last. What
// were kept of each, a plan, would be too much after the two hundred of the suite, too; -wide saves
// a thousand times. It runs alone, for it counts what is of the whole process.
func TestSavesWithoutEnd(t *testing.T) {
	s := serve(t, "plug-in", noPapers)
	states := s.states(t)
	until(t, states, "the answer", settled)
	text, err := os.ReadFile(s.file)
	if err != nil {
		t.Fatal(err)
	}
	measure := func() (int, uint64) {
		runtime.GC()
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		return runtime.NumGoroutine(), m.HeapInuse
	}
	head := func(n int) string {
		return strings.Replace(string(text), `reference = "demo-plug-in"`, `reference = "save `+strings.Repeat("i", n%7)+`"`, 1)
	}
	if !strings.Contains(head(1), "save i") {
		t.Fatal("the demo has no reference")
	}
	tasks, heap := measure()
	for i := range lots.Count(1000, 200) {
		save(t, s.file, head(i))
		if i%20 == 0 {
			time.Sleep(25 * time.Millisecond) // let some be seen
		}
	}
	save(t, s.file, strings.Replace(head(1), "save i", "the last save", 1))
	last := until(t, states, "the last save", func(st state) bool { return settled(st) && strings.Contains(s.text(t, st, "head"), "the last save") })
	if last.Broken {
		t.Error("broken")
	}
	time.Sleep(100 * time.Millisecond)
	after, more := measure()
	if after > tasks+3 {
		t.Errorf("%d goroutines, %d before", after, tasks)
	}
	if more > heap+32<<20 {
		t.Errorf("%d MB of heap, %d before", more>>20, heap>>20)
	}
	began := time.Now()
	s.stop()
	if took := time.Since(began); took > 2*time.Second {
		t.Errorf("ending took %v", took)
	}
}

// post asks the server as its own page does.
func (s *served) post(t testing.TB, path string, q askedFor, header ...string) (int, string) {
	t.Helper()
	data, err := json.Marshal(q)
	if err != nil {
		t.Fatal(err)
	}
	r, err := http.NewRequestWithContext(t.Context(), http.MethodPost, s.url+path, strings.NewReader(string(data)))
	if err != nil {
		t.Fatal(err)
	}
	r.Header.Set("Content-Type", "application/json")
	r.Header.Set("Origin", strings.TrimSuffix(s.url, "/"))
	for i := 0; i+1 < len(header); i += 2 {
		r.Header.Set(header[i], header[i+1])
	}
	answer, err := http.DefaultClient.Do(r)
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = answer.Body.Close() }()
	text, err := io.ReadAll(answer.Body)
	if err != nil {
		t.Fatal(err)
	}
	return answer.StatusCode, string(text)
}

// What is turned is answered, shown as a difference and put into the file, all by the page
// alone; what the file says by then is never lost.
func TestPutIntoTheFile(t *testing.T) {
	t.Parallel()
	s := serve(t, "plug-in", noPapers)
	states := s.states(t)
	until(t, states, "the answer", settled)
	was, err := os.ReadFile(s.file)
	if err != nil {
		t.Fatal(err)
	}
	turn := askedFor{Values: whatif.Values{"water": "33"}}
	code, text := s.post(t, "ask", turn)
	if code != http.StatusOK || !strings.Contains(text, "m3/h") {
		t.Errorf("asked: %d %s", code, text)
	}
	for what, c := range map[string]struct {
		code   int
		q      askedFor
		header []string
	}{
		"a foreign page":      {http.StatusForbidden, turn, []string{"Origin", "http://tubs.example"}},
		"a form":              {http.StatusUnsupportedMediaType, turn, []string{"Content-Type", "text/plain"}},
		"nothing to turn":     {http.StatusBadRequest, askedFor{Values: whatif.Values{"x": "1"}}, nil},
		"a value beyond":      {http.StatusBadRequest, askedFor{Values: whatif.Values{"water": "1e9"}}, nil},
		"a value with TOML":   {http.StatusBadRequest, askedFor{Values: whatif.Values{"water": "33 °C\"\nevil = \"1"}}, nil},
		"a question too long": {http.StatusBadRequest, askedFor{Values: whatif.Values{"water": strings.Repeat("3", mostQuestion)}}, nil},
	} {
		for _, path := range []string{"ask", "put"} {
			c.q.Text = hashOf(string(was))
			if got, text := s.post(t, path, c.q, c.header...); got != c.code {
				t.Errorf("%s, %s: %d %s", path, what, got, text)
			}
		}
	}
	code, text = s.post(t, "difference", turn)
	var shown told
	if err := json.Unmarshal([]byte(text), &shown); err != nil || code != http.StatusOK || !shown.Can || strings.Count(shown.HTML, `class="new"`) != 1 || !strings.Contains(shown.HTML, "33 °C") {
		t.Errorf("the difference: %d %s", code, text)
	}
	if code, _ := s.post(t, "put", askedFor{Values: turn.Values, Text: "another"}); code != http.StatusConflict {
		t.Errorf("put into a file that was not seen: %d", code)
	}
	if code, text := s.post(t, "fill", askedFor{Path: []any{"part", 1.5, "id"}, Value: "x", Text: shown.Text}); code != http.StatusBadRequest {
		t.Errorf("the part between the second and the third was filled in: %d %s", code, text)
	}
	if now, _ := os.ReadFile(s.file); string(now) != string(was) {
		t.Error("refused, and the file is another all the same")
	}
	if code, text := s.post(t, "put", askedFor{Values: turn.Values, Text: shown.Text}); code != http.StatusOK {
		t.Fatalf("put: %d %s", code, text)
	}
	now, _ := os.ReadFile(s.file)
	want := strings.Replace(string(was), `temperature = "37 °C"`, `temperature = "33 °C"`, 1)
	if want == string(was) || string(now) != want {
		t.Errorf("the file is\n%s", now)
	}
	until(t, states, "the file with the value in it", func(st state) bool { return settled(st) && hash(st, "side-turn") != "" })
}

// A photo of the job is sent under the name it has in a pack, and nothing else is.
func TestPhotosAreServed(t *testing.T) {
	s := New(Config{File: "job.toml"}, NewDoor(addr(t, "127.0.0.1:8080"), ""))
	s.keep(&current{job: whatif.Job{File: "job.toml", Photos: []whatif.File{{Name: "cabinet.jpg", Data: []byte("a picture")}}}})
	for path, want := range map[string]int{"photo-1.jpg": http.StatusOK, "photo-2.jpg": http.StatusNotFound, "cabinet.jpg": http.StatusNotFound} {
		r, err := http.NewRequestWithContext(t.Context(), http.MethodGet, "http://127.0.0.1:8080/"+path, nil)
		if err != nil {
			t.Fatal(err)
		}
		w := httptest.NewRecorder()
		s.door.guard(s.routes()).ServeHTTP(w, r)
		if w.Code != want || want == http.StatusOK && (w.Body.String() != "a picture" || w.Header().Get("Content-Type") != "image/jpeg") {
			t.Errorf("%s: %d %q, want %d", path, w.Code, w.Body, want)
		}
	}
}

// Where others can look on nothing is written, whoever asks.
func TestNothingIsWrittenOverANetwork(t *testing.T) {
	d := NewDoor(addr(t, "0.0.0.0:8080"), "")
	s := New(Config{File: "job.toml", Write: func(_, _ []byte) error { t.Error("written"); return nil }}, d)
	text, err := os.ReadFile("../../../testdata/plug-in.toml")
	if err != nil {
		t.Fatal(err)
	}
	job := whatif.Job{File: "job.toml", Text: text}
	p, _ := job.Plan(plan.Flows)
	s.keep(&current{job: job, plan: p, study: whatif.Of(job, p)})
	r, err := http.NewRequestWithContext(t.Context(), http.MethodPost, "http://x/put", nil)
	if err != nil {
		t.Fatal(err)
	}
	r.RemoteAddr = "127.0.0.1:1"
	if _, err := s.put(r, s.last(), askedFor{Values: whatif.Values{"water": "33"}, Text: hashOf(string(text))}); err == nil {
		t.Error("written over a network")
	}
	if s.writes() {
		t.Error("the page offers to write")
	}
}

// Five pages, each with a hand at another control that goes to and fro over it, ten times a
// second: no two ask the same. Every question is answered. How long the middle one takes is what
// is measured, with memory tidied as seldom as serve has it.
func BenchmarkFivePages(b *testing.B) {
	defer debug.SetGCPercent(debug.SetGCPercent(Tidy))
	s := serve(b, "two-speed", noPapers)
	until(b, s.states(b), "the answer", settled)
	took := make(chan time.Duration, 5*b.N)
	turn := []struct {
		id              string
		low, high, step float64
	}{{"drop-unit", 50, 200, 1.7}, {"water", 15, 39.9, 0.13}, {"jets-open", 30, 100, 0.37}, {"dirt-filter", 1, 3, 0.011}, {"speed-pump-high", 60, 110, 0.23}}
	b.ResetTimer()
	var all sync.WaitGroup
	for _, t := range turn {
		all.Go(func() {
			tick := time.NewTicker(100 * time.Millisecond)
			defer tick.Stop()
			at, step := t.low, t.step
			for range b.N {
				<-tick.C
				if at+step > t.high || at+step < t.low {
					step = -step * 0.93
				}
				at += step
				began := time.Now()
				code, text := s.post(b, "ask", askedFor{Values: whatif.Values{t.id: quantity.Trim(quantity.Round(at, 3))}})
				if code != http.StatusOK {
					b.Error(code, text)
				}
				took <- time.Since(began)
			}
		})
	}
	all.Wait()
	close(took)
	var list []time.Duration
	for d := range took {
		list = append(list, d)
	}
	slices.Sort(list)
	b.ReportMetric(float64(list[len(list)/2].Microseconds())/1000, "ms-median")
	b.ReportMetric(float64(list[len(list)*95/100].Microseconds())/1000, "ms-95%")
}

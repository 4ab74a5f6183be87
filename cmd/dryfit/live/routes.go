package live

import (
	"encoding/json"
	"fmt"
	"net/http"
	"path/filepath"
	"time"

	"dryfit/render/live"
	"dryfit/render/pack"
)

// routes are all the paths there are.
func (s *Server) routes() http.Handler {
	mux := http.NewServeMux()
	mux.HandleFunc("GET /{$}", s.frame)
	mux.HandleFunc("GET /live.css", fixed("text/css; charset=utf-8", live.Style()))
	mux.HandleFunc("GET /live.js", fixed("text/javascript; charset=utf-8", live.Script()))
	mux.HandleFunc("GET /events", s.events())
	mux.HandleFunc("GET /section/{hash}", s.section)
	mux.HandleFunc("GET /{photo}", s.photo)
	mux.HandleFunc("GET /names", s.names)
	mux.HandleFunc("GET /about", s.about)
	mux.HandleFunc("GET /explain", s.explain)
	mux.HandleFunc("POST /ask", s.question(s.ask))
	mux.HandleFunc("POST /cost", s.question(s.oneAtATime(s.cost)))
	mux.HandleFunc("POST /mend", s.question(s.oneAtATime(s.mend)))
	mux.HandleFunc("GET /favicon.ico", func(w http.ResponseWriter, _ *http.Request) { w.WriteHeader(http.StatusNoContent) }) // browsers ask; the page has none
	mux.HandleFunc("POST /difference", s.question(s.difference))
	mux.HandleFunc("POST /put", s.question(s.put))
	mux.HandleFunc("POST /fill", s.question(s.fill))
	mux.HandleFunc("POST /open", s.question(s.open))
	mux.HandleFunc("POST /begin", s.question(s.begin))
	return mux
}

func fixed(kind string, data []byte) http.HandlerFunc {
	return func(w http.ResponseWriter, _ *http.Request) { answer(w, kind, data) }
}

// answer sends a whole answer, within the time an answer may take.
func answer(w http.ResponseWriter, kind string, data []byte) {
	_ = http.NewResponseController(w).SetWriteDeadline(time.Now().Add(answerTime))
	w.Header().Set("Content-Type", kind)
	_, _ = w.Write(data) // who does not wait for it loses nothing
}

func (s *Server) frame(w http.ResponseWriter, _ *http.Request) {
	page, err := live.Frame{Title: s.title(), Writes: s.writes()}.HTML()
	if err != nil {
		http.Error(w, err.Error(), http.StatusInternalServerError)
		return
	}
	answer(w, "text/html; charset=utf-8", page)
}

// title is what the browser calls the page.
func (s *Server) title() string {
	if c := s.last(); c != nil {
		return filepath.Base(c.job.File)
	}
	if s.cfg.File == "" {
		return "A new job"
	}
	return filepath.Base(s.cfg.File)
}

// writes reports whether values may be put into the file from the page.
func (s *Server) writes() bool { return s.cfg.Write != nil && s.door.Private() }

func (s *Server) section(w http.ResponseWriter, r *http.Request) {
	now, _ := s.board.newest()
	text, ok := now.texts[r.PathValue("hash")]
	if !ok {
		w.WriteHeader(http.StatusNoContent) // there is a newer one, of which the page hears next
		return
	}
	answer(w, "text/html; charset=utf-8", []byte(text))
}

// How often a silent stream says that it is there, and how long a write to it may take.
const (
	breath     = 15 * time.Second
	streamTime = 10 * time.Second
)

// events is a stream of states, the newest at once and every newer one as it comes; those that
// came while one was being sent are left out.
func (s *Server) events() http.HandlerFunc {
	room := make(chan struct{}, mostStreams)
	return func(w http.ResponseWriter, r *http.Request) {
		select {
		case room <- struct{}{}:
			defer func() { <-room }()
		default:
			http.Error(w, "too many pages are open", http.StatusServiceUnavailable)
			return
		}
		to := http.NewResponseController(w)
		_ = to.SetReadDeadline(time.Time{}) // the stream outlives the time a request may take
		w.Header().Set("Content-Type", "text/event-stream")
		alive := time.NewTicker(breath)
		defer alive.Stop()
		send := func(text string) bool {
			_ = to.SetWriteDeadline(time.Now().Add(streamTime))
			_, err := fmt.Fprint(w, text)
			return err == nil && to.Flush() == nil
		}
		for {
			now, fresh := s.board.newest()
			data, err := json.Marshal(now)
			if err != nil || !send("event: state\ndata: "+string(data)+"\n\n") {
				return
			}
			for waiting := true; waiting; {
				select {
				case <-r.Context().Done():
					return
				case <-fresh:
					waiting = false
				case <-alive.C:
					if !send(": still here\n\n") {
						return
					}
				}
			}
		}
	}
}

// photo sends a picture of the job, by the name its file has in a pack.
func (s *Server) photo(w http.ResponseWriter, r *http.Request) {
	if c := s.last(); c != nil {
		for i, f := range c.job.Photos {
			if r.PathValue("photo") == pack.PhotoFile(i) {
				answer(w, "image/jpeg", f.Data)
				return
			}
		}
	}
	http.NotFound(w, r)
}

// names lists what can be looked at.
func (s *Server) names(w http.ResponseWriter, _ *http.Request) {
	c := s.last()
	if c == nil || c.study == nil {
		answer(w, "application/json", []byte("[]"))
		return
	}
	data, err := live.NamesJSON(c.study)
	if err != nil {
		http.Error(w, err.Error(), http.StatusInternalServerError)
		return
	}
	answer(w, "application/json", data)
}

// about says what is known of one thing of the job.
func (s *Server) about(w http.ResponseWriter, r *http.Request) {
	c := s.last()
	if c == nil || c.study == nil {
		http.Error(w, "the file has errors: mend them first", http.StatusConflict)
		return
	}
	text, ok := live.AboutHTML(c.study, r.URL.Query().Get("id"))
	if !ok {
		http.Error(w, "there is no such thing in the job", http.StatusNotFound)
		return
	}
	answer(w, "text/html; charset=utf-8", []byte(text))
}

// explain says how the numbers of the page are come by.
func (s *Server) explain(w http.ResponseWriter, _ *http.Request) {
	data, err := live.ExplanationsJSON()
	if err != nil {
		http.Error(w, err.Error(), http.StatusInternalServerError)
		return
	}
	answer(w, "application/json", data)
}

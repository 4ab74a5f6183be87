package live

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"net"
	"net/http"
	"net/netip"

	"dryfit/catalog/quantity"
	"dryfit/graph/plan"
	"dryfit/graph/whatif"
	"dryfit/render/live"
)

// askedFor is what a page asks: what is turned, and of which text.
type askedFor struct {
	Values whatif.Values `json:"values"`
	Text   string        `json:"text"` // of the file, by its hash; "" where that does not matter

	Path    []any  `json:"path"`    // to a value of the file
	Value   string `json:"value"`   // typed for it
	Circuit string `json:"circuit"` // to begin with
	Name    string `json:"name"`    // of its file
}

// told is the answer.
type told struct {
	HTML string `json:"html"`
	Cut  string `json:"cut,omitempty"` // the place of the cut, with what is turned
	Text string `json:"text"`          // of the file it is about, by its hash

	Stand map[string]string `json:"stand,omitempty"` // where scales stand that follow what is turned; "": there is nothing to turn any more
	Can   bool              `json:"can,omitempty"`   // there is something to put into the file
}

// refusal is an error with what a browser is to make of it.
type refusal struct {
	code  int
	words string
}

func (r *refusal) Error() string { return r.words }

// mostQuestion is how long a question may be, bytes.
const mostQuestion = 16 << 10

// question lets a question in: as JSON, not too long, while there is room to work it out.
func (s *Server) question(answerTo func(r *http.Request, c *current, q askedFor) (told, error)) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		if r.Header.Get("Content-Type") != "application/json" {
			http.Error(w, "a question is JSON", http.StatusUnsupportedMediaType)
			return
		}
		var q askedFor
		in := json.NewDecoder(http.MaxBytesReader(w, r.Body, mostQuestion))
		in.DisallowUnknownFields()
		if err := in.Decode(&q); err != nil {
			http.Error(w, "the question can't be read", http.StatusBadRequest)
			return
		}
		for i, step := range q.Path { // JSON has one kind of number
			if n, ok := step.(float64); ok && n == math.Trunc(n) {
				q.Path[i] = int(n)
			}
		}
		c := s.last()
		if c == nil {
			c = &current{}
		}
		out, err := s.careful(func() (told, error) { return answerTo(r, c, q) })
		var no *refusal
		switch {
		case errors.As(err, &no):
			http.Error(w, no.words, no.code)
			return
		case err != nil:
			http.Error(w, err.Error(), http.StatusBadRequest)
			return
		}
		out.Text = hashOf(string(c.job.Text))
		var data bytes.Buffer
		to := json.NewEncoder(&data)
		to.SetEscapeHTML(false) // it is no part of a page: nothing in it is read as one
		if err := to.Encode(out); err != nil {
			http.Error(w, err.Error(), http.StatusInternalServerError)
			return
		}
		answer(w, "application/json", data.Bytes())
	}
}

// careful turns a mistake of the program's own into an error: one question ends no page.
func (s *Server) careful(f func() (told, error)) (out told, err error) {
	defer func() {
		if r := recover(); r != nil {
			err = &refusal{http.StatusInternalServerError, fmt.Sprintf("dryfit made a mistake of its own: %v", r)}
		}
	}()
	return f()
}

// studied refuses a question about a job that could not be planned.
func studied(c *current) error {
	if c.study == nil {
		return &refusal{http.StatusConflict, "the file has errors: mend them first"}
	}
	return nil
}

// ask answers what the unit gets.
func (s *Server) ask(r *http.Request, c *current, q askedFor) (told, error) {
	if err := studied(c); err != nil {
		return told{}, err
	}
	return c.answers.of(r.Context(), q.Values, func() (told, error) {
		select {
		case s.solves <- struct{}{}:
			defer func() { <-s.solves }()
		case <-r.Context().Done():
			return told{}, r.Context().Err()
		}
		a, err := c.study.Ask(q.Values, plan.Flows|plan.Swift)
		if err != nil {
			return told{}, err
		}
		return told{HTML: live.AnswerHTML(a, c.plan), Cut: live.CutNowHTML(c.study, a), Stand: standing(c.study.Following(a, q.Values))}, nil
	})
}

// standing words where scales stand; "" for what is there no more.
func standing(now map[string]float64) map[string]string {
	out := map[string]string{}
	for id, x := range now {
		out[id] = ""
		if !math.IsNaN(x) {
			out[id] = quantity.Trim(x)
		}
	}
	return out
}

// mend answers what would make the place of the cut possible: the changes that are tried take as
// long as many answers.
func (s *Server) mend(_ *http.Request, c *current, q askedFor) (told, error) {
	if err := studied(c); err != nil {
		return told{}, err
	}
	a, err := c.study.Ask(q.Values, plan.Flows)
	if err != nil {
		return told{}, err
	}
	return told{Cut: live.CutNowHTML(c.study, a) + " "}, nil // never empty: that would ask again
}

// oneAtATime leaves a question that takes long unanswered while another is worked out: the page
// asks again.
func (s *Server) oneAtATime(f func(*http.Request, *current, askedFor) (told, error)) func(*http.Request, *current, askedFor) (told, error) {
	room := make(chan struct{}, 1)
	return func(r *http.Request, c *current, q askedFor) (told, error) {
		select {
		case room <- struct{}{}:
			defer func() { <-room }()
			return f(r, c, q)
		default:
			return told{}, nil
		}
	}
}

// cost answers what a year takes.
func (s *Server) cost(_ *http.Request, c *current, q askedFor) (told, error) {
	if err := studied(c); err != nil {
		return told{}, err
	}
	a, err := c.study.Ask(q.Values, plan.Flows|plan.Lists|plan.Heat)
	if err != nil {
		return told{}, err
	}
	return told{HTML: live.CostHTML(a) + " "}, nil // never empty: that would ask again
}

// difference answers what putting the values into the file would change in it.
func (s *Server) difference(_ *http.Request, c *current, q askedFor) (told, error) {
	if err := studied(c); err != nil {
		return told{}, err
	}
	text, only, err := c.study.Text(q.Values)
	if err != nil {
		return told{}, err
	}
	a, err := c.study.Ask(q.Values, plan.Flows|plan.Swift)
	if err != nil {
		return told{}, err
	}
	return told{HTML: live.DifferenceHTML(c.job.Text, text, only, c.study.Kept(q.Values), a.WhyNoPlace(), c.job.System(c.plan.Circuit)), Can: s.writes() && !bytes.Equal(text, c.job.Text)}, nil
}

// put puts the values into the file.
func (s *Server) put(r *http.Request, c *current, q askedFor) (told, error) {
	if err := s.mayWrite(r, c, q); err != nil {
		return told{}, err
	}
	if err := studied(c); err != nil {
		return told{}, err
	}
	text, _, err := c.study.Text(q.Values)
	if err != nil {
		return told{}, err
	}
	return told{}, s.write(c, text)
}

// fill puts one value into the file, as it was typed.
func (s *Server) fill(r *http.Request, c *current, q askedFor) (told, error) {
	if err := s.mayWrite(r, c, q); err != nil {
		return told{}, err
	}
	text, err := c.job.Fill(q.Path, q.Value)
	var no *whatif.Refusal
	if errors.As(err, &no) {
		words := no.Message.In(c.job.System(nil))
		if no.Hint != "" {
			words += ": " + no.Hint.In(c.job.System(nil))
		}
		return told{}, &refusal{http.StatusUnprocessableEntity, words}
	}
	if err != nil {
		return told{}, err
	}
	return told{}, s.write(c, text)
}

// open takes a key that may be left open out of the file.
func (s *Server) open(r *http.Request, c *current, q askedFor) (told, error) {
	if err := s.mayWrite(r, c, q); err != nil {
		return told{}, err
	}
	text, err := c.job.Open(q.Path)
	if err != nil {
		return told{}, err
	}
	return told{}, s.write(c, text)
}

// begin writes the template of a circuit, never over a file.
func (s *Server) begin(r *http.Request, c *current, q askedFor) (told, error) {
	if s.cfg.Begin == nil || !s.door.Private() || !fromHere(r) {
		return told{}, &refusal{http.StatusForbidden, "a job is begun from its own machine only, where dryfit was started without a file"}
	}
	if c.job.File != "" {
		return told{}, &refusal{http.StatusConflict, "the job is begun already"}
	}
	return told{}, s.change(func() error { return s.cfg.Begin(q.Circuit, q.Name) })
}

// mayWrite refuses to change the file for anybody but this machine, and where it is no longer
// the one that was looked at.
func (s *Server) mayWrite(r *http.Request, c *current, q askedFor) error {
	switch {
	case !s.writes() || !fromHere(r):
		return &refusal{http.StatusForbidden, "the file is changed from its own machine only"}
	case c.job.File == "" || q.Text != hashOf(string(c.job.Text)):
		return &refusal{http.StatusConflict, "the file was changed meanwhile: look at it again"}
	}
	return nil
}

// write puts a text into the file, where that is still the one that was looked at.
func (s *Server) write(c *current, text []byte) error {
	return s.change(func() error { return s.cfg.Write(c.job.Text, text) })
}

// change changes the file and has it read at once: one after another, so that of two who looked
// at the same file the later is refused, and never once the server ends.
func (s *Server) change(write func() error) error {
	s.writing.Lock()
	defer s.writing.Unlock()
	if s.ctx.Err() != nil {
		return &refusal{http.StatusServiceUnavailable, "dryfit has ended: nothing was written"}
	}
	if err := write(); err != nil {
		return &refusal{http.StatusConflict, err.Error()}
	}
	s.watch.poke()
	return nil
}

// fromHere reports whether a request came from this machine.
func fromHere(r *http.Request) bool {
	host, _, err := net.SplitHostPort(r.RemoteAddr)
	if err != nil {
		return false
	}
	a, err := netip.ParseAddr(host)
	return err == nil && a.Unmap().IsLoopback()
}

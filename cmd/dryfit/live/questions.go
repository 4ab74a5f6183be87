package live

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"net"
	"net/http"
	"net/netip"

	"dryfit/graph/plan"
	"dryfit/graph/whatif"
	"dryfit/render/live"
	"dryfit/render/pack"
)

// askedFor is what a page asks: what is turned, and of which text.
type askedFor struct {
	Values whatif.Values `json:"values"`
	Text   string        `json:"text"` // of the file, by its hash; "" where that does not matter
}

// told is the answer.
type told struct {
	HTML string `json:"html"`
	Text string `json:"text"`          // of the file it is about, by its hash
	Can  bool   `json:"can,omitempty"` // there is something to put into the file
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
		c := s.last()
		if c == nil || c.study == nil {
			http.Error(w, "the file has errors: mend them first", http.StatusConflict)
			return
		}
		select {
		case s.solves <- struct{}{}:
		case <-r.Context().Done():
			return
		}
		out, err := s.careful(func() (told, error) { return answerTo(r, c, q) })
		<-s.solves
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
		data, err := json.Marshal(out)
		if err != nil {
			http.Error(w, err.Error(), http.StatusInternalServerError)
			return
		}
		answer(w, "application/json", data)
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

// ask answers what the unit gets.
func (s *Server) ask(_ *http.Request, c *current, q askedFor) (told, error) {
	a, err := c.study.Ask(q.Values, plan.Flows)
	if err != nil {
		return told{}, err
	}
	return told{HTML: live.AnswerHTML(a, c.plan)}, nil
}

// cost answers what a year takes.
func (s *Server) cost(_ *http.Request, c *current, q askedFor) (told, error) {
	a, err := c.study.Ask(q.Values, pack.Wants()&^plan.Ranges)
	if err != nil {
		return told{}, err
	}
	return told{HTML: live.CostHTML(a)}, nil
}

// difference answers what putting the values into the file would change in it.
func (s *Server) difference(_ *http.Request, c *current, q askedFor) (told, error) {
	text, only, err := c.study.Text(q.Values)
	if err != nil {
		return told{}, err
	}
	return told{HTML: live.DifferenceHTML(c.job.Text, text, only), Can: s.writes() && !bytes.Equal(text, c.job.Text)}, nil
}

// put puts the values into the file.
func (s *Server) put(r *http.Request, c *current, q askedFor) (told, error) {
	if !s.writes() || !fromHere(r) {
		return told{}, &refusal{http.StatusForbidden, "the file is changed from its own machine only"}
	}
	if q.Text != hashOf(string(c.job.Text)) {
		return told{}, &refusal{http.StatusConflict, "the file was changed meanwhile: look at the difference again"}
	}
	text, _, err := c.study.Text(q.Values)
	if err != nil {
		return told{}, err
	}
	if err := s.cfg.Write(c.job.Text, text); err != nil {
		return told{}, &refusal{http.StatusConflict, err.Error()}
	}
	return told{}, nil
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

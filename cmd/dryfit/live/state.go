package live

import (
	"crypto/sha256"
	"encoding/hex"
	"slices"
	"strings"
	"sync"

	"dryfit/render/live"
)

// piece is a section as the page is told of it.
type piece struct {
	ID   string `json:"id"`
	Hash string `json:"hash"`
}

// state is what the page shows. Values of it are not changed once published.
type state struct {
	Text   string  `json:"text"`   // what is being done, or what was
	Broken bool    `json:"broken"` // the file has errors, or can't be read
	Old    bool    `json:"old"`    // what is shown is not what the file says
	Pieces []piece `json:"pieces"` // never nil: the page goes through them
	File   string  `json:"file"`   // the text of the file this is of, by its hash

	chapters []string // their order, by the ids of their sections
	sections []live.Section
	texts    map[string]string // of the pieces, by their hash
}

// board is the newest state, and who waits for the next.
type board struct {
	mu    sync.Mutex
	now   *state
	fresh chan struct{} // closed when now is replaced
}

func newBoard() *board {
	return &board{now: &state{Text: "Reading the job.", Pieces: []piece{}}, fresh: make(chan struct{})}
}

// newest returns the state and a channel that is closed when there is a newer one.
func (b *board) newest() (*state, <-chan struct{}) {
	b.mu.Lock()
	defer b.mu.Unlock()
	return b.now, b.fresh
}

// publish makes a state the newest.
func (b *board) publish(s *state) {
	b.mu.Lock()
	defer b.mu.Unlock()
	b.now = s
	close(b.fresh)
	b.fresh = make(chan struct{})
}

// with returns the state with some sections replaced or added. Sections without a text stay
// known by their key but are not shown.
func (s *state) with(sections ...live.Section) *state {
	out := *s
	out.sections = slices.Clone(s.sections)
	for _, one := range sections {
		i := slices.IndexFunc(out.sections, func(o live.Section) bool { return o.ID == one.ID })
		if i < 0 {
			out.sections = append(out.sections, one)
		} else {
			out.sections[i] = one
		}
	}
	out.sort()
	return &out
}

// inOrder returns the state with the chapters named, in their order, and no others.
func (s *state) inOrder(chapters []string) *state {
	out := *s
	out.chapters = slices.Clone(chapters)
	out.sections = slices.DeleteFunc(slices.Clone(s.sections), func(o live.Section) bool {
		return strings.HasPrefix(o.ID, live.ChapterPrefix) && !slices.Contains(chapters, o.ID)
	})
	out.sort()
	return &out
}

// sort puts the sections in the order of the page and names the pieces.
func (s *state) sort() {
	order := append(append(live.Order(), s.chapters...), live.FormID)
	if s.chapters == nil { // a form to fill in comes first
		first := []string{live.HeadID, live.FormID}
		if s.Broken { // but what is wrong before it
			first = []string{live.HeadID, live.FindingsID, live.FormID}
		}
		order = append(first, order...)
	}
	place := func(id string) int {
		if i := slices.Index(order, id); i >= 0 {
			return i
		}
		return len(order)
	}
	slices.SortStableFunc(s.sections, func(a, b live.Section) int { return place(a.ID) - place(b.ID) })
	s.Pieces, s.texts = []piece{}, map[string]string{}
	for i := range s.sections {
		if text := s.sections[i].HTML; text != "" {
			hash := hashOf(text)
			s.Pieces, s.texts[hash] = append(s.Pieces, piece{s.sections[i].ID, hash}), text
		}
	}
}

func hashOf(text string) string {
	sum := sha256.Sum256([]byte(text))
	return hex.EncodeToString(sum[:12])
}

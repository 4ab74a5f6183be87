package world

import (
	"fmt"
	"os"
	"sync"
	"time"
)

// When progress is shown, and how often it is drawn.
const (
	quietFor  = time.Second
	drawEvery = 100 * time.Millisecond
)

// Progress is standard error. On a terminal it shows on one line what a long command is doing
// and how far it is; the line goes before anything else is written. Its zero value shows none.
type Progress struct {
	To   *os.File
	live bool // to is a terminal, and nobody asked for quiet

	mu      sync.Mutex
	text    string
	shown   bool
	started time.Time // zero until there is something to tell
}

// Tell says what is being done: step done of so many, or without a number where of is 0.
func (p *Progress) Tell(what string, done, of int) {
	if p == nil || !p.live {
		return
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	p.text = what
	if of > 0 {
		p.text = fmt.Sprintf("%s, %d of %d", what, min(done+1, of), of)
	}
	if p.started.IsZero() {
		p.started = time.Now()
		go p.tick()
	}
}

func (p *Progress) tick() {
	for range time.Tick(drawEvery) {
		p.draw(time.Since(p.started))
	}
}

func (p *Progress) draw(since time.Duration) {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.text != "" && since >= quietFor {
		fmt.Fprintf(p.To, "\r\x1b[Kdryfit: %s (%d s)", p.text, int(since.Seconds()))
		p.shown = true
	}
}

// clear takes the line away; it stays away until more is told.
func (p *Progress) clear() {
	if p == nil {
		return
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	p.wipe()
}

func (p *Progress) wipe() {
	if p.shown {
		_, _ = p.To.WriteString("\r\x1b[K")
	}
	p.text, p.shown = "", false
}

// Write writes what a command has to say.
func (p *Progress) Write(data []byte) (int, error) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.wipe()
	return p.To.Write(data)
}

package live

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"runtime/debug"
	"slices"
	"strings"
	"sync"
	"time"

	"dryfit/graph"
	"dryfit/graph/plan"
	"dryfit/graph/whatif"
	"dryfit/render/live"
)

// settleFor is how long after a save no newer one may come before the papers are begun: what an
// editor saves twice is drawn once.
const settleFor = 30 * time.Millisecond

// work keeps the board what the files say, until ctx is done.
func (s *Server) work(ctx context.Context) {
	var papers background
	defer papers.stop()
	for {
		s.redraw(ctx, &papers)
		select {
		case <-ctx.Done():
			return
		case <-s.watch.changed:
		}
	}
}

// background runs one thing at a time in the background.
type background struct {
	mu     sync.Mutex // held while something of what runs is published, and while it is given up
	cancel context.CancelFunc
	over   chan struct{}
}

// start begins f when what ran before has ended, for which it does not wait itself.
func (r *background) start(ctx context.Context, f func(context.Context)) {
	before := r.over
	ctx, r.cancel = context.WithCancel(ctx)
	over := make(chan struct{})
	r.over = over
	go func() {
		defer close(over)
		if before != nil {
			<-before
		}
		f(ctx)
	}()
}

// giveUp ends what runs and does not wait for it: what it still says is heard no more.
func (r *background) giveUp() {
	if r.cancel != nil {
		r.mu.Lock()
		r.cancel()
		r.mu.Unlock()
		r.cancel = nil
	}
}

// heard does what is to be done with something that what runs with ctx says, unless it was
// given up.
func (r *background) heard(ctx context.Context, do func()) {
	r.mu.Lock()
	defer r.mu.Unlock()
	if ctx.Err() == nil {
		do()
	}
}

// stop ends what runs and waits for it.
func (r *background) stop() {
	r.giveUp()
	if r.over != nil {
		<-r.over
	}
}

// current is the job as it was last read, for what is asked about it.
type current struct {
	job  whatif.Job
	plan *plan.Plan // without ranges and heat; nil where the description has errors
	took time.Duration
	read time.Time // when the save was seen

	study   *whatif.Study // nil where there is no plan
	answers answers       // to what was asked about it
}

// slowPlan is from when on a page is told that its answer is being worked out.
const slowPlan = 200 * time.Millisecond

// redraw reads the files, publishes what can be said at once, and has the papers made anew.
// Nothing is done where nothing that counts has changed, or once ctx is done.
func (s *Server) redraw(ctx context.Context, papers *background) {
	got, ok := unless(ctx, s.load)
	if !ok {
		return
	}
	job := got.job
	s.watch.on(ctx, got.files)
	now, _ := s.board.newest()
	if errors.Is(got.err, ErrNoFile) {
		next := state{Text: "Nothing is written yet."}
		s.board.publish(next.with(live.Section{ID: live.BeginID, HTML: live.BeginHTML()}))
		return
	}
	if got.err != nil {
		papers.giveUp() // they would say that everything is what the file says
		s.trouble(fmt.Sprintf("%v. What stands here is what it said before.", got.err))
		return
	}
	last := s.last()
	if last != nil && sameJob(&last.job, &job) && !now.Old {
		return
	}
	papers.giveUp()
	now, _ = s.board.newest() // what the papers published last
	if last != nil && last.took > slowPlan {
		next := *now
		next.Text = "The file was saved: working it out."
		s.board.publish(&next)
	}
	next, ok := unless(ctx, func() readJob { return read(job) })
	if !ok {
		return
	}
	s.keep(next.current)
	if next.plan == nil {
		s.unread(next.current, next.found, now.chapters != nil)
		return
	}
	if next.err != nil {
		s.trouble(next.err.Error())
		return
	}
	fresh := *now
	fresh.Broken, fresh.Old, fresh.File = false, false, hashOf(string(job.Text))
	fresh.Text = "The answer is that of the file. Ranges and drawings follow."
	s.board.publish(fresh.with(append(next.sections, live.Section{ID: live.BeginID})...))
	s.tell("answer", time.Since(next.read))
	papers.start(ctx, func(ctx context.Context) { s.papers(ctx, papers, next.current) })
}

// unless returns what f returns, or false as soon as ctx is done: f then goes on by itself, and
// nobody hears of it. It is for what takes long, can't be broken off and changes nothing.
func unless[T any](ctx context.Context, f func() T) (made T, ok bool) {
	if ctx.Err() != nil {
		return made, false
	}
	got := make(chan T, 1)
	go func() { got <- f() }()
	select {
	case made = <-got:
		return made, true
	case <-ctx.Done():
		return made, false
	}
}

// readJob is a job as it was read, with what is shown of it at once.
type readJob struct {
	*current
	found    []graph.Diagnostic
	sections []live.Section // none where there is no plan
	err      error          // of making these
}

// read plans a job as it was saved, and makes the sections that are shown at once.
func read(job whatif.Job) readJob {
	began := time.Now()
	p, found := planOf(&job, plan.Findings|plan.Flows|plan.Lists)
	next := readJob{current: &current{job: job, plan: p, took: time.Since(began), read: began}, found: found}
	if p == nil {
		return next
	}
	next.study = whatif.Of(job, p)
	next.sections, next.err = live.Quick(next.study)
	next.sections = append(next.sections, next.form(found))
	return next
}

// form lists the keys of the file, with what was found at each.
func (c *current) form(found []graph.Diagnostic) live.Section {
	var circuit *graph.Circuit
	if c.plan != nil {
		circuit = c.plan.Circuit
	}
	return live.Section{ID: live.FormID, HTML: live.FormHTML(&c.job, found, c.job.System(circuit))}
}

// unread publishes what is wrong with a description that gives no plan: its blanks, which are
// asked for, or its errors. Of a job that was shown before (there is an old page) the rest stays.
func (s *Server) unread(c *current, found []graph.Diagnostic, old bool) {
	if n := blanksIn(found); n > 0 {
		s.blanks(&c.job, found, n, c.form(found))
		return
	}
	words := fmt.Sprintf("%s has %s: see Findings.", filepath.Base(c.job.File), errorsIn(found))
	if old {
		words += " The rest of the page is what it said before."
	}
	s.trouble(words, live.Section{ID: live.FindingsID, HTML: live.FindingsHTML(&c.job, found, c.job.System(nil))}, c.form(found))
}

// blanksIn counts the blanks of a description that nothing else is wrong with.
func blanksIn(found []graph.Diagnostic) int {
	n := graph.Blanks(found)
	if len(graph.Errors(found)) > n {
		return 0
	}
	return n
}

// blanks publishes the form of a description that is not filled in yet, and nothing else.
func (s *Server) blanks(job *whatif.Job, found []graph.Diagnostic, n int, form live.Section) {
	words := fmt.Sprintf("%d blanks of %s are left to fill in.", n, filepath.Base(job.File))
	if n == 1 {
		words = fmt.Sprintf("1 blank of %s is left to fill in.", filepath.Base(job.File))
	}
	next := state{Text: words, File: hashOf(string(job.Text))}
	s.board.publish(next.with(live.Section{ID: live.HeadID, HTML: live.PlainHeadHTML(job.File)}, form, live.Section{ID: live.FindingsID, HTML: live.FindingsHTML(job, found, job.System(nil))}))
}

// errorsIn says what keeps a description from being read: errors, and what is still blank.
func errorsIn(found []graph.Diagnostic) string {
	return graph.InShort(graph.Errors(found))
}

// trouble publishes that the file can't be followed: what was shown stays, marked as old.
func (s *Server) trouble(words string, sections ...live.Section) {
	now, _ := s.board.newest()
	next := *now
	next.Text, next.Broken, next.Old = words, true, true
	if c := s.last(); c != nil {
		next.File = hashOf(string(c.job.Text))
		if !slices.ContainsFunc(next.sections, func(o live.Section) bool { return o.ID == live.HeadID }) {
			sections = append(sections, live.Section{ID: live.HeadID, HTML: live.PlainHeadHTML(c.job.File)})
		}
	}
	s.board.publish(next.with(sections...))
}

// planOf plans a job; what a bug breaks is said as a finding and ends nothing.
func planOf(job *whatif.Job, want plan.Want) (p *plan.Plan, found []graph.Diagnostic) {
	defer func() {
		if r := recover(); r != nil {
			p = nil
			found = []graph.Diagnostic{{Pos: graph.Pos{File: job.File}, Rule: "internal", Severity: graph.Error,
				Message: graph.Say("dryfit made a mistake of its own: %v", r), Hint: graph.Say("%s", firstLines(debug.Stack()))}}
		}
	}()
	return job.Plan(want)
}

func firstLines(stack []byte) string {
	lines := strings.Split(string(stack), "\n")
	return strings.Join(lines[:min(len(lines), 14)], "; ")
}

// papers has everything made that takes longer, and publishes it as it comes.
func (s *Server) papers(ctx context.Context, run *background, c *current) {
	select {
	case <-ctx.Done():
		return
	case <-time.After(settleFor - time.Since(c.read)):
	}
	now, _ := s.board.newest()
	have := map[string]string{}
	for _, one := range now.sections {
		if one.Key != "" {
			have[one.ID] = one.Key
		}
	}
	var chapters []string
	err := s.cfg.Papers(ctx, Order{Job: c.job, Have: have}, func(sections []live.Section) {
		for _, one := range sections {
			if strings.HasPrefix(one.ID, live.ChapterPrefix) {
				chapters = append(chapters, one.ID)
			}
		}
		run.heard(ctx, func() {
			now, _ := s.board.newest()
			next := now.with(sections...)
			if len(chapters) > 0 {
				next = next.inOrder(chapters)
			}
			s.board.publish(next)
			for _, one := range sections {
				if view, ok := strings.CutPrefix(one.ID, live.DrawingPrefix); ok {
					s.tell(view, time.Since(c.read))
				}
			}
		})
	})
	run.heard(ctx, func() {
		now, _ := s.board.newest()
		next := *now
		next.Text = "Everything on this page is what the file says now."
		if err != nil {
			next.Text = fmt.Sprintf("The answer is that of the file; its papers could not be made: %v.", err)
			next.Broken = true
		}
		s.board.publish(&next)
	})
	if ctx.Err() != nil {
		return
	}
	s.tell("papers", time.Since(c.read))
}

// sameJob reports whether nothing that counts is others.
func sameJob(a, b *whatif.Job) bool {
	return a.File == b.File && a.Units == b.Units && bytes.Equal(a.Text, b.Text) && bytes.Equal(a.Weather, b.Weather) &&
		sameFiles(a.Catalogs, b.Catalogs) && sameFiles(a.Photos, b.Photos)
}

func sameFiles(a, b []whatif.File) bool {
	return slices.EqualFunc(a, b, func(x, y whatif.File) bool { return x.Name == y.Name && bytes.Equal(x.Data, y.Data) })
}

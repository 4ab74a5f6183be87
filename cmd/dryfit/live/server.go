package live

import (
	"cmp"
	"context"
	"errors"
	"net"
	"net/http"
	"runtime"
	"sync"
	"time"

	"dryfit/graph/whatif"
	"dryfit/render/live"
)

// Config is what a server needs of the world.
type Config struct {
	File string // the description, as the user named it

	// Load reads the description and what lies beside it, and says which files that were,
	// whether it could or not.
	Load func() (whatif.Job, []string, error)

	// Papers makes what takes longer, and hands it on as it comes, until ctx is done.
	Papers func(ctx context.Context, o Order, got func([]live.Section)) error

	// Write puts a text in the place of another in the description's file; it refuses where the
	// file holds anything else by now. Nil where nothing may be written.
	Write func(was, text []byte) error

	// Begin writes the template of a circuit into a new file of a name, which is the job's from
	// then on. Nil where the job has its file.
	Begin func(circuit, name string) error

	// Tell, where it is not nil, hears what was done and how long it took.
	Tell func(what string, took time.Duration)

	Patience time.Duration // that a request's header is waited for; 0: headerTime
}

// Server is one job, served.
type Server struct {
	cfg   Config
	door  *Door
	board *board
	watch *watch
	ctx   context.Context //nolint:containedctx // of the whole of Serve; requests have their own

	solves  chan struct{} // holds one for each question that is being worked out
	writing sync.Mutex    // held while the file is written

	mu  sync.Mutex
	job *current // as last read; nil before
}

// Tidy is how much of its size, in per cent, the memory of a server may grow by before it is
// tidied (see debug.SetGCPercent): it lives long and answers many questions, and memory is cheaper
// than the time.
const Tidy = 300

// ErrNoFile is what Load returns where no file has been begun yet.
var ErrNoFile = errors.New("no file yet")

// Limits of what the server takes. A page has one stream and a few short requests at a time.
const (
	mostConnections = 128
	mostStreams     = 32
	mostHeader      = 16 << 10 // bytes
	headerTime      = 5 * time.Second
	requestTime     = 20 * time.Second
	idleTime        = 60 * time.Second
	answerTime      = 30 * time.Second
)

// New returns a server for a job behind a door.
func New(cfg Config, d *Door) *Server {
	return &Server{cfg: cfg, door: d, board: newBoard(), watch: newWatch(), solves: make(chan struct{}, max(1, runtime.GOMAXPROCS(0)))}
}

// Serve answers on the listener until ctx is done, then ends every request at once. What is being
// worked out then is not waited for; a file that is being written is written, and papers have ended.
func (s *Server) Serve(ctx context.Context, at net.Listener) error {
	ctx, cancel := context.WithCancel(ctx)
	s.ctx = ctx
	var all sync.WaitGroup
	all.Go(func() { s.watch.run(ctx) })
	all.Go(func() { s.work(ctx) })
	web := &http.Server{
		Handler:           s.door.guard(s.routes()),
		ReadHeaderTimeout: cmp.Or(s.cfg.Patience, headerTime),
		ReadTimeout:       requestTime,
		IdleTimeout:       idleTime,
		MaxHeaderBytes:    mostHeader,
		BaseContext:       func(net.Listener) context.Context { return ctx },
		ErrorLog:          silent(),
	}
	all.Go(func() {
		<-ctx.Done()
		_ = web.Close() // streams never end by themselves
	})
	err := web.Serve(limited(at, mostConnections))
	cancel()
	all.Wait()
	s.writing.Lock() // what is being written is written; nothing more is, for ctx is done
	defer s.writing.Unlock()
	if errors.Is(err, http.ErrServerClosed) {
		return nil
	}
	return err
}

// loaded is what Config.Load said.
type loaded struct {
	job   whatif.Job
	files []string
	err   error
}

func (s *Server) load() (out loaded) {
	out.job, out.files, out.err = s.cfg.Load()
	for range 4 { // an editor may be between taking the old file away and putting the new one there
		if out.err == nil || errors.Is(out.err, ErrNoFile) || s.ctx.Err() != nil {
			break
		}
		select {
		case <-s.ctx.Done():
		case <-time.After(40 * time.Millisecond):
		}
		out.job, out.files, out.err = s.cfg.Load()
	}
	return out
}

func (s *Server) keep(c *current) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.job = c
}

// last returns the job as it was last read; nil where there is none yet.
func (s *Server) last() *current {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.job
}

func (s *Server) tell(what string, took time.Duration) {
	if s.cfg.Tell != nil {
		s.cfg.Tell(what, took)
	}
}

package live

import (
	"context"
	"errors"
	"strconv"
	"sync"
	"testing"
	"testing/synctest"

	"dryfit/graph/whatif"
)

// Equal questions are worked out once, others each; so many are kept and no more, the newest.
func TestEqualQuestionsShareAnAnswer(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		var a answers
		worked, going := 0, make(chan struct{})
		var all sync.WaitGroup
		for range 5 {
			all.Go(func() {
				out, err := a.of(t.Context(), whatif.Values{"water": "30", "jets-open": "50"}, func() (told, error) {
					worked++
					<-going
					return told{HTML: "one"}, nil
				})
				if err != nil || out.HTML != "one" {
					t.Error(out, err)
				}
			})
		}
		synctest.Wait()
		close(going)
		all.Wait()
		if worked != 1 {
			t.Errorf("worked out %d times", worked)
		}
		for i := range 2 * mostAnswers {
			name := strconv.Itoa(i)
			out, _ := a.of(t.Context(), whatif.Values{"water": name}, func() (told, error) { return told{HTML: name}, nil })
			if out.HTML != name || len(a.known) > mostAnswers || len(a.order) != len(a.known) {
				t.Fatalf("%s answered with %s; %d kept, %d in order", name, out.HTML, len(a.known), len(a.order))
			}
		}
		again := false
		_, _ = a.of(t.Context(), whatif.Values{"water": "30", "jets-open": "50"}, func() (told, error) { again = true; return told{}, nil })
		_, _ = a.of(t.Context(), whatif.Values{"water": strconv.Itoa(2*mostAnswers - 1)}, func() (told, error) { t.Error("the newest was forgotten"); return told{}, nil })
		if !again {
			t.Error("the oldest is kept for ever")
		}
	})
}

// An answer that its asker left, or that ended in a panic, is asked for anew by whoever waits.
func TestAnswerGivenUpIsAskedAgain(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		var a answers
		v := whatif.Values{"water": "30"}
		gone, leave := context.WithCancel(t.Context())
		var all sync.WaitGroup
		all.Go(func() {
			if _, err := a.of(gone, v, func() (told, error) { <-gone.Done(); return told{}, gone.Err() }); !errors.Is(err, context.Canceled) {
				t.Error(err)
			}
		})
		synctest.Wait()
		all.Go(func() {
			out, err := a.of(t.Context(), v, func() (told, error) { return told{HTML: "answered"}, nil })
			if err != nil || out.HTML != "answered" {
				t.Error(out, err)
			}
		})
		synctest.Wait()
		leave()
		all.Wait()

		func() {
			defer func() { _ = recover() }()
			_, _ = a.of(t.Context(), whatif.Values{"water": "31"}, func() (told, error) { panic("a mistake") })
		}()
		if out, err := a.of(t.Context(), whatif.Values{"water": "31"}, func() (told, error) { return told{HTML: "mended"}, nil }); err != nil || out.HTML != "mended" {
			t.Error(out, err)
		}
	})
}

package spread

import "sync"

// sideBySide calls do with 0 to n-1, at the same time, and returns when all have returned. What
// they write must not hang together. A panic in one goes on in the caller.
func sideBySide(n int, do func(i int)) {
	var (
		all    sync.WaitGroup
		once   sync.Once
		failed any
	)
	for i := range n {
		all.Go(func() {
			defer func() {
				if r := recover(); r != nil {
					once.Do(func() { failed = r })
				}
			}()
			do(i)
		})
	}
	all.Wait()
	if failed != nil {
		panic(failed)
	}
}

package graph

import (
	"runtime"
	"sync"
)

// SideBySide calls do with 0 to n-1, on as many processors as there are, and returns when all
// have returned. What one writes none of the others may read or write: then the result is that of
// one after the other. A panic in one goes on in the caller.
func SideBySide(n int, do func(i int)) {
	var (
		all    sync.WaitGroup
		once   sync.Once
		failed any
		next   = make(chan int, n)
	)
	for i := range n {
		next <- i
	}
	close(next)
	for range min(n, runtime.GOMAXPROCS(0)) {
		all.Go(func() {
			defer func() {
				if r := recover(); r != nil {
					once.Do(func() { failed = r })
				}
			}()
			for i := range next {
				do(i)
			}
		})
	}
	all.Wait()
	if failed != nil {
		panic(failed)
	}
}

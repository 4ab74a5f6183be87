package whatif

import (
	"fmt"
	"os"
	"runtime"
	"runtime/debug"
	"syscall"
	"testing"
	"time"

	"dryfit/catalog/quantity"
)

func cpuNow() time.Duration {
	var r syscall.Rusage
	_ = syscall.Getrusage(syscall.RUSAGE_SELF, &r)
	return time.Duration(r.Utime.Nano() + r.Stime.Nano())
}

func TestCPU(t *testing.T) {
	if os.Getenv("GCP") != "" {
		var n int
		_, _ = fmt.Sscan(os.Getenv("GCP"), &n)
		debug.SetGCPercent(n)
	}
	for _, name := range demos {
		s := demo(t, name)
		per := map[string]time.Duration{}
		var m0, m1 runtime.MemStats
		for _, id := range []string{"water", "drop-unit", "jets", "filter"} {
			c := s.Control(id)
			if c == nil {
				continue
			}
			runtime.ReadMemStats(&m0)
			b := cpuNow()
			n := 20
			for i := range n {
				v := ""
				if len(c.Choices) > 0 {
					v = c.Choices[(1+i)%len(c.Choices)].Value
				} else {
					v = quantity.Trim(quantity.Round(c.Low+(c.High-c.Low)*(float64(i)+0.5)/float64(n), 2))
				}
				ask(t, s, Values{id: v})
			}
			runtime.ReadMemStats(&m1)
			per[id] = (cpuNow() - b) / time.Duration(n)
			fmt.Println(name, id, per[id], "alloc/ask KB", (m1.TotalAlloc-m0.TotalAlloc)/uint64(n)/1024, "mallocs", (m1.Mallocs-m0.Mallocs)/uint64(n), "gcs", m1.NumGC-m0.NumGC, "heap MB", m1.HeapInuse>>20)
		}
	}
}

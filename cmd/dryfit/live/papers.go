package live

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"maps"
	"slices"
	"sync"

	"dryfit/graph"
	"dryfit/graph/plan"
	"dryfit/graph/whatif"
	"dryfit/render/drawing"
	"dryfit/render/live"
	"dryfit/render/pack"
)

// Order is what papers are made of: the job, and the drawings that are there already, by the
// id of their section and what they were drawn from.
type Order struct {
	Job  whatif.Job
	Have map[string]string
}

// early are the views that need no ranges and no heat.
func early() []string {
	return slices.DeleteFunc(drawing.Views(), func(v string) bool { return drawing.Wants(v)&(plan.Ranges|plan.Heat) != 0 })
}

// Make makes everything the quick answer leaves out, in the order in which it is ready: first
// the drawings that need no ranges, then the chapters, then the rest. Drawings are made side by
// side; those that are there already are not made again. got is not called twice at a time.
func Make(o Order, got func([]live.Section)) error {
	have := maps.Clone(o.Have)
	if have == nil {
		have = map[string]string{}
	}
	draw := func(p *plan.Plan, views []string) error {
		errs := make([]error, len(views))
		var one sync.Mutex
		graph.SideBySide(len(views), func(i int) {
			id := live.DrawingPrefix + views[i]
			one.Lock()
			had := have[id]
			one.Unlock()
			s, ok, err := live.Drawing(p, views[i], o.Job.System(p.Circuit), had)
			if errs[i] = err; err != nil || !ok {
				return
			}
			one.Lock()
			defer one.Unlock()
			have[s.ID] = s.Key
			got([]live.Section{s})
		})
		return errors.Join(errs...)
	}
	quick, _ := o.Job.Plan(plan.Findings | plan.Flows | plan.Lists)
	if quick == nil {
		return nil // the findings say why
	}
	if err := draw(quick, early()); err != nil {
		return err
	}
	full, _ := o.Job.Plan(pack.Wants())
	sections, err := live.Full(&o.Job, full)
	if err != nil {
		return err
	}
	got(sections)
	return draw(full, drawing.Views())
}

// Ordered writes an order for ServeOrder.
func Ordered(o Order) (io.Reader, error) {
	data, err := json.Marshal(o)
	return bytes.NewReader(data), err
}

// ServeOrder is Make between two processes: the order comes as JSON, and every batch of sections
// goes out as a line of it.
func ServeOrder(in io.Reader, out io.Writer) error {
	var o Order
	if err := json.NewDecoder(in).Decode(&o); err != nil {
		return err
	}
	to := json.NewEncoder(out)
	var failed error
	err := Make(o, func(sections []live.Section) {
		if failed == nil {
			failed = to.Encode(sections)
		}
	})
	if err == nil {
		err = failed
	}
	return err
}

// Batches reads what ServeOrder writes.
func Batches(from io.Reader, got func([]live.Section)) error {
	dec := json.NewDecoder(from)
	for {
		var sections []live.Section
		if err := dec.Decode(&sections); err != nil {
			if errors.Is(err, io.EOF) {
				return nil
			}
			return err
		}
		got(sections)
	}
}

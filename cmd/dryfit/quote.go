package main

import (
	"fmt"
	"strings"

	"github.com/spf13/pflag"

	"dryfit/cmd/dryfit/world"
	"dryfit/graph/plan"
	"dryfit/render/quote"
)

func quoteVerb() *verb {
	return &verb{
		name: "quote", args: "FILE",
		does:    "a customer's offer, by the description's own prices",
		more:    "Prices stand under [prices], with margin and tax for the whole; labour under [tariff] work.\nLines without a price are named, and nothing is invented.",
		example: "dryfit quote job.toml\ndryfit quote --against larger.toml -o offer.pdf job.toml",
		run:     runQuote,
	}
}

func runQuote(v *verb, args []string, w *world.World) int {
	var j job
	var against string
	f := v.flags()
	formats := []string{"text", "html", "pdf"}
	j.add(f, formats...)
	f.StringVar(&against, "against", "", "description of a second choice, set beside the first")
	if code, done := j.start(v, f, formats, args, w); done {
		return code
	}
	p, code := j.offered(f, v, w)
	if p == nil {
		return code
	}
	var other *plan.Plan
	if against != "" {
		second := j
		second.circuit, second.findings = nil, nil
		g := v.flags()
		if err := g.Parse([]string{against}); err != nil {
			return world.Complain(w, err)
		}
		if other, code = second.offered(g, v, w); other == nil {
			return code
		}
	}
	offer := quote.Offer(p, other, j.style(w).Units)
	var data []byte
	var err error
	switch j.format {
	case "html":
		data, err = offer.HTML()
	case "pdf":
		data, err = offer.PDF()
	default:
		data = offer.Text(j.style(w))
	}
	if err != nil {
		return world.Complain(w, err)
	}
	if code := w.Write(j.output, data); code != world.Done {
		return code
	}
	if keys := quote.PriceOf(p).Keys; len(keys) > 0 {
		fmt.Fprintf(w.Stderr, "what has no price gets one under [prices] by its kind, its name or its id: %s; pipe under [[stock]] too, labour under [tariff] work\n", strings.Join(keys, ", "))
	}
	return j.say(p.Findings, w)
}

// offered reads a description and works it out for an offer; the plan is nil where there is
// none, and then everything has been said.
func (j *job) offered(f *pflag.FlagSet, v *verb, w *world.World) (*plan.Plan, int) {
	if code, ok := j.read(f, v, w); !ok {
		return nil, code
	}
	if code := j.readWeather(w); code != world.Done {
		return nil, code
	}
	p, err := j.make(quote.Wants())
	if err != nil {
		return nil, world.Complain(w, err)
	}
	return p, world.Done
}

package main

import (
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
	if code, ok := j.readYear(f, v, w); !ok {
		return code
	}
	second := j // both are read before either is worked out
	second.circuit, second.findings = nil, nil
	if against != "" {
		g := v.flags()
		if err := g.Parse([]string{against}); err != nil {
			return world.Complain(w, err)
		}
		if code, ok := second.readYear(g, v, w); !ok {
			return code
		}
	}
	p, err := j.make(quote.Wants())
	if err != nil {
		return world.Complain(w, err)
	}
	var other *plan.Plan
	if against != "" {
		if other, err = second.make(quote.Wants()); err != nil {
			return world.Complain(w, err)
		}
	}
	offer := quote.Offer(p, other, j.style(w).Units)
	var data []byte
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
		world.Tell(w, "what has no price gets one under [prices] by its kind, its name or its id: %s; pipe under [[stock]] too, labour under [tariff] work", strings.Join(keys, ", "))
	}
	return j.say(p.Findings, w)
}

// readYear reads a description and the weather it names, as read does.
func (j *job) readYear(f *pflag.FlagSet, v *verb, w *world.World) (code int, ok bool) {
	if code, ok := j.read(f, v, w); !ok {
		return code, false
	}
	code = j.readWeather(w)
	return code, code == world.Done
}

package description

import (
	"dryfit/graph"
	"dryfit/graph/description/located"
)

// The promises that can be accepted though too few of the samples keep them.
var acceptable = []string{"least-flow", "most-flow", "unit-pressure", "pipe-pressure"}

// acceptFields are the keys of [[accept]].
var acceptFields = []field[graph.Accepted]{
	needed(wordField("promise", acceptable, func(a *graph.Accepted) *string { return &a.Promise }), `what is accepted, such as promise = "least-flow"`),
	textField("mode", `the mode it is accepted in; leave it out for all`, func(a *graph.Accepted) *string { return &a.Mode }),
	needed(textField("reason", `why, such as reason = "the owner will have the pump measured"`, func(a *graph.Accepted) *string { return &a.Reason }), `why, such as reason = "the owner will have the pump measured"`),
}

func readAccept(r *reader, v located.Value) {
	a := graph.Accepted{Pos: r.KeyPos(v)}
	readTable(r, v, "[[accept]]", acceptFields, &a)
	r.circuit.Accepted = append(r.circuit.Accepted, a)
}

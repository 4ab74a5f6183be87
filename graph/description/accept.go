package description

import (
	"dryfit/graph"
	"dryfit/graph/description/field"
	"dryfit/graph/description/located"
)

// The promises that can be accepted though too few of the samples keep them.
var acceptable = []string{"least-flow", "most-flow", "unit-pressure", "pipe-pressure"}

// acceptFields are the keys of [[accept]].
var acceptFields = []field.Field[graph.Accepted]{
	field.Needed(field.Word("promise", acceptable, func(a *graph.Accepted) *string { return &a.Promise }), `what is accepted, such as promise = "least-flow"`),
	field.Text("mode", `the mode it is accepted in; leave it out for all`, func(a *graph.Accepted) *string { return &a.Mode }),
	field.Needed(field.Prose("reason", `why, such as reason = "the owner will have the pump measured"`, func(a *graph.Accepted) *string { return &a.Reason }), `why, such as reason = "the owner will have the pump measured"`),
}

func readAccept(r *field.Reader, v located.Value) {
	a := graph.Accepted{Pos: r.KeyPos(v)}
	field.ReadTable(r, v, "[[accept]]", acceptFields, &a)
	r.Circuit.Accepted = append(r.Circuit.Accepted, a)
}

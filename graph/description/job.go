package description

import (
	"time"

	"dryfit/graph"
	"dryfit/graph/description/located"
	"dryfit/graph/description/schema"
)

// jobFields are the keys of [job].
var jobFields = []field[graph.Job]{
	textField("name", `what the job is called`, func(j *graph.Job) *string { return &j.Name }),
	textField("reference", `your number for it`, func(j *graph.Job) *string { return &j.Reference }),
	textField("prepared-by", `who drew it up`, func(j *graph.Job) *string { return &j.PreparedBy }),
	textField("revision", `such as "A"`, func(j *graph.Job) *string { return &j.Revision }),
	dateField("date", func(j *graph.Job) *string { return &j.Date }),
	textsField("notes", `texts in quotes`, func(j *graph.Job) *[]string { return &j.Notes }),
	wordField("units", []string{"metric", "inch"}, func(j *graph.Job) *string { return &j.Units }),
	qtySet("kerf", sawKerf, func(j *graph.Job) *float64 { return &j.KerfMM }, func(j *graph.Job) *bool { return &j.KerfSet }),
	textField("currency", `such as "EUR"`, func(j *graph.Job) *string { return &j.Currency }),
	photosField("photos"),
}

func readJob(r *reader, v located.Value) {
	r.circuit.Job.Pos = r.KeyPos(v)
	readTable(r, v, "[job]", jobFields, &r.circuit.Job)
}

// dateField is a TOML date, kept as ISO 8601 writes it.
func dateField[T any](name string, at func(*T) *string) field[T] {
	const write = "a date without quotes: 2026-05-11"
	return field[T]{
		key:   name,
		shape: schema.Date,
		read: func(r *reader, v located.Value, into *T) {
			if r.Blank(v, write) {
				return
			}
			t, ok := v.V.(time.Time)
			if !ok || t.Year() == 0 {
				r.WrongType(v, "a date", write)
				return
			}
			*at(into) = t.Format(time.DateOnly)
		},
		write: func(from *T) string { return *at(from) },
	}
}

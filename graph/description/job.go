package description

import (
	"time"

	"dryfit/graph"
	"dryfit/graph/description/field"
	"dryfit/graph/description/located"
	"dryfit/graph/description/schema"
)

// jobFields are the keys of [job].
var jobFields = []field.Field[graph.Job]{
	field.Prose("name", `what the job is called`, func(j *graph.Job) *string { return &j.Name }),
	field.Text("reference", `your number for it`, func(j *graph.Job) *string { return &j.Reference }),
	field.Prose("prepared-by", `who drew it up`, func(j *graph.Job) *string { return &j.PreparedBy }),
	field.Text("revision", `such as "A"`, func(j *graph.Job) *string { return &j.Revision }),
	dateField("date", func(j *graph.Job) *string { return &j.Date }),
	field.Proses("notes", `texts in quotes`, func(j *graph.Job) *[]string { return &j.Notes }),
	field.Word("units", []string{"metric", "inch"}, func(j *graph.Job) *string { return &j.Units }),
	field.QtySet("kerf", field.SawKerf, func(j *graph.Job) *float64 { return &j.KerfMM }, func(j *graph.Job) *bool { return &j.KerfSet }),
	field.Text("currency", `such as "EUR"`, func(j *graph.Job) *string { return &j.Currency }),
	photosField("photos"),
}

func readJob(r *field.Reader, v located.Value) {
	r.Circuit.Job.Pos = r.KeyPos(v)
	field.ReadTable(r, v, "[job]", jobFields, &r.Circuit.Job)
}

// dateField is a TOML date, kept as ISO 8601 writes it.
func dateField[T any](name string, at func(*T) *string) field.Field[T] {
	const write = "a date without quotes: 2026-05-11"
	return field.Field[T]{
		Key:   name,
		Shape: schema.Date,
		Read: func(r *field.Reader, v located.Value, into *T) {
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
		Write: func(from *T) string { return *at(from) },
	}
}

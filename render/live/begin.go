package live

import (
	"bytes"
	"embed"
	"encoding/json"
	"fmt"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/whatif"
)

// The circuits there are templates of, drawn small. The test of this package writes them.
//
//go:embed circuits/*.svg
var circuits embed.FS

// circuitWords say what stands in the cabinet.
var circuitWords = map[string]string{
	"two-speed":         "One pump: slow for filter and heat, fast for the jets.",
	"one-speed":         "One pump of one speed: filter, heat and jets together.",
	"circulation":       "A small pump that runs day and night for filter and heater; jet pumps apart.",
	"large-circulation": "A large circulation pump of one speed, and jet pumps.",
	"plunge-pool":       "Pump, pressure filter, feeder, inlets.",
	"plug-in":           "A tub with an outside box, on hoses.",
}

// BeginID is the section that offers the circuits, FormID the one that lists the file's keys.
const (
	BeginID = "begin"
	FormID  = "form"
)

// BeginHTML offers the circuits; picking one writes its description.
func BeginHTML() string {
	var b bytes.Buffer
	b.WriteString("<section aria-labelledby=\"begin\">\n<h1 id=\"begin\">What stands in the cabinet?</h1>\n")
	b.WriteString("<p>Follow the pipe from the pump with a finger, and pick what comes nearest. Its description is written into the folder dryfit was started in; what only you can know is asked for then.</p>\n")
	b.WriteString("<p><label for=\"begin-name\">Name of the file</label> <input type=\"text\" id=\"begin-name\" value=\"job.toml\" spellcheck=\"false\" autocomplete=\"off\"></p>\n<p id=\"begin-said\" class=\"error\" role=\"alert\"></p>\n<div class=\"cards\">\n")
	for _, name := range description.Templates() {
		fmt.Fprintf(&b, "<div class=\"card\">%s<p>%s</p><button type=\"button\" data-begin=\"%s\">%s</button></div>\n", smallCircuit(name), text(circuitWords[name]), text(name), text(name))
	}
	b.WriteString("</div>\n</section>")
	return b.String()
}

// smallCircuit is the small drawing of a template; "" where there is none.
func smallCircuit(name string) string {
	data, err := circuits.ReadFile("circuits/" + name + ".svg")
	if err != nil {
		return ""
	}
	return string(data)
}

// FormHTML lists the keys of a description as a form: the tables open that have blanks, or an error
// among what was found, which stands at its key with what would be right.
func FormHTML(j *whatif.Job, found []graph.Diagnostic, units quantity.System) string {
	form := j.Form()
	if len(form) == 0 {
		return ""
	}
	blanks := 0
	for _, t := range form {
		blanks += t.Blanks
	}
	var b bytes.Buffer
	b.WriteString("<section aria-labelledby=\"keys\">\n<h2 id=\"keys\">The file, key by key</h2>\n")
	words := "Nothing is blank. What is typed here is put into the file at once, in its place."
	if blanks > 0 {
		words = fmt.Sprintf("%d blanks are left. What is typed is put into the file at once, in its place, with its unit (\"450 mm\", \"95 l/min\", \"38 °C\"). What may be left open says what is taken then.", blanks)
		if blanks == 1 {
			words = "1 blank is left." + words[len("1 blanks are left."):]
		}
	}
	fmt.Fprintf(&b, "<p class=\"writes\">%s</p>\n", text(words))
	wrong := errorsAt(j, form, found)
	wrong.list(&b, units)
	if name := j.Circuit(); name != "" && blanks > 0 {
		fmt.Fprintf(&b, "<div class=\"where\">%s</div>\n", smallCircuit(name))
	}
	for i := range form {
		formTable(&b, &form[i], wrong, units)
	}
	b.WriteString("</section>")
	return b.String()
}

// formTable writes one table of the form: its blanks first, then the rest of it.
func formTable(b *bytes.Buffer, t *whatif.Table, wrong *wrongKeys, units quantity.System) {
	open, count := "", ""
	if wrong.in(t) {
		open, count = " open", " <b>(to mend)</b>"
	}
	if t.Blanks > 0 {
		open, count = " open", fmt.Sprintf(" <b>(%d to fill in)</b>", t.Blanks)
	}
	fmt.Fprintf(b, "<details data-keep=\"keys-%s\"%s data-owner=\"%s\"><summary>%s%s</summary>\n", text(t.Title), open, text(t.Owner), text(t.Title), count)
	wrong.say(b, t.Line, units)
	for i := range t.Fields {
		if t.Fields[i].Blank {
			wrong.say(b, t.Fields[i].Lines[0], units)
			field(b, &t.Fields[i])
		}
	}
	rest := len(t.Fields) - t.Blanks
	if t.Blanks > 0 && rest > 0 {
		restOpen := ""
		if wrong.in(t) {
			restOpen = " open"
		}
		fmt.Fprintf(b, "<details data-keep=\"rest-%s\"%s><summary>the rest of it</summary>\n", text(t.Title), restOpen)
	}
	for i := range t.Fields {
		if !t.Fields[i].Blank {
			wrong.say(b, t.Fields[i].Lines[0], units)
			field(b, &t.Fields[i])
		}
	}
	if t.Blanks > 0 && rest > 0 {
		b.WriteString("</details>\n")
	}
	b.WriteString("</details>\n")
}

func field(b *bytes.Buffer, f *whatif.Field) {
	path, err := json.Marshal(f.Path)
	key, err2 := json.Marshal(f.Key)
	if err != nil || err2 != nil {
		return
	}
	id := "key"
	for _, step := range f.Path {
		id += fmt.Sprintf("-%v", step)
	}
	class := "key"
	if f.Blank {
		class = "key blank"
	}
	var help []string
	add := func(words string) {
		for i, h := range help { // what says it and more takes its place
			if words != h && strings.HasPrefix(words, h) {
				help[i] = words
				return
			}
		}
		if said := strings.Join(help, "; "); words != "" && !strings.Contains(said, strings.TrimPrefix(words, "write ")) {
			help = append(help, words)
		}
	}
	add(f.Means)
	if f.Blank {
		add(f.Help)
		add(f.Hint.In(quantity.MetricSystem))
		if f.IsOpen && f.Open != "" {
			add("left open: " + f.Open)
		} else if f.IsOpen {
			add("may be left open")
		}
	}
	fmt.Fprintf(b, "<div class=\"%s\"><label for=\"%s\">%s</label>\n", class, text(id), text(f.Label))
	fmt.Fprintf(b, "<input type=\"text\" id=\"%s\" data-path=\"%s\" value=\"%s\" spellcheck=\"false\" autocomplete=\"off\" aria-describedby=\"%s-help\">\n", text(id), text(string(path)), text(f.Value), text(id))
	if f.Blank && f.IsOpen {
		fmt.Fprintf(b, "<button type=\"button\" data-open=\"%s\">Leave it open</button>\n", text(string(key)))
	}
	fmt.Fprintf(b, "<p class=\"note\" id=\"%s-help\">", text(id))
	for i, h := range help {
		if i > 0 {
			b.WriteString("; ")
		}
		b.WriteString(text(h))
	}
	b.WriteString("</p><p class=\"error said\" role=\"alert\"></p></div>\n")
}

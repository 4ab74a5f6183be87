package description

import "fmt"

// Moves says under which key of which list what a key said is written once the work is built in: what
// was to be kept clear is held by the part it is counted from.
func Moves(key string) (list, to string) {
	if key == "retrofit.keep-clear" {
		return "part", "keep-clear"
	}
	return "", ""
}

// Names are the names by which an element of a list of tables is known again in another text of the same
// job: a part, a run, a mode or a row; of a run that was cut what is left of it has its name too. None:
// those of its list are written in their order.
func Names(list string, element map[string]any) []string {
	var out []string
	add := func(key string) {
		if s, ok := element[key].(string); ok {
			out = append(out, s)
		}
	}
	switch list {
	case "part":
		add("id")
	case "run":
		add("id")
		add("remains-of")
		out = append(out, fmt.Sprintf("%v>%v", element["from"], element["to"]))
	case "stock", "shell", "supply", "reading", "accept":
	default:
		add("name")
	}
	return out
}

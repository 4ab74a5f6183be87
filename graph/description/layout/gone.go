package layout

import (
	"reflect"
	"strconv"
	"strings"
)

// ruledOff reports whether a remark is a heading, ruled off from what it stands before: "--- the work ---".
func ruledOff(lines []string) bool {
	for _, l := range lines {
		text := strings.TrimSpace(strings.TrimLeft(l, "#"))
		for _, rule := range []string{"---", "===", "***", "___", "~~~", "+++"} {
			if strings.HasPrefix(text, rule) || strings.HasSuffix(text, rule) {
				return true
			}
		}
		if strings.HasPrefix(l, "###") || strings.HasSuffix(l, "###") {
			return true
		}
	}
	return false
}

// ofGone is what stands by itself before an item that is not written any more, with the name of its table.
func (o *outline) ofGone(i int, names Names) []string {
	path := o.items[i].path
	if t := o.items[i].table; t >= 0 {
		path = o.items[t].path
	}
	name := o.called(path, names) + ", which is gone: "
	var out []string
	first := true
	for _, l := range o.items[i].apart {
		if first && l != "" && !strings.HasPrefix(l, "# before "+name) {
			l = "# before " + name + strings.TrimLeft(l, "# \t")
		}
		first = l == ""
		out = append(out, l)
	}
	return out
}

// called is a table as its reader knows it: [retrofit], or an element of a list by its name.
func (o *outline) called(path []string, names Names) string {
	for n := len(path); n > 1; n-- {
		number, ok := strings.CutPrefix(path[n-1], "#")
		if !ok {
			continue
		}
		k, _ := strconv.Atoi(number)
		list := o.lists[key(path[:n-1])]
		if k >= len(list) {
			break
		}
		if name := names(strings.Join(path[:n-1], "."), list[k]); len(name) > 0 {
			return strings.Join(path[:n-1], ".") + " " + strconv.Quote(name[0])
		}
		return "[[" + strings.Join(path[:n-1], ".") + "]]"
	}
	return "[" + strings.Join(path, ".") + "]"
}

// moved finds where what keys said is written whose table is not: under another key of the element of a
// list that says more there than it did.
func (o *outline) moved(was *outline, at []int, found map[string]string, moves Moves) {
	if moves == nil {
		return
	}
	for i := range was.items {
		it := &was.items[i]
		list, to := moves(strings.Join(it.path, "."))
		if it.head || at[i] >= 0 || to == "" {
			continue
		}
		said := map[string]int{} // by the element's number here, how much it said
		for k, e := range was.lists[list] {
			said[found[list+"\x00#"+strconv.Itoa(k)]] = length(e[to])
		}
		for k := range o.items {
			now := &o.items[k]
			if now.head || len(now.path) != 3 || now.path[0] != list || now.path[2] != to {
				continue
			}
			if n, err := strconv.Atoi(strings.TrimPrefix(now.path[1], "#")); err == nil && n < len(o.lists[list]) && length(o.lists[list][n][to]) > said[now.path[1]] {
				at[i] = k
				break
			}
		}
	}
}

// length is how many values a list has; of what is none 0.
func length(v any) int {
	if l := reflect.ValueOf(v); l.Kind() == reflect.Slice {
		return l.Len()
	}
	return 0
}

package layout

import (
	"maps"
	"slices"
	"strconv"
	"strings"

	"github.com/BurntSushi/toml"
)

// pathOf is the path of what a line of code begins: the head of a table, or a key under one. Elements of
// lists are counted as they come, and noted with what they hold.
func pathOf(code string, under []string, counted map[string]int, all map[string]any, lists map[string][]map[string]any) ([]string, bool) {
	name, element := strings.CutPrefix(code, "[[")
	if !element {
		var head bool
		if name, head = strings.CutPrefix(code, "["); !head {
			keys, ok := keysOf(code)
			return append(slices.Clip(under), keys...), ok
		}
	}
	keys, ok := keysOf(name)
	if !ok {
		return nil, false
	}
	var path []string
	var at any = all
	for i, k := range keys {
		path = append(path, k)
		if table, ok := at.(map[string]any); ok {
			at = table[k]
		}
		list := key(path)
		if element && i == len(keys)-1 {
			counted[list]++
		}
		n := counted[list]
		if n == 0 {
			continue
		}
		path = append(path, "#"+strconv.Itoa(n-1))
		if of, ok := at.([]map[string]any); ok && n <= len(of) {
			at, lists[list] = of[n-1], of
		}
	}
	return path, true
}

// keysOf are the names of a key that is dotted or not, up to what ends it.
func keysOf(code string) ([]string, bool) {
	end := len(code)
	for i := 0; i < len(code) && end == len(code); {
		switch code[i] {
		case '"', '\'':
			i = quoted(code, i)
		case '=', ']':
			end = i
		default:
			i++
		}
	}
	var read map[string]any
	if toml.Unmarshal([]byte(code[:end]+" = 0"), &read) != nil {
		return nil, false
	}
	var out []string
	for read != nil {
		var next map[string]any
		for k, v := range read {
			out = append(out, k)
			next, _ = v.(map[string]any)
		}
		read = next
	}
	return out, len(out) > 0
}

func key(path []string) string { return strings.Join(path, "\x00") }

// found tells of the elements of another text's lists which they are in this one: by path the number
// they have here, one that no element has where it is not here any more.
func (o *outline) found(was *outline, names Names) map[string]string {
	out := map[string]string{}
	for _, list := range slices.Sorted(maps.Keys(was.lists)) {
		here, there, called := o.lists[list], was.lists[list], strings.ReplaceAll(list, "\x00", ".")
		named := map[string][]int{} // by name the elements that have it, in their order
		for k, h := range here {
			for _, n := range names(called, h) {
				named[n] = append(named[n], k)
			}
		}
		taken := map[int]bool{}
		for i, e := range there {
			at := "#gone"
			mine := names(called, e)
			if len(mine) == 0 && len(here) == len(there) {
				at = "#" + strconv.Itoa(i)
			}
			for _, n := range mine {
				k := slices.IndexFunc(named[n], func(k int) bool { return !taken[k] })
				if k >= 0 {
					taken[named[n][k]] = true
					at = "#" + strconv.Itoa(named[n][k])
					break
				}
			}
			out[list+"\x00#"+strconv.Itoa(i)] = at
		}
	}
	return out
}

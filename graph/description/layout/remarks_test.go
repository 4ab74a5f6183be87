package layout

import (
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/BurntSushi/toml"
)

// byID knows elements again by their id, else by what they are what is left of.
func byID(_ string, element map[string]any) []string {
	var out []string
	for _, key := range []string{"id", "remains-of"} {
		if s, ok := element[key].(string); ok {
			out = append(out, s)
		}
	}
	return out
}

// moves are those of these tests.
func moves(key string) (list, to string) {
	if key == "ask.clear" {
		return "p", "clear"
	}
	return "", ""
}

// A remark goes where its key or table is written now, wherever that is; with a table that is not written
// any more it goes. Each case by hand.
func TestCarry(t *testing.T) {
	for _, c := range []struct{ name, from, to, want string }{
		{"behind and above", "[t]\n# why\na = 1 # one\nb = 2\n", "[t]\nb = 2\na = 1\n", "[t]\nb = 2\n# why\na = 1                        # one\n"},
		{"the head of the file", "# invented\n\n# about t\n[t]\na = 1\n", "[s]\nb = 2\n\n[t]\na = 1\n", "# invented\n\n[s]\nb = 2\n\n# about t\n[t]\na = 1\n"},
		{"a head whose table is not there any more", "# invented\n[ask]\na = 1\n[t]\na = 1\n", "[t]\na = 1\n", "# invented\n\n[t]\na = 1\n"},
		{"the element of the same id", "[[p]]\nid = \"x\" # first\n# of y\n[[p]]\nid = \"y\"\n", "[[p]]\nid = \"y\"\n\n[[p]]\nid = \"n\"\n\n[[p]]\nid = \"x\"\n",
			"# of y\n[[p]]\nid = \"y\"\n\n[[p]]\nid = \"n\"\n\n[[p]]\nid = \"x\"                     # first\n"},
		{"what is left of it", "# measured twice\n[[p]]\nid = \"x\"\nl = 1 # with a rod\n", "[[p]]\nremains-of = \"x\"\nl = 0.5\n\n[[p]]\nremains-of = \"x\"\nl = 0.4\n",
			"# measured twice\n[[p]]\nremains-of = \"x\"\nl = 0.5                      # with a rod\n\n[[p]]\nremains-of = \"x\"\nl = 0.4\n"},
		{"a table that is gone, and its heading", "[s]\na = 1\n\n# --- the work ---\n\n# what to ask\n[ask]\nb = 1 # no more\n\n[t]\nc = 1\n", "[s]\na = 1\n\n[t]\nc = 1\n", "[s]\na = 1\n\n# --- the work ---\n\n[t]\nc = 1\n"},
		{"a heading with nothing left below it", "[s]\na = 1\n\n# --- the work ---\n\n[ask]\nb = 1\n", "[s]\na = 1\n", "[s]\na = 1\n\n# --- the work ---\n"},
		{"a key that is not written", "[t]\na = 1\n# read off it\nkv = 2 # on Monday\nb = 1\n", "[t]\na = 1\nb = 1\n\n[u]\nc = 1\n", "[t]\na = 1\nb = 1\n# kv: read off it\n# on Monday\n\n[u]\nc = 1\n"},
		{"another way to write a table", "[t]\np.in = { a = 1 } # left\np.out.b = 2 # right\n[t.q]\nx = 1 # up\n", "[t]\np = { in = { a = 1 }, out = { b = 2 } }\nq.x = 1\n", "[t]\n# left\n# right\np = { in = { a = 1 }, out = { b = 2 } }\nq.x = 1                      # up\n"},
		{"inside a list", "[t]\n# the curve\nl = [ # by gauge\n  1,\n  # shut\n  2, # open\n] # so far\nm = 1\n", "[t]\nl = [1, 2]\nm = 1\n", "[t]\n# the curve\n# by gauge\n# shut\n# open\nl = [1, 2]                   # so far\nm = 1\n"},
		{"no remark", "[t]\na = \"# no\"\nb = '''\n# no\n''' # yes\n\"k # no\" = 1 # key\n", "[t]\na = \"# no\"\nb = \"# no\\n\"\n\"k # no\" = 1\n", "[t]\na = \"# no\"\nb = \"# no\\n\"                 # yes\n\"k # no\" = 1                 # key\n"},
		{"below, and at the end", "[t]\na = 1\n# b = 2\n\n[u]\nc = 1\n# d = 3\n\n# the end\n", "[t]\na = 1\nb = 2\n\n[u]\nc = 1\n", "[t]\na = 1\n# b = 2\n\nb = 2\n\n[u]\nc = 1\n# d = 3\n\n# the end\n"},
		{"ends of lines and a mark", "\ufeff# head\r\n\r\n[t]\r\na = 1 # one\r\n", "[t]\na = 1\n", "# head\n\n[t]\na = 1                        # one\n"},
		{"lists in lists", "[c.x]\n[[c.y]]\nid = \"1\" # one\n[[c.y]]\nid = \"2\" # two\n", "[[c.y]]\nid = \"2\"\n", "[[c.y]]\nid = \"2\"                     # two\n"},
		{"nothing to carry", "[t]\na = 1\n", "[t]\na = 1\n", "[t]\na = 1\n"},
		{"what stands by itself before a table that is gone", "[s]\na = 1\n\n# the old one\n# is broken\n\n# says Ann\n\n[[p]]\nid = \"x\"\n\n[[p]]\nid = \"y\"\n", "[s]\na = 1\n\n[[p]]\nid = \"y\"\n",
			"[s]\na = 1\n\n# before p \"x\", which is gone: the old one\n# is broken\n\n# before p \"x\", which is gone: says Ann\n\n[[p]]\nid = \"y\"\n"},
		{"the same at the end", "[s]\na = 1\n\n# what is asked\n\n[ask]\nb = 1\n", "[s]\na = 1\n", "[s]\na = 1\n\n# before [ask], which is gone: what is asked\n"},
		{"a key that is written elsewhere", "[[p]]\nid = \"x\"\nclear = [1]\n\n[[p]]\nid = \"y\"\n\n[ask]\n# what opens\nclear = [ # two\n  2, # the door\n  3, # the step\n] # in May\nb = 1 # gone\n",
			"[[p]]\nid = \"x\"\nclear = [1]\n\n[[p]]\nid = \"y\"\nclear = [2, 3]\n",
			"[[p]]\nid = \"x\"\nclear = [1]\n\n[[p]]\nid = \"y\"\n# what opens\n# two\n# the door\n# the step\nclear = [2, 3]               # in May\n"},
		{"no TOML", "[t\n# a", "[t]\na = 1\n", "[t]\na = 1\n"},
	} {
		got := string(Carry([]byte(c.from), []byte(c.to), byID, moves))
		if got != c.want {
			t.Errorf("%s:\n%s\nwant\n%s", c.name, got, c.want)
		}
		if again := string(Carry([]byte(got), []byte(c.to), byID, moves)); again != got && c.name != "a key that is not written" {
			t.Errorf("%s, once more:\n%s\nwas\n%s", c.name, again, got)
		}
	}
}

// bare is a text without its remarks.
func bare(text []byte) []byte {
	var b strings.Builder
	for _, l := range split(string(text)) {
		switch {
		case l.opens:
			b.WriteString(strings.TrimSuffix(l.raw, "\r") + l.end)
		case l.inside && l.comment != "":
			b.WriteString(l.raw[:strings.LastIndex(l.raw, l.comment)] + "\n")
		case l.inside:
			b.WriteString(l.raw + "\n")
		case l.code != "":
			b.WriteString(l.code + "\n")
		}
	}
	return []byte(b.String())
}

// Of any text, written again without its remarks, no remark is lost, and what it says stays.
func FuzzCarry(f *testing.F) {
	for _, seed := range []string{
		"# head\n\n[t] # t\n# a\na = 1 # one\n\n# apart\n\n[[p]]\nl = [ # x\n 1, # y\n] # z\n# below\n\n# end",
		"a.b = 1 # 1\n[a.c]\n# c\nd = '''\n# no\n''' # d\n[[e.f]] # f\n[[e.f]]\ng = { h = \"# no\" } # g\n[e.f.i]\nj = 1 # j\n",
	} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		var said, says map[string]any
		without := bare(text)
		if toml.Unmarshal(text, &said) != nil || toml.Unmarshal(without, &says) != nil || !reflect.DeepEqual(said, says) {
			return
		}
		out := Carry(text, without, func(string, map[string]any) []string { return nil }, nil)
		says = nil
		if err := toml.Unmarshal(out, &says); err != nil || !reflect.DeepEqual(said, says) {
			t.Fatalf("it says something else: %v\n%q", err, out)
		}
		had, has := comments(split(string(text))), comments(split(string(out)))
		slices.Sort(had)
		slices.Sort(has)
		if !slices.Equal(had, has) {
			t.Errorf("remarks %q of %q have become %q in %q", had, text, has, out)
		}
	})
}

package field

import (
	"fmt"

	"strings"
	"unicode"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
)

// Quote writes a text as a TOML basic string.
func Quote(s string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, c := range s {
		switch {
		case c == '"' || c == '\\':
			b.WriteByte('\\')
			b.WriteRune(c)
		case c == '\n':
			b.WriteString(`\n`)
		case c == '\t':
			b.WriteString(`\t`)
		case c == '\r':
			b.WriteString(`\r`)
		case unicode.IsControl(c):
			fmt.Fprintf(&b, `\u%04x`, c)
		default:
			b.WriteRune(c)
		}
	}
	b.WriteByte('"')
	return b.String()
}

// Key writes a key, in quotes where it needs them.
func Key(s string) string {
	const bare = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-_"
	if s != "" && strings.Trim(s, bare) == "" {
		return s
	}
	return Quote(s)
}

// exact writes a value given in the base unit so that it reads back to the same value.
func exact(v float64, d quantity.Dimension) string { return quantity.Exact(v, d) }

// ExactText is exact in quotes.
func ExactText(v float64, d quantity.Dimension) string { return Quote(exact(v, d)) }

// Percent writes a share so that it reads back to the same value.
func Percent(v float64) string { return Quote(quantity.Exact(v, quantity.Share)) }

// SizeText writes a nominal size; "" for none.
func SizeText(s catalog.Size) string {
	if s.IsZero() {
		return ""
	}
	return Quote(s.Exact())
}

// DropText writes a drop or a head.
func DropText(d graph.Drop) string { return ExactText(d.Value, d.Dimension()) }

// Components writes a vector as "right 300 mm", "up 180 mm", …; those of zero left out.
func Components(v graph.Vec) []string {
	var out []string
	for _, c := range v.Components() {
		out = append(out, c.Word+" "+exact(c.By, quantity.Length))
	}
	return out
}

// DirectionText writes a way along an axis; "" for none.
func DirectionText(v graph.Vec) string {
	for _, c := range v.Components() {
		return Quote(c.Word)
	}
	return ""
}

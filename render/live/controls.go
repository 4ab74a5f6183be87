package live

import (
	"bytes"
	"fmt"

	"dryfit/catalog/quantity"
	"dryfit/graph/whatif"
)

// ControlsID is the section that holds what can be turned.
const ControlsID = "side-turn"

// ControlsHTML lists what can be turned, group by group.
func ControlsHTML(s *whatif.Study) string {
	var b bytes.Buffer
	b.WriteString("<section aria-labelledby=\"turn\">\n<h2 id=\"turn\">What if</h2>\n")
	if len(s.Controls) == 0 {
		b.WriteString("<p>Nothing can be turned yet: no water moves.</p>\n</section>")
		return b.String()
	}
	b.WriteString("<p class=\"note\">Turn something: the answer above follows. The file stays as it is<span class=\"writes\"> until you put it there</span>.</p>\n")
	group := ""
	for i := range s.Controls {
		c := &s.Controls[i]
		if c.ID == whatif.CutID { // it is moved on the drawing
			continue
		}
		if c.Group != group {
			if group != "" {
				b.WriteString("</details>\n")
			}
			group = c.Group
			open := ""
			if i == 0 {
				open = " open"
			}
			fmt.Fprintf(&b, "<details data-keep=\"turn-%s\"%s><summary>%s</summary>\n", text(group), open, text(group))
		}
		control(&b, c)
	}
	if group != "" {
		b.WriteString("</details>\n")
	}
	b.WriteString("</section>")
	return b.String()
}

func control(b *bytes.Buffer, c *whatif.Control) {
	id := text(c.ID)
	only := ""
	if !c.InFile {
		only = " <span class=\"only\">(to try only: no key of the file says it)</span>"
	}
	fmt.Fprintf(b, "<div class=\"turn\" data-id=\"%s\">\n<label for=\"turn-%s\">%s%s</label>\n", id, id, text(c.Label), only)
	if len(c.Choices) > 0 {
		fmt.Fprintf(b, "<select id=\"turn-%s\" data-turn=\"%s\" data-now=\"\">\n", id, id)
		for _, ch := range c.Choices {
			fmt.Fprintf(b, "<option value=\"%s\">%s</option>\n", text(ch.Value), text(ch.Label))
		}
		b.WriteString("</select>\n</div>\n")
		return
	}
	fmt.Fprintf(b, "<output for=\"turn-%s\">%s %s</output>\n", id, quantity.Trim(c.Now), text(c.Unit))
	of := ""
	if c.Of != "" {
		of = fmt.Sprintf(" data-of=\"%s\"", text(c.Of))
	}
	fmt.Fprintf(b, "<input type=\"range\" id=\"turn-%s\" data-turn=\"%s\"%s data-now=\"%s\" data-unit=\"%s\" min=\"%s\" max=\"%s\" step=\"%s\" value=\"%s\">\n</div>\n",
		id, id, of, quantity.Trim(c.Now), text(c.Unit), quantity.Trim(c.Low), quantity.Trim(c.High), quantity.Trim(c.Step), quantity.Trim(c.Now))
}

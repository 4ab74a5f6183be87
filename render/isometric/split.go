package isometric

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"dryfit/render/isometric/members"
	"dryfit/render/isometric/picture"
	"dryfit/render/isometric/space"
	"dryfit/render/sheet"
)

// mostMembers is what one sheet holds at most: more cannot be labelled readably on A4. A3
// holds twice as many.
const mostMembers = 30

// cutClear is how far from both ends of a leg it may be cut by a match line, mm: farther than a
// joint stands from a centre.
const cutClear = 60.0

// leastMembers is what a sheet made by a split must hold.
const leastMembers = 5

// wholeOf draws the members on one sheet; over where that cannot hold them and they can be cut
// in two.
func wholeOf(d *members.Drawing, ms []members.Member) (groups []group, over bool) {
	g := group{ms: ms}
	if !tooLarge(d, ms) {
		d.Hope = true
		g.pic, g.fits = fitTo(d, ms)
		if d.Hope = false; g.fits {
			return []group{g}, false
		}
	}
	if len(planesOf(ms)) > 0 {
		return nil, true
	}
	if g.pic == nil {
		g.pic = forceOn(d, ms)
	} else {
		g.pic = enlarged(d, g.pic)
	}
	return []group{g}, false
}

// halvesOf shares the members out over sheets: cut in two by a plane across the pipes, and
// those again while one sheet cannot hold them. Where a label then finds no room, the next planes
// are tried, and the sheets with the fewest such labels taken, of equals the first.
func halvesOf(d *members.Drawing, ms []members.Member) []group {
	var best []group
	least, matches, after := math.MaxInt, d.Matches, d.Matches
	for _, plane := range planesOf(ms) {
		d.Matches = matches
		left, right := plane.part(d, ms)
		groups := append(splitUp(d, left), splitUp(d, right)...)
		if n := roomless(groups); n < least {
			best, least, after = groups, n, d.Matches
		}
		if least == 0 || d.Recut == mostRecut || d.Work.Done() {
			break
		}
		d.Recut++
	}
	if d.Matches = after; best == nil {
		return []group{{ms: ms, pic: forceOn(d, ms)}}
	}
	return best
}

// roomless is how many labels found no room on their sheets.
func roomless(groups []group) int {
	n := 0
	for _, g := range groups {
		n += g.pic.Roomless()
	}
	return n
}

// splitUp draws members on one sheet if that can hold them, else cut in two.
func splitUp(d *members.Drawing, ms []members.Member) []group {
	g := group{ms: ms}
	if !tooLarge(d, ms) {
		if g.pic, g.fits = fitTo(d, ms); g.fits || d.Work.Done() && g.pic.Labelled {
			g.pic.Finish()
			return []group{g}
		}
	}
	if len(planesOf(ms)) == 0 {
		if g.pic == nil {
			g.pic = forceOn(d, ms)
		} else {
			g.pic = enlarged(d, g.pic)
		}
		return []group{g}
	}
	return halvesOf(d, ms)
}

// tooLarge reports whether members plainly do not go on one sheet.
func tooLarge(d *members.Drawing, ms []members.Member) bool {
	w, h := d.In.Page.Format.Size(d.In.Page.Orientation)
	if float64(len(ms)) > mostMembers*w*h/(297*210) {
		return true
	}
	p := &picture.Picture{D: d, Ms: ms, Sp: d.SpaceOf(ms, leastScale, [3]map[int]float64{})}
	p.A, p.B = members.Show(ms, p.Sp)
	f, room := p.Frame(), d.Room()
	return f.W() > room.W()+members.LabelRoom || f.H() > room.H()+members.LabelRoom
}

// cutPlane is a cut across an axis.
type cutPlane struct {
	ax   space.Axis
	at   float64
	cost int
}

// How many planes are tried where labels find no room, at one cut and on all sheets together.
const (
	mostPlanes = 3
	mostRecut  = 6
)

// planesOf are the planes that members may be parted by, first those that cross the fewest pipes and
// leave both sides nearly alike.
func planesOf(ms []members.Member) []cutPlane {
	var out []cutPlane
	for ax := space.Axis(0); ax < 3; ax++ {
		var vals []float64
		for i := range ms {
			vals = append(vals, ax.Of(ms[i].A), ax.Of(ms[i].B))
		}
		l := space.NewLevels(vals)
		for k := 0; k+1 < len(l.Real); k++ {
			if c := (cutPlane{ax: ax, at: (l.Real[k] + l.Real[k+1]) / 2}); c.weigh(ms) {
				out = append(out, c)
			}
		}
	}
	slices.SortStableFunc(out, func(a, b cutPlane) int { return cmp.Compare(a.cost, b.cost) })
	return out[:min(len(out), mostPlanes)]
}

// part parts members by the plane.
func (c *cutPlane) part(d *members.Drawing, ms []members.Member) (left, right []members.Member) {
	for i := range ms {
		m := ms[i]
		va, vb := c.ax.Of(m.A)-c.at, c.ax.Of(m.B)-c.at
		switch {
		case va < 0 && vb < 0:
			left = append(left, m)
		case va > 0 && vb > 0:
			right = append(right, m)
		default:
			d.Matches++
			name := sheet.MatchLetter(d.Matches - 1)
			m, n := m.Halves(m.A.Add(m.Way().Scale(va/(va-vb))), name)
			if va < 0 {
				left, right = append(left, m), append(right, n)
			} else {
				left, right = append(left, n), append(right, m)
			}
		}
	}
	return left, right
}

// weigh works out the cost of a cut; false where it cannot be made.
func (c *cutPlane) weigh(ms []members.Member) bool {
	below, above, across := 0, 0, 0
	for i := range ms {
		m := &ms[i]
		va, vb := c.ax.Of(m.A)-c.at, c.ax.Of(m.B)-c.at
		switch {
		case va < 0 && vb < 0:
			below++
		case va > 0 && vb > 0:
			above++
		case m.Run == nil || len(space.AxesOf(m.Way())) != 1 || math.Min(math.Abs(va), math.Abs(vb)) < cutClear:
			return false
		default:
			across++
		}
	}
	c.cost = 4*across + int(math.Abs(float64(below-above)))
	return below >= leastMembers && above >= leastMembers
}

// matchNote says where the pipes go on that are cut on a sheet.
func matchNote(d *members.Drawing, groups []group, k int) string {
	var words []string
	for _, name := range groups[k].cuts() {
		for j := range groups {
			if j != k && slices.Contains(groups[j].cuts(), name) {
				words = append(words, name+" on sheet "+picture.Number(max(1, d.In.Sheet)+j))
			}
		}
	}
	if len(words) == 0 {
		return ""
	}
	return "Match lines: " + strings.Join(words, ", ") + "."
}

// cuts lists the match lines on a sheet.
func (g *group) cuts() []string {
	var out []string
	for i := range g.ms {
		for _, name := range []string{g.ms[i].CutA, g.ms[i].CutB} {
			if name != "" {
				out = append(out, name)
			}
		}
	}
	slices.Sort(out)
	return out
}

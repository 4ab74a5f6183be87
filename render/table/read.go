package table

import (
	"fmt"
	"strings"

	"dryfit/graph/hydraulic/spread"
	"dryfit/render/table/form"
	"dryfit/render/tag"
)

// readLines says what was read on the tub as it stands, against what the description comes to there,
// and what the ranges make of it.
func readLines(r *spread.Ranges, names *tag.Names, s form.Style) []string {
	var out []string
	for i := range r.Read {
		q := &r.Read[i]
		say, word := s.Flow, "passes"
		if q.Pressed() {
			say, word = s.Pressure, "stands under"
		}
		off := strings.TrimSuffix(form.Fixed(100*q.Off, 1), ".0") + " %"
		if q.Pressed() {
			off = say(q.Off)
		}
		line := fmt.Sprintf("Read at %q, %s: it %s %s, good for %s.", q.At, modeWords(names, q.Mode), word, say(q.Value()), off)
		if q.Unanswered {
			out = append(out, line+" Nothing is held against it: the circuit as it stands has no answer there.")
			continue
		}
		line += fmt.Sprintf(" As described it is %s", say(q.AsDescribed))
		if q.Was.Of > 0 {
			line += fmt.Sprintf(", and by what else is not known nine in ten lie %s", q.Was.Between(say, ""))
		}
		if r.Contradicted() {
			line += fmt.Sprintf("; in the case worked with, the likeliest by both, it is %s", say(q.Taken))
		}
		out = append(out, line+".")
	}
	out = append(out, againstLines(r, names, s)...)
	switch {
	case r.Unfit && len(r.Read) > 1:
		out = append(out, "Nothing that the file leaves open fits all that was read: none of it is counted, and the case stays as described. A reading is wrong, or something in the file is that no guess covers.")
	case r.Unfit:
		out = append(out, "Nothing that the file leaves open fits what was read: it is not counted, and the case stays as described. The reading is wrong, or something in the file is that no guess covers.")
	case r.Narrowed() && r.Coarser > 0:
		out = append(out, fmt.Sprintf("Ranges and promises are of the %d of %d samples that fit what was read, taken as %s times less exact so that enough do.", r.Samples, r.Tried, coarserWords(r)))
	case r.Narrowed():
		out = append(out, fmt.Sprintf("Ranges and promises are of the %d of %d samples that fit what was read.", r.Samples, r.Tried))
	}
	return out
}

// againstLines says of what was read which two can't both be so, each two once.
func againstLines(r *spread.Ranges, names *tag.Names, s form.Style) (out []string) {
	said := func(q *spread.Read) string {
		say := s.Flow
		if q.Pressed() {
			say = s.Pressure
		}
		return fmt.Sprintf("%s at %q, %s", say(q.Value()), q.At, modeWords(names, q.Mode))
	}
	for i := range r.Read {
		for _, k := range r.Read[i].Against {
			if k > i {
				out = append(out, fmt.Sprintf("By itself each may be so, but not both: %s; and %s.", said(&r.Read[i]), said(&r.Read[k])))
			}
		}
	}
	return out
}

// coarserWords is how many times less exact what was read is taken.
func coarserWords(r *spread.Ranges) string {
	return strings.TrimSuffix(form.Fixed(r.CoarserTimes(), 1), ".0")
}

type readJSON struct {
	At          string     `json:"at"`
	Mode        string     `json:"mode"`
	Flow        *float64   `json:"flow_m3_h,omitempty"`
	FlowOff     *float64   `json:"plus_minus_percent,omitempty"`
	Pressure    *float64   `json:"pressure_kPa,omitempty"`
	PressureOff *float64   `json:"plus_minus_kPa,omitempty"`
	AsDescribed *float64   `json:"as_described,omitempty"` // neither where the circuit as it stands has no answer there
	Taken       *float64   `json:"as_fitted,omitempty"`    // in the case that is worked with, where that is fitted to what was read
	Was         *rangeJSON `json:"range_before,omitempty"`
	Fits        bool       `json:"fits"`
	// where no sample fits all that was read: whether one fits this by itself, and with which of the others
	// none does, by their places in this list, counted from 0
	FitsAlone *bool `json:"fits_by_itself,omitempty"`
	Against   []int `json:"contradicts,omitempty"`
}

// readOf prints what was read.
func readOf(r *spread.Ranges) []readJSON {
	var out []readJSON
	for i := range r.Read {
		q := &r.Read[i]
		j := readJSON{At: q.At, Mode: q.Mode, Fits: !q.Unanswered && !r.Unfit}
		digits := form.M3h
		if q.Pressed() {
			digits = form.KPa
			j.Pressure, j.PressureOff = form.Ptr(form.KPa(q.Value())), form.Ptr(form.KPa(q.Off))
		} else {
			j.Flow, j.FlowOff = form.Ptr(form.M3h(q.Value())), form.Ptr(form.Round(100*q.Off, 2))
		}
		if !q.Unanswered {
			j.AsDescribed, j.Was = form.Ptr(digits(q.AsDescribed)), sampleRange(q.Was, digits)
		}
		if r.Contradicted() && !q.Unanswered {
			j.Taken = form.Ptr(digits(q.Taken))
		}
		if r.Unfit && !q.Unanswered {
			j.FitsAlone, j.Against = &q.Alone, q.Against
		}
		out = append(out, j)
	}
	return out
}

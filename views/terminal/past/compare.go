package past

import (
	"cmp"
	"fmt"
	"strings"

	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/scope"
	"spotward/session/shelf"
	"spotward/views/desk"
	"spotward/views/schematic"
	"spotward/views/terminal/align"
	"spotward/views/terminal/frame"
	"spotward/views/theme"
)

// side is one of two sessions that are compared.
type side struct {
	r     session.Record
	name  string
	tel   optics.Telescope
	looks []desk.Look
}

// newCompare sets two sessions side by side, the older one first.
func newCompare(d *desk.Desk, a, b session.Record) (frame.Screen, error) {
	if b.Began.Before(a.Began) {
		a, b = b, a
	}
	sides := [2]side{{r: a, name: dayText(a)}, {r: b, name: dayText(b)}}
	if sides[0].name == sides[1].name {
		sides[0].name, sides[1].name = a.Began.Local().Format("2 Jan 15:04"), b.Began.Local().Format("2 Jan 15:04")
	}
	for i := range sides {
		s := &sides[i]
		frames, _, err := d.Replay(s.r.ID)
		if err != nil {
			return nil, err
		}
		if len(frames) > 0 {
			s.tel = frames[len(frames)-1].State.Tel
		}
		s.looks, _ = desk.Looks(frames)
	}
	al := Album{title: cmp.Or(sameScope(a, b), a.Scope+" and "+b.Scope), note: sides[0].name + " and " + sides[1].name}
	for _, f := range []optics.Face{optics.FacePrimary, optics.FaceTarget} {
		al.pictures = append(al.pictures, comparedFace(sides, f)...)
	}
	al.plotHead = "axis error after each look; 1x was allowed"
	al.plot = comparedPlot(sides)
	al.Parts = append(comparedParts(sides), betweenParts(d, sides)...)
	return &AlbumPage{Album: al}, nil
}

func dayText(r session.Record) string { return shortDay(r.Began) }

// sameScope returns the name of the scope that both are about, or "".
func sameScope(a, b session.Record) string {
	if scope.SameName(a.Scope, b.Scope) {
		return a.Scope
	}
	return ""
}

// comparedFace draws a face twice, to one scale: from where it was found to
// where it was left.
func comparedFace(sides [2]side, f optics.Face) []picture {
	var out []picture
	var both schematic.FaceSpec
	name := "primary"
	if f == optics.FaceTarget {
		name = "face"
	}
	for _, s := range sides {
		found, left := s.r.Found.P, s.r.Left.P
		if f == optics.FaceTarget {
			found, left = s.r.Found.T, s.r.Left.T
		}
		spec := plainFace(s.tel, f)
		if at, ok := markPlace(s.tel, f, found); ok {
			spec.Trail = []schematic.Mark{{At: at, Word: "found"}}
		}
		if at, ok := markPlace(s.tel, f, left); ok {
			spec.Now = &schematic.Mark{At: at, Word: "left"}
			both.Trail = append(both.Trail, *spec.Now)
		}
		both.Trail = append(both.Trail, spec.Trail...)
		words := howFar(s.tel, f, found) + ", then " + howFar(s.tel, f, left)
		out = append(out, picture{title: name + ", " + s.name, words: words, spec: spec})
	}
	rim := schematic.RimFor(both, append(nearRims(sides[0].tel, f), align.Rims(sides[1].tel, f)...)...)
	for i := range out {
		out[i].spec.RimMM = rim
		align.Measured(&out[i].spec, sides[i].tel, f, frame.Sizes{})
	}
	return out
}

// howFar says how far off a spot was, in as few words as there are.
func howFar(tel optics.Telescope, f optics.Face, m *session.Mark) string {
	at, ok := markPlace(tel, f, m)
	switch {
	case m == nil:
		return "unread"
	case !ok:
		return "gone"
	case m.Saw == event.SawHome:
		return "home"
	case m.Saw == event.SawWithin || m.Saw == event.SawInRing:
		return "inside"
	}
	return align.MmText(at.Len()) + " mm"
}

// comparedPlot is the axis error of both over the looks, in what was allowed:
// two scopes are allowed different things.
func comparedPlot(sides [2]side) *schematic.PlotSpec {
	most := 1
	var lines []schematic.PlotLine
	for i, s := range sides {
		line := errorLine(s.looks)
		for k := range line.Points {
			line.Points[k].MM /= s.r.AllowedMM
			line.Points[k].Hollow = i == 0
		}
		line.Dotted, line.Word = i == 0, s.name
		lines = append(lines, line)
		most = max(most, len(s.looks))
	}
	spec := lookPlot(session.Record{AllowedMM: 1}, most, lines...)
	spec.Unit, spec.AllowedWord = "x", "allowed"
	return spec
}

// comparedParts are both records, a line for each thing that is in both.
func comparedParts(sides [2]side) []frame.Part {
	const wide = 9
	out := []frame.Part{{Head: "both in words"}}
	for _, row := range []struct {
		name string
		of   func(session.Record) string
	}{
		{"scope", func(r session.Record) string { return recordScope(r) }},
		{"when", func(r session.Record) string { return r.Began.Local().Format("2 Jan 2006 15:04") }},
		{"who", func(r session.Record) string { return r.Who }},
		{"where", func(r session.Record) string { return r.Where }},
		{"kit", func(r session.Record) string { return r.Kit }},
		{"outcome", func(r session.Record) string { return strings.ReplaceAll(r.Outcome, "_", " ") }},
		{"tag", func(r session.Record) string { return align.TagWords(r.Tag) }},
		{"found", func(r session.Record) string { return timesWords(r, r.Found) }},
		{"left", func(r session.Record) string { return timesWords(r, r.Left) }},
		{"allowed", func(r session.Record) string { return fmt.Sprintf("%.1f mm", r.AllowedMM) }},
		{"work", func(r session.Record) string {
			return fmt.Sprintf("%d looks, %d moves, %d rounds", r.Looks, r.Moves, r.Nips)
		}},
	} {
		before, after := cmp.Or(row.of(sides[0].r), "not noted"), cmp.Or(row.of(sides[1].r), "not noted")
		text := before + "  |  " + after
		if before == after {
			text = before + ", both"
		}
		out = append(out, frame.Part{Mark: frame.Pad(row.name, wide), Role: theme.Label, Text: text})
	}
	return out
}

// timesWords says an axis error in mm and in what was allowed.
func timesWords(r session.Record, m session.Moment) string {
	if !m.Claimed || r.AllowedMM <= 0 {
		return "axis error not known"
	}
	return fmt.Sprintf("%.1f mm, %.1fx", m.AxisErrorMM, m.AxisErrorMM/r.AllowedMM)
}

// betweenParts says how the later one was found against how the earlier one was
// left, of two on one scope.
func betweenParts(d *desk.Desk, sides [2]side) []frame.Part {
	i, others, ok := shelf.Between(d.Library, sides[0].r, sides[1].r)
	if !ok {
		return nil
	}
	out := []frame.Part{{Head: fmt.Sprintf("the %.0f days between", i.Days())},
		{Mark: frame.Pad("primary", 9), Role: theme.Label, Text: "the spot on it moved " + i.PrimaryWords(sides[1].tel)},
		{Mark: frame.Pad("return", 9), Role: theme.Label, Text: "the return spot " + i.ReturnWords(sides[1].tel)}}
	if others > 0 {
		return append(out, frame.Part{Mark: "-", Text: fmt.Sprintf("Of %d sessions in between this says nothing.", others)})
	}
	return append(out, frame.Part{Mark: "points to", Role: theme.Label, Text: i.Cause.Words()})
}

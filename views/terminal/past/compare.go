package past

import (
	"cmp"
	"fmt"
	"strings"
	"time"

	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/history"
	"spotward/session/scope"
	"spotward/session/shelf"
	"spotward/session/words"
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
	al := Album{title: cmp.Or(sameScope(a, b), a.Scope+" and "+b.Scope), note: sides[0].name + ", then " + sides[1].name}
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
	for i, s := range sides {
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
		out = append(out, picture{title: name + ", " + [2]string{"earlier", "later"}[i], words: words, spec: spec})
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
	if m.Saw == event.SawComputed {
		return "about " + words.EyesMmText(at.Len()) + " mm"
	}
	return words.EyesMmText(at.Len()) + " mm"
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
		line.Dotted, line.Word = i == 0, [2]string{"earlier", "later"}[i]
		lines = append(lines, line)
		most = max(most, len(s.looks))
	}
	spec := lookPlot(session.Record{AllowedMM: 1}, most, lines...)
	spec.Unit, spec.AllowedWord = "x", "allowed"
	return spec
}

// comparedRows are the rows of two records that are set side by side.
var comparedRows = []history.RowKey{
	history.RowScope, history.RowWhen, history.RowWho, history.RowWhere, history.RowKit, history.RowOutcome, history.RowTag,
	history.RowFound, history.RowLeft, history.RowAllowed, history.RowWork,
}

// comparedParts are both records, a line for each thing that is in both.
func comparedParts(sides [2]side) []frame.Part {
	const wide = 9
	out := []frame.Part{{Head: "both in words"}}
	both := [2]map[string]string{{}, {}}
	var names []string
	for i, side := range sides {
		for _, row := range history.PickRows(history.RecordRows(side.r, history.RowsOf{Zone: time.Local}), comparedRows...) {
			if both[0][row.Name] == "" && both[i][row.Name] == "" {
				names = append(names, row.Name)
			}
			both[i][row.Name] = row.Text
		}
	}
	for _, name := range names {
		before, after := cmp.Or(both[0][name], "not noted"), cmp.Or(both[1][name], "not noted")
		text := before + "  |  " + after
		if before == after {
			text = strings.TrimSuffix(before, ".") + ", both"
		}
		out = append(out, frame.Part{Mark: frame.Pad(name, wide), Role: theme.Label, Text: text})
	}
	return out
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

package terminal

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"spotward/optics"
	"spotward/session"
	"spotward/views/desk"
	"spotward/views/schematic"
	"spotward/views/terminal/theme"
)

// recordAlbum is a session in pictures: before and after on both faces, the axis
// error over the looks, and each move and look in the order made. r is what its
// journal sums up to.
func recordAlbum(r session.Record, frames []desk.Frame) album {
	b := album{title: r.Scope, note: recordNote(r)}
	b.parts = cameTo(r)
	if len(frames) > 0 {
		looks, after := desk.Looks(frames)
		tel := frames[len(frames)-1].State.Tel
		b.pictures = append(endPictures(tel, r, looks, optics.FacePrimary), endPictures(tel, r, looks, optics.FaceTarget)...)
		b.plotHead = "axis error after each look"
		b.plot = lookPlot(r, len(looks), errorLine(looks))
		b.parts = append(b.parts, part{head: "moves and looks, with the axis error after each"})
		b.parts = append(b.parts, wayParts(r, looks, after)...)
	}
	b.parts = append(b.parts, restOf(r)...)
	return b
}

// recordNote is what a session came to, in a few words.
func recordNote(r session.Record) string {
	if r.Outcome == "" {
		return "unfinished"
	}
	return strings.ReplaceAll(r.Outcome, "_", " ") + "; tag: " + tagWords(r.Tag)
}

// endPictures are a face as it was found, with the way from there, and close up
// as it was left.
func endPictures(tel optics.Telescope, r session.Record, looks []desk.Look, f optics.Face) []picture {
	name, found, left := "primary", r.Found.P, r.Left.P
	if f == optics.FaceTarget {
		name, found, left = "laser's face", r.Found.T, r.Left.T
	}
	way := lookMarks(tel, looks, f, found)
	whole := plainFace(tel, f)
	if n := len(way); n > 0 {
		whole.Now, whole.Trail = &way[n-1], way[:n-1]
	}
	whole.RimMM = schematic.RimFor(whole, rims(tel, f)...)
	near := plainFace(tel, f)
	if at, ok := markPlace(tel, f, left); ok {
		near.Now = &schematic.Mark{At: at, Word: "left"}
	}
	near.RimMM = schematic.RimFor(near, nearRims(tel, f)...)
	return []picture{
		{name + ", found", shortPlace(tel, f, found), whole},
		{name + ", left", shortPlace(tel, f, left), near},
	}
}

// plainFace is a face without words round it.
func plainFace(tel optics.Telescope, f optics.Face) schematic.FaceSpec {
	return schematic.FaceSpec{Object: quiet(objectOf(tel, f)), FocuserHour: tel.FocuserDial(tel.Station(f)).Hour()}
}

// nearRims are what the rim of a close-up may stand for, mm.
func nearRims(tel optics.Telescope, f optics.Face) []float64 {
	if f == optics.FaceTarget {
		return append([]float64{2 * tel.Target.HoleRadiusMM}, rims(tel, f)...)
	}
	return append([]float64{1.5 * math.Max(tel.RingOuterMM, 0.02*tel.ApertureMM)}, rims(tel, f)...)
}

// lookMarks are the places of a face's looks from where it was found on, the
// last one "last"; a look in between has its number.
func lookMarks(tel optics.Telescope, looks []desk.Look, f optics.Face, found *session.Mark) []schematic.Mark {
	var out []schematic.Mark
	start, hasStart := markPlace(tel, f, found)
	for _, l := range looks {
		ev := l.Event
		if ev.Face != f || ev.Saw == session.SawGone || ev.Saw == session.SawCantSee {
			continue
		}
		at := tel.ToDial(f, optics.Seen{Right: ev.Right, Up: ev.Up})
		word := strconv.Itoa(l.N)
		if hasStart && math.Hypot(at.Right-start.Right, at.Up-start.Up) < 0.1 && len(out) <= 1 {
			out, word = nil, "found"
		}
		out = append(out, schematic.Mark{At: at, Word: word})
	}
	if n := len(out); n > 1 {
		out[n-1].Word = "last"
	}
	return out
}

// markPlace returns where a record's mark is on the dial, and false where it
// has no place.
func markPlace(tel optics.Telescope, f optics.Face, m *session.Mark) (optics.Dial, bool) {
	if m == nil || m.Saw == session.SawGone || m.Saw == session.SawCantSee {
		return optics.Dial{}, false
	}
	return tel.ToDial(f, optics.Seen{Right: m.Right, Up: m.Up}), true
}

// shortPlace says where a spot was in as few words as there are.
func shortPlace(tel optics.Telescope, f optics.Face, m *session.Mark) string {
	if m == nil {
		return "not read"
	}
	at := tel.ToDial(f, optics.Seen{Right: m.Right, Up: m.Up})
	return sawWords(session.Event{Saw: m.Saw}, at)
}

// errorLine is the axis error over the looks after which one is claimed.
func errorLine(looks []desk.Look) schematic.PlotLine {
	var line schematic.PlotLine
	before := 0
	for _, l := range looks {
		mm, _, ok := l.State.AxisError()
		if !ok {
			continue
		}
		line.Points = append(line.Points, schematic.PlotPoint{X: float64(l.N), MM: mm, Apart: before != l.N-1})
		before = l.N
	}
	if n := len(line.Points); n > 0 {
		line.Word = fmt.Sprintf("%.1f mm", line.Points[n-1].MM)
	}
	return line
}

// lookPlot is a plot over n looks.
func lookPlot(r session.Record, n int, lines ...schematic.PlotLine) *schematic.PlotSpec {
	spec := &schematic.PlotSpec{
		From: 1, To: float64(max(n, 1)), FromWord: "look 1", ToWord: fmt.Sprintf("look %d", n),
		AllowedMM: r.AllowedMM, AllowedWord: fmt.Sprintf("%.1f allowed", r.AllowedMM), EarlyWord: "not known until both spots were seen",
	}
	for _, l := range lines {
		if len(l.Points) > 0 {
			spec.Lines = append(spec.Lines, l)
		}
	}
	return spec
}

// wayParts are the moves and looks in their order.
func wayParts(r session.Record, looks []desk.Look, after []session.Turn) []part {
	var out []part
	turned := func(turns []session.Turn) {
		if len(turns) > 0 {
			out = append(out, part{mark: "turn", role: theme.Head, text: session.TurnedWords(turns)})
		}
	}
	for _, l := range looks {
		turned(l.Turned)
		at := l.State.Tel.ToDial(l.Event.Face, optics.Seen{Right: l.Event.Right, Up: l.Event.Up})
		look := part{mark: pad(strconv.Itoa(l.N), 4), role: theme.Label, text: faceWords(l.Event.Face) + ": " + sawWords(l.Event, at)}
		if mm, _, ok := l.State.AxisError(); ok {
			bar := axisBar(mm, r.AllowedMM)
			bar.Full = 6 * r.AllowedMM
			look.bar, look.text = &bar, fmt.Sprintf("%.1f mm  %s", mm, look.text)
		}
		out = append(out, look)
	}
	turned(after)
	return out
}

// recordRows makes parts of names with their texts, without those that say
// nothing.
func recordRows(rows [][2]string) []part {
	const wide = 12
	var out []part
	for _, r := range rows {
		if r[1] != "" {
			out = append(out, part{mark: pad(r[0], wide), role: theme.Label, text: r[1]})
		}
	}
	return out
}

// cameTo is what a session came to: its tag and why, found and left.
func cameTo(r session.Record) []part {
	tag := ""
	if r.Outcome != "" {
		tag = tagWords(r.Tag)
		if r.TagWhy != "" {
			tag += ": " + r.TagWhy
		}
	}
	rows := [][2]string{{"tag", tag}}
	for _, m := range []struct {
		name string
		m    session.Moment
	}{{"found", r.Found}, {"before swing", r.BeforeSw}, {"left", r.Left}} {
		text := "axis error not known"
		if m.m.Claimed {
			text = fmt.Sprintf("axis error %.1f mm, at most %.1f", m.m.AxisErrorMM, m.m.AxisErrorMaxMM)
		}
		rows = append(rows, [2]string{m.name, text})
	}
	return append([]part{{head: outcomeOf(r)}}, recordRows(append(rows, [2]string{"allowed", fmt.Sprintf("%.1f mm", r.AllowedMM)}))...)
}

// restOf is the rest of a record: who and when, with what, what was turned, left
// out and noted.
func restOf(r session.Record) []part {
	rows := [][2]string{{"record", r.ID}}
	if !r.Began.IsZero() {
		rows = append(rows, [2]string{"when", r.Began.Local().Format("2 Jan 2006 15:04") + " to " + r.Ended.Local().Format("15:04")})
	}
	practice := ""
	if r.Practice {
		practice = "on a telescope that is not there"
	}
	rows = append(rows, [][2]string{
		{"who", r.Who}, {"kit", r.Kit}, {"practice", practice},
		{"work", fmt.Sprintf("%d looks, %d moves, %d rounds of locks", r.Looks, r.Moves, r.Nips)},
		{"net turns", strings.Join(r.NetTurnsWords(), ", ")},
	}...)
	for _, k := range r.Skips {
		rows = append(rows, [2]string{"left out", string(k.Stage) + ": " + k.Why})
	}
	for _, c := range r.Finer {
		rows = append(rows, [2]string{string(c.Check), c.Words})
	}
	for _, t := range r.Trouble {
		rows = append(rows, [2]string{"noted", t})
	}
	return append([]part{{head: "who, when and what else"}}, recordRows(rows)...)
}

func outcomeOf(r session.Record) string {
	if r.Outcome == "" {
		return "unfinished: this is how it stands"
	}
	return outcomeWords(r.Outcome)
}

// sawWords says what was seen at a look.
func sawWords(ev session.Event, at optics.Dial) string {
	switch ev.Saw {
	case session.SawHome:
		return "home"
	case session.SawGone:
		return "not there"
	case session.SawCantSee:
		return "not to be seen"
	case session.SawWithin, session.SawInRing:
		return "inside"
	}
	return session.ClockText(at) + ", " + mmText(at.Len()) + " mm"
}

// bothFaces draws where the spots were left, and the looks before, on both
// faces: one above the other, or side by side where there is room.
func bothFaces(p *page, st session.State, r schematic.Rect) {
	cells := []schematic.Rect{{X: r.X, Y: r.Y, W: r.W, H: r.H / 2}, {X: r.X, Y: r.Y + r.H/2, W: r.W, H: r.H / 2}}
	if r.W > 4*r.H {
		half := min(r.W/2, 46)
		cells = []schematic.Rect{{X: r.X, Y: r.Y, W: half, H: r.H}, {X: r.X + half, Y: r.Y, W: half, H: r.H}}
	}
	for i, face := range []optics.Face{optics.FacePrimary, optics.FaceTarget} {
		c := cells[i]
		radius := min(float64(c.H-3), float64(c.W)/2-6) - 0.25
		if radius < 4 {
			return
		}
		spec := seenFrom(st.Tel, face, p.sizes)
		spec.Standing, spec.GroundWord, spec.FocuserWord, spec.Within = nil, "", "", c
		spec.Object = quiet(spec.Object)
		spec.Trail = readings(st, face)
		if n := len(spec.Trail); n > 0 {
			most := 6
			if radius < 7 {
				most = 1 // there is no room for more
			}
			spec.Now, spec.Trail = &schematic.Mark{At: spec.Trail[n-1].At, Word: "last"}, spec.Trail[max(0, n-1-most):n-1]
		}
		spec.RimMM = schematic.RimFor(spec, rims(st.Tel, face)...)
		p.TextMax(c.X+1, c.Y, c.W-1, theme.Label, faceWords(face))
		p.Face(schematic.Place{Col: c.X + c.W/2, Row: c.Y + 1 + int(radius/2) + 1, R: radius}, spec)
	}
}

func faceWords(f optics.Face) string {
	switch f {
	case optics.FacePrimary:
		return "primary"
	case optics.FaceTarget:
		return "laser's face"
	case optics.FaceSecondary:
		return "two spots on the secondary"
	case optics.FaceMouth:
		return "mouth of the drawtube"
	case optics.FaceCard:
		return "card"
	}
	return strings.ReplaceAll(string(f), "_", " ")
}

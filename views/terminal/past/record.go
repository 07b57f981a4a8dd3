package past

import (
	"fmt"
	"math"
	"strconv"

	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
	"spotward/views/desk"
	"spotward/views/schematic"
	"spotward/views/terminal/align"
	"spotward/views/terminal/frame"
)

// RecordAlbum is a session in pictures: before and after on both faces, the axis
// error over the looks, and each move and look in the order made. r is what its
// journal sums up to.
func RecordAlbum(r session.Record, frames []desk.Frame) Album {
	b := Album{title: r.Scope, note: recordNote(r)}
	b.Parts = cameTo(r)
	if len(frames) > 0 {
		looks, after := desk.Looks(frames)
		tel := frames[len(frames)-1].State.Tel
		b.pictures = append(endPictures(tel, r, looks, optics.FacePrimary), endPictures(tel, r, looks, optics.FaceTarget)...)
		b.plotHead = "axis error after each look"
		b.plot = lookPlot(r, len(looks), errorLine(looks))
		b.Parts = append(b.Parts, frame.Part{Head: "moves and looks, with the axis error after each"})
		b.Parts = append(b.Parts, wayParts(r, looks, after)...)
	}
	b.Parts = append(b.Parts, restOf(r)...)
	return b
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
	whole.Trail, whole.Onward = way, true
	if len(way) > 0 && way[0].Word == foundWord { // the eye goes to where it was found
		whole.Now, whole.Trail = &way[0], way[1:]
	}
	whole.RimMM = schematic.RimFor(whole, align.Rims(tel, f)...)
	align.Measured(&whole, tel, f, frame.Sizes{})
	near := plainFace(tel, f)
	if at, ok := markPlace(tel, f, left); ok {
		near.Now = &schematic.Mark{At: at, Word: "left"}
	}
	near.RimMM = schematic.RimFor(near, nearRims(tel, f)...)
	align.Measured(&near, tel, f, frame.Sizes{})
	return []picture{
		{name + ", found", shortPlace(tel, f, found), whole},
		{name + ", left", shortPlace(tel, f, left), near},
	}
}

// plainFace is a face without words round it.
func plainFace(tel optics.Telescope, f optics.Face) schematic.FaceSpec {
	return schematic.FaceSpec{Object: align.Quiet(align.ObjectOf(tel, f)), FocuserHour: tel.FocuserDial(tel.Station(f)).Hour()}
}

// nearRims are what the rim of a close-up may stand for, mm.
func nearRims(tel optics.Telescope, f optics.Face) []float64 {
	if f == optics.FaceTarget {
		return append([]float64{2 * tel.Target.HoleRadiusMM}, align.Rims(tel, f)...)
	}
	return append([]float64{1.5 * math.Max(tel.RingOuterMM, 0.02*tel.ApertureMM)}, align.Rims(tel, f)...)
}

// foundWord stands where a spot was found.
const foundWord = "found"

// lookMarks are the places of a face's looks from where it was found on, the
// last one "last"; a look in between has its number.
func lookMarks(tel optics.Telescope, looks []desk.Look, f optics.Face, found *session.Mark) []schematic.Mark {
	var out []schematic.Mark
	start, hasStart := markPlace(tel, f, found)
	for _, l := range looks {
		ev := l.Event
		if ev.Face != f || ev.Saw == event.SawGone || ev.Saw == event.SawCantSee {
			continue
		}
		at := tel.ToDial(f, optics.Seen{Right: ev.Right, Up: ev.Up})
		word := strconv.Itoa(l.N)
		if hasStart && math.Hypot(at.Right-start.Right, at.Up-start.Up) < 0.1 && len(out) <= 1 {
			out, word = nil, foundWord
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
	if m == nil || m.Saw == event.SawGone || m.Saw == event.SawCantSee {
		return optics.Dial{}, false
	}
	return tel.ToDial(f, optics.Seen{Right: m.Right, Up: m.Up}), true
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

package terminal

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"spotward/optics"
	"spotward/session"
	"spotward/views/schematic"
	"spotward/views/terminal/theme"
)

// recordPage is one record in full.
func recordPage(lib *session.Library, r session.Record) *sheet {
	const wide = 12
	sh := &sheet{title: r.Scope}
	row := func(name, text string) {
		if text != "" {
			sh.parts = append(sh.parts, part{mark: pad(name, wide), text: text})
		}
	}
	sh.parts = append(sh.parts, part{head: outcomeWords(r.Outcome)})
	row("record", r.ID)
	row("when", r.Began.Local().Format("2 Jan 2006 15:04")+" to "+r.Ended.Local().Format("15:04"))
	row("who", r.Who)
	row("kit", r.Kit)
	if r.Practice {
		row("practice", "on a telescope that is not there")
	}
	tag := tagWords(r.Tag)
	if r.TagWhy != "" {
		tag += ": " + r.TagWhy
	}
	row("tag", tag)
	for _, m := range []struct {
		name string
		m    session.Moment
	}{{"found", r.Found}, {"before swing", r.BeforeSw}, {"left", r.Left}} {
		if m.m.Claimed {
			row(m.name, fmt.Sprintf("axis error %.1f mm, at most %.1f", m.m.AxisErrorMM, m.m.AxisErrorMaxMM))
		} else {
			row(m.name, "axis error not known")
		}
	}
	row("allowed", fmt.Sprintf("%.1f mm", r.AllowedMM))
	row("work", fmt.Sprintf("%d looks, %d moves, %d rounds of locks", r.Looks, r.Moves, r.Nips))
	var nets []string
	for name, n := range r.NetTurns {
		nets = append(nets, fmt.Sprintf("%s %+.2f", name, n))
	}
	slices.Sort(nets)
	row("net turns", strings.Join(nets, ", "))
	for _, k := range r.Skips {
		row("left out", string(k.Stage)+": "+k.Why)
	}
	for _, c := range r.Finer {
		row(string(c.Check), c.Words)
	}
	sh.list("noted", "-", r.Trouble)
	if past, err := replayed(lib, r.ID); err == nil {
		past.tell(sh)
	}
	return sh
}

// past is a session as its journal tells it.
type past struct {
	state session.State
	told  []part // moves and looks, in order
}

// replayed folds a session's journal and notes each move, and the axis error
// after each look.
func replayed(lib *session.Library, id string) (past, error) {
	lines, _, err := lib.ReadJournal(id)
	if err != nil {
		return past{}, err
	}
	events, err := session.Events(lines)
	if err != nil {
		return past{}, err
	}
	var p past
	for _, ev := range events {
		next, err := session.Apply(p.state, ev)
		if err != nil {
			return past{}, err
		}
		p.state = next
		p.note(ev)
	}
	return p, nil
}

func (p *past) note(ev session.Event) {
	switch ev.Kind {
	case session.KindTurned:
		for _, t := range ev.Turned {
			sense, _, _ := strings.Cut(session.SenseWords(t.Turns), " ")
			move, _, _ := strings.Cut(session.MoveWords(t), ",")
			p.told = append(p.told, part{mark: "turn", text: string(t.Mirror) + " " + move + ", " + sense})
		}
	case session.KindReading:
		at := p.state.Tel.ToDial(ev.Face, optics.Seen{Right: ev.Right, Up: ev.Up})
		look := part{mark: pad(strconv.Itoa(p.state.Looks), 4), text: string(ev.Face) + ": " + sawWords(ev, at)}
		if mm, _, ok := p.state.AxisError(); ok {
			bar := axisBar(mm, p.state.AllowedMM())
			bar.Full = 6 * p.state.AllowedMM()
			look.bar, look.text = &bar, fmt.Sprintf("%.1f mm  %s", mm, look.text)
		}
		p.told = append(p.told, look)
	}
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

// tell adds the moves and looks to a sheet, and both faces beside it.
func (p past) tell(sh *sheet) {
	if len(p.told) > 0 {
		sh.parts = append(sh.parts, part{head: "looks, with the axis error after each"})
		sh.parts = append(sh.parts, p.told...)
	}
	sh.draws = func(pg *page) { bothFaces(pg, p.state, pg.FaceWords) }
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
	if f == optics.FacePrimary {
		return "primary"
	}
	return "laser's face"
}

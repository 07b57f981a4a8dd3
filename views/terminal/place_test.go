package terminal

import (
	"regexp"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/require"

	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/header"
	"spotward/session/reading"
	"spotward/session/scope"
	"spotward/session/sessiontest"
	"spotward/session/words"
	"spotward/views/schematic"
	"spotward/views/terminal/align"
	"spotward/views/terminal/frame"
)

// The picture to agree with stands by the first question at an end of the tube,
// and goes with the first answer there.
func TestThePlaceIsAgreedToByGoingOn(t *testing.T) {
	for _, size := range [][2]int{{60, 18}, {80, 24}, {120, 36}} {
		p := practising(t, 5, size[0], size[1], Options{}, env())
		stood, walks := header.Stand(""), 0
		for range 300 {
			s := p.align()
			if s == nil {
				break
			}
			stand := s.State().Ask().Header.Stand
			walked := stand != stood && stand != header.StandBeside
			view := flat(p.View())
			shown := regexp.MustCompile(`Focuser (at )?\d+:\d+\?|arrow keys turn|Arrows turn`).MatchString(view)
			require.Equal(t, walked, shown, "%v: %s", size, s.State().Ask().Step)
			if walked {
				walks++
			}
			stood = stand
			p.enters(p.answer())
		}
		require.Nil(t, p.align(), "it costs no entry")
		require.GreaterOrEqual(t, walks, 3)
	}
}

// flat is a view in one line, without what is drawn in it.
func flat(view string) string {
	words := strings.FieldsFunc(view, func(r rune) bool { return r == ' ' || r == '\n' || r >= 0x2800 && r <= 0x28ff })
	return strings.Join(words, " ")
}

func TestArrowsTurnThePlace(t *testing.T) {
	p := practisingAt(t, "lesson-good", 5, 80, 24, Options{}, env())
	p.plays(to(session.StageFirstLook, "t", false)) // just come behind
	require.Contains(t, flat(p.View()), "Focuser at 10:00")
	p.press(tea.KeyLeft)
	require.Equal(t, "focuser 9:30", p.Top().Line.String())
	p.press(tea.KeyLeft)
	require.Equal(t, "focuser 9:00", p.Top().Line.String())
	require.Contains(t, flat(p.View()), "Focuser at 9:00", "the drawing follows")
	p.press(tea.KeyEnter)
	require.InDelta(t, 9, p.align().State().Tel.FocuserDial(optics.Behind).Hour(), 1e-9)
	require.InDelta(t, 3, p.align().State().Tel.FocuserDial(optics.SkyEnd).Hour(), 1e-9)
	require.Contains(t, flat(p.View()), "Focuser at 9:00", "still to be agreed to")
	p.enters("gone")
	require.NotContains(t, flat(p.View()), "If not, arrow")
	p.press(tea.KeyLeft)
	require.Empty(t, p.Top().Line.String())
}

// Where the hand goes is drawn beside the move, never on the rim of what the spot
// is read on; where there is no room for it its hour is in words.
func TestThePlateBesideAMove(t *testing.T) {
	sessiontest.Whole(t)
	for _, o := range []Options{{}, {Projector: true}, {ASCII: true}}[:sessiontest.Of(0, 2, 3)] {
		for _, size := range [][2]int{{60, 18}, {80, 24}, {100, 30}, {120, 36}, {200, 50}} {
			p := practising(t, 8, size[0], size[1], o, env())
			for _, at := range []func(session.Ask) bool{to(session.StageSecondary, "p", true), to(session.StageHome, "t", true)} {
				p.plays(at)
				st := p.align().State()
				m := st.Told().Moves[0]
				hour, ok := align.ScrewHour(st, m)
				require.True(t, ok)
				require.Contains(t, p.View(), "at "+words.ClockText(optics.AtHour(hour, 1)), "%v %v", o, size)
				sz, _ := frame.SizesFor(size[0], size[1], o.Projector, o.ASCII)
				require.NotContains(t, strings.Join(shownIn(p.View(), sz.FaceWords), "\n"), "("+m.Screw+")")
				if sz.Plate.W == 0 {
					require.Equal(t, 60, size[0])
					continue
				}
				plate := strings.Join(shownIn(p.View(), sz.Plate), "\n")
				for _, label := range st.Tel.Cell(m.Mirror).Labels {
					require.Contains(t, plate, label, "%v %v\n%s", o, size, p.View())
				}
			}
		}
	}
}

func TestStopsAreSaidByTheRings(t *testing.T) {
	tel := scope.Builtin().Telescope()
	wide := reading.RingWidthMM(tel)
	for _, c := range []struct {
		f    optics.Face
		at   optics.Dial
		want string
	}{
		{optics.FacePrimary, optics.AtHour(2, 0.5*tel.RingInnerMM), "inside the ring"},
		{optics.FacePrimary, optics.AtHour(2, tel.RingOuterMM), "on the ring"},
		{optics.FacePrimary, optics.AtHour(2, 1.25*wide), "1 1/4 ring widths"},
		{optics.FacePrimary, optics.AtHour(2, 3*wide), "3 ring widths"},
		{optics.FacePrimary, optics.AtHour(2, 1.1*wide), "1 ring width"},
		{optics.FacePrimary, optics.AtHour(2, 0.7*wide), "3/4 of a ring width"},
		{optics.FaceTarget, optics.AtHour(2, 0.5*tel.Target.HoleRadiusMM), "rim brighter there"},
		{optics.FaceMouth, optics.AtHour(2, 5), ""},
	} {
		require.Equal(t, c.want, align.ByRings(tel, c.f, c.at), "%s %v", c.f, c.at)
	}
	// What is said is what a reading by rings would be taken for.
	for hour := range 12 {
		printed := tel.ToRings(tel.FromDial(optics.FaceTarget, optics.AtHour(float64(hour), 1))).Len()
		at := optics.AtHour(float64(hour), reading.PrintedRingMM(tel.Target, 2)/printed)
		require.Equal(t, "on printed ring 2", align.ByRings(tel, optics.FaceTarget, at), "%d", hour)
	}
}

func TestNoBeamWhileTheLaserIsOff(t *testing.T) {
	p := practising(t, 5, 80, 24, Options{}, env())
	for range 300 {
		s := p.align()
		if s == nil {
			return
		}
		if st := s.State(); st.Ask().Header.Beam != header.BeamOn {
			require.Empty(t, align.PathOf(st).Out, "%s", st.Ask().Step)
		}
		p.enters(p.answer())
	}
}

// Every fact of every stage finds room whole before the next one's column, in
// brief at the least; and the columns are the same for all.
func TestFactsAreNotCut(t *testing.T) {
	small, _ := frame.SizesFor(60, 18, false, false)
	full, _ := frame.SizesFor(80, 24, false, false)
	for _, header := range headers() {
		h := header.Words()
		for i, f := range []align.HeadFact{{Said: h.Tool}, {Label: "tube", Said: h.Tube}, {Label: "laser", Said: h.Laser}} {
			col, end := align.FactPlace(small, small.Facts[0], i, 3)
			require.LessOrEqual(t, schematic.Width(f.Label+" "+f.Said.Short), end-col+1, "%q", f.Said.Short)
		}
		for _, row := range [][]align.HeadFact{{{Label: "stand", Said: h.Stand}, {Label: "tool", Said: h.Tool}}, {{Label: "tube", Said: h.Tube}, {Label: "laser", Said: h.Laser}}} {
			for i, f := range row {
				col, end := align.FactPlace(full, full.Facts[0], i, 2)
				require.LessOrEqual(t, schematic.Width(f.Label+" "+f.Fitting(end-col)), end-col, "%q", f.Said.Long)
			}
		}
	}
}

func stageIDs() []session.StageID {
	return []session.StageID{
		session.StageReady, session.StageEmpty, session.StageLaserIn, session.StageFirstLook, session.StageVerdict,
		session.StageLabels, session.StageSecondary, session.StageLaserFit, session.StageLocks, session.StageRough,
		session.StageHome, session.StageRetighten, session.StageSwing, session.StagePutAway, session.StageStopping,
		session.StagePlace, session.StageShadow, session.StageStar,
	}
}

func headers() []header.Header {
	var out []header.Header
	for _, id := range stageIDs() {
		row := session.StageRow(id)
		out = append(out, row.Header)
		for _, step := range row.Steps {
			if step.Header != nil {
				out = append(out, *step.Header)
			}
		}
	}
	return out
}

// A question shows all its answers at every size.
func TestAnswersAreNeverLeftOut(t *testing.T) {
	for _, size := range [][2]int{{60, 18}, {80, 24}, {120, 36}} {
		p := practising(t, 5, size[0], size[1], Options{}, env())
		for range 300 {
			s := p.align()
			if s == nil {
				break
			}
			view := flat(p.View())
			for _, o := range s.State().Ask().Options {
				require.Contains(t, view, o.Words, "%v: %s", size, s.State().Ask().Step)
			}
			p.enters(p.answer())
		}
	}
}

func TestMoreLinesLeaveNothingOut(t *testing.T) {
	turn := func(screw string, turns float64) event.ToldMove {
		return event.ToldMove{Turn: optics.Turn{Mirror: optics.Secondary, Screw: screw, Turns: turns}}
	}
	first, lock := turn("A", 0.25), event.ToldMove{Turn: optics.Turn{Mirror: optics.Primary, Lock: "B", Turns: -0.25}}
	for _, c := range []struct {
		first event.ToldMove
		more  []event.ToldMove
		width int
		want  []string
	}{
		{first, []event.ToldMove{turn("B", 0.125)}, 31, []string{"B 1/8, tighten (clockwise)"}},
		{first, []event.ToldMove{turn("B", -0.125)}, 25, []string{"B 1/8 ease"}},
		{first, []event.ToldMove{turn("B", 0.0625), turn("C", 0.0625)}, 31, []string{"B and C: 1/16 each, tighten"}},
		{first, []event.ToldMove{turn("B", 0.0625), turn("C", 0.0625)}, 25, []string{"B, C each 1/16 tighten"}},
		{first, []event.ToldMove{turn("A", -0.125), turn("B", 0.125), turn("C", 0.03125)}, 31, []string{"A 1/8 ease; B 1/8 tighten;", "C 1/32 tighten"}},
		{first, []event.ToldMove{turn("A", 0.125), turn("B", 0.03125)}, 25, []string{"A 1/8 tighten;", "B 1/32 tighten"}},
		{lock, []event.ToldMove{lock, lock, turn("B", 0.25)}, 25, []string{"lock B 1/4, B 1/4 ease;", "screw B 1/4 tighten"}},
		{lock, []event.ToldMove{turn("B", 0.25)}, 31, []string{"screw B 1/4 tighten"}},
	} {
		got := align.MoreLines(append([]event.ToldMove{c.first}, c.more...), c.width)
		require.Equal(t, c.want, got)
		for _, l := range got {
			require.LessOrEqual(t, schematic.Width(l), c.width)
		}
	}
}

func TestATurnedDrawingKeepsSayingSo(t *testing.T) {
	for _, size := range [][2]int{{60, 18}, {80, 24}, {120, 36}} {
		p := practising(t, 5, size[0], size[1], Options{}, env())
		p.plays(to(session.StageFirstLook, "p", false))
		require.NotRegexp(t, `(?m)^ {1,3}12 is\b`, p.View(), "%v", size)
		p.press(tea.KeyF3)
		p.types("4") // the notice of the key goes with the next one
		require.Regexp(t, `(?m)^ {1,3}12 is\b`, p.View(), "%v", size)
	}
}

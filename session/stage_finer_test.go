package session_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"spotward/optics"
	"spotward/session"
	"spotward/session/answer"
	"spotward/session/event"
	"spotward/session/scope"
	"spotward/session/sessiontest"
	"spotward/session/words"
)

// home plays the first look of a scope that is left alone.
func home(t *testing.T) player {
	return play(t, scope.Builtin()).line("routine", "none", "still", "dead", "home", "leave").at(session.StagePutAway, "tag")
}

func finding(s session.State, check session.StageID) session.Finer {
	for _, f := range s.Record().Finer {
		if f.Check == check {
			return f
		}
	}
	return session.Finer{}
}

func TestTheOrdinaryWayAsksForNoFinerCheck(t *testing.T) {
	p := home(t).line("")
	assert.True(t, p.State().Over)
	assert.Empty(t, p.State().Record().Finer)
}

func TestFinerIsOfferedWhereTheBudgetAsks(t *testing.T) {
	p := home(t)
	assert.Contains(t, p.State().Ask().Note, "type: finer")
	sc := scope.Builtin()
	sc.Aperture = scope.MM(120) // f/10: the spots see all that is allowed
	slow := play(t, sc).line("routine", "none", "still", "dead", "home", "leave").at(session.StagePutAway, "tag")
	assert.Empty(t, slow.State().Ask().Note)
	slow.line("finer").at(session.StageShadow, "lens") // who wants it has it
}

func TestWhereFinerIsRefused(t *testing.T) {
	home(t).line("finer").refuses("finer", "noted already")
	play(t, scope.Builtin()).line("routine", "stop safely").refuses("finer", "making safe")
	play(t, scope.Builtin()).line("dropped", "off", "none", "still", "gone", "not_today").refuses("finer", "no finer check now")
	p := home(t).line("finer", "no", "no")
	p.at(session.StagePutAway, "tag").refuses("finer", "it was made")
}

func TestFinerSaidEarlyComesInItsPlace(t *testing.T) {
	p := play(t, scope.Builtin()).line("finer", "routine").at(session.StagePlace, "outline")
	p.line("middle", "central", "none", "still", "dead", "home", "leave").at(session.StageShadow, "lens")
	assert.Contains(t, finding(p.State(), session.StagePlace).Words, "in its place")
}

func TestShadowReadings(t *testing.T) {
	for _, c := range []struct {
		line string
		off  bool
	}{{"dead", false}, {"4 1", false}, {"4 6", true}} {
		p := home(t).line("finer", "yes").at(session.StageShadow, "shadow").line(c.line)
		f := finding(p.State(), session.StageShadow)
		assert.Equal(t, c.off, f.Off, c.line)
		// the ring's place and where the light spreads from are guesses: 0.25 and
		// 0.3 mm, 95 of 100 within 2.45 times both
		assert.Greater(t, f.AxisErrorMaxMM, 0.95)
		if c.off {
			p.at(session.StageShadow, "after").line("leave").at(session.StageStar, "star").line("no")
			assert.Equal(t, session.TagWithNote, p.State().Ask().Options[0].ID)
			assert.Contains(t, p.State().Record().TagWhy, "the ring's shadow shows")
		} else {
			p.at(session.StageStar, "star")
		}
	}
	home(t).line("finer", "yes", "gone").at(session.StageStar, "star")
}

// A shadow t off is an axis error of ½·t·f/S.
func TestShadowIsHalvedAtTheFocus(t *testing.T) {
	p := home(t).line("finer", "yes", "3 6")
	tel := p.State().Tel
	// what is claimed is the median: with the reading's error it lies a little beyond the place that was read
	of, about := 3*tel.FocalLengthMM/tel.PathMM(), finding(p.State(), session.StageShadow).AxisErrorMM
	assert.Greater(t, about, of)
	assert.InDelta(t, of, about, 0.1)
}

func star(t *testing.T) player {
	return home(t).line("finer", "no", "yes").at(session.StageStar, "rings")
}

// evenMedian is the median of a round error about nought, in parts of what it is
// within in 95 of 100.
var evenMedian = math.Sqrt(math.Ln2 / math.Log(20))

func TestAnEvenStar(t *testing.T) {
	p := star(t)
	assert.False(t, p.State().Laser.On, "the laser is out")
	p.line("20", "even").at(session.StageStar, "sides").line("even").at(session.StageStar, "nearer").line("yes").at(session.StageStar, "sides")
	p.line("even", "even").at(session.StagePutAway, "tag")
	f := finding(p.State(), session.StageStar)
	assert.False(t, f.Off)
	assert.Equal(t, f.Words, p.State().Ask().Note, "it is said")
	assert.InDelta(t, evenMedian*f.AxisErrorMaxMM, f.AxisErrorMM, 0.01, "nothing was seen: half of such axes miss by less")
	assert.InDelta(t, p.State().Tel.StarProvesMM(5), f.AxisErrorMaxMM, 0.01)
	assert.Equal(t, f.AxisErrorMaxMM, p.State().Record().Left.AxisErrorMaxMM, "the star is the surer of the two")
	// far out of focus it proves nothing fine, and the words say so
	p = star(t).line("20", "even", "even")
	assert.Contains(t, p.State().Ask().Say, "no better than")
	p.line("leave").at(session.StagePutAway, "tag")
	assert.Greater(t, finding(p.State(), session.StageStar).AxisErrorMaxMM, p.State().AllowedMM())
}

func TestAnUnevenStar(t *testing.T) {
	p := star(t).line("5", "half").at(session.StageStar, "finger").line("4:30 100").at(session.StageStar, "sides")
	assert.Empty(t, finding(p.State(), session.StageStar), "one side of focus alone says nothing")
	p.line("half").at(session.StageStar, "finger").line("10:30 100").at(session.StageStar, "after")
	f := finding(p.State(), session.StageStar)
	assert.True(t, f.Off)
	assert.Contains(t, f.Words, "A star shows both")
	assert.Contains(t, p.State().Ask().Say, "No spot shows a ring that is off centre. A star does")
	assert.Contains(t, p.State().Ask().Note, "Believe the star")
	p.line("turn").at(session.StageStar, "ease").line("yes").at(session.StageStar, "turn")
	told := p.State().Told()
	require.NotNil(t, told)
	for _, m := range told.Moves {
		assert.Equal(t, optics.Primary, m.Mirror)
		assert.Nil(t, m.Stop)
	}
	assert.Contains(t, told.Why, "toward half past 10")
	p.line("yes").at(session.StageStar, "sides").line("even", "even").at(session.StageStar, "nip")
	p.line("yes").at(session.StageStar, "sides").line("even", "even")
	p.at(session.StagePutAway, "tag").line("")
	r := p.State().Record()
	assert.Contains(t, finding(p.State(), session.StageStar).Words, "Before the primary was turned")
	assert.Equal(t, session.TagWithNote, r.Tag)
	assert.Contains(t, r.Trouble[0], "The ring is off")
	assert.NotZero(t, r.Moves)
}

// Each side of focus is a question of its own, and what stays on the same side of
// the field is coma: a finger shows there inside focus, and opposite beyond.
func TestAStarOnBothSidesOfFocus(t *testing.T) {
	p := star(t).line("10")
	ask := p.State().Ask()
	assert.Equal(t, optics.InsideFocus, ask.Focus)
	assert.Contains(t, ask.Say, "Rack in from focus: 10 rings")
	p.line("two_thirds", "2 100")
	ask = p.State().Ask()
	assert.Equal(t, optics.BeyondFocus, ask.Focus)
	assert.Contains(t, ask.Say, "10 rings again")
	tel := p.State().Tel
	for _, c := range []struct {
		name           string
		inside, beyond []string
		coma, glass    bool
		says           string
	}{
		{"coma alone", []string{"two_thirds", "3 100"}, []string{"two_thirds", "9 100"}, true, false, "mm of its place"},
		{"the secondary alone", []string{"half", "3 100"}, []string{"half", "3 100"}, false, true, "mm off its place, toward 3"},
		{"neither", []string{"even"}, []string{"even"}, false, false, "mm of its place"},
		{"on one side only", []string{"even"}, []string{"third", "9 100"}, true, false, "mm of its place"},
	} {
		p := star(t).line(append(append([]string{"10"}, c.inside...), c.beyond...)...)
		f := finding(p.State(), session.StageStar)
		assert.Contains(t, f.Words, c.says, c.name)
		assert.Contains(t, f.Words, "on both sides of focus", c.name)
		if c.coma {
			assert.Greater(t, f.AxisErrorMM, 1.0, c.name)
		} else {
			assert.InDelta(t, evenMedian*f.AxisErrorMaxMM, f.AxisErrorMM, 0.01, c.name)
			assert.GreaterOrEqual(t, f.AxisErrorMaxMM, tel.StarProvesMM(10)-0.01, c.name)
		}
		off := false
		for _, said := range p.State().Record().Trouble {
			off = off || strings.Contains(said, "off its place, toward 3 o'clock as seen from the sky end")
		}
		assert.Equal(t, c.glass, off, c.name)
	}
}

// At f/8, ten rings out, the glass outweighs coma inside focus, and the finger
// shows on the wrong side there. With both sides looked at the axis is found.
func TestAFingerThatPointsTheWrongWayInsideFocus(t *testing.T) {
	sc := scope.Builtin()
	sc.Aperture, sc.FocalLength = scope.MM(150), scope.MM(1200)
	p := play(t, sc)
	p.line("routine", "none", "still", "dead", "home", "leave", "finer", "no", "yes", "10")
	tel := p.State().Tel
	e := tel.DialToTube(optics.FaceCard, optics.AtHour(4, 1))
	e = e.Scale(6 / e.Len())
	for _, focus := range []optics.Focus{optics.InsideFocus, optics.BeyondFocus} {
		off, half := tel.StarOffset(e, tel.GlassPlace(), 10, focus), (1-tel.Obstruction())/2
		finger := off
		if focus == optics.BeyondFocus {
			finger = off.Scale(-1)
		} else {
			assert.Negative(t, finger.Dot(e), "the finger shows away from the axis")
		}
		at := tel.TubeToDial(optics.FaceCard, finger.Scale(75/finger.Len()))
		side := session.SideOf((half - off.Len()) / (half + off.Len()))
		p.line(side)
		if side != "even" {
			p.line(words.ReadingText(at))
		}
	}
	f := finding(p.State(), session.StageStar)
	assert.InDelta(t, 6, f.AxisErrorMM, 1.6)
	p.at(session.StageStar, "after").line("turn", "yes").at(session.StageStar, "turn")
	assert.Contains(t, p.State().Told().Why, "toward 10 ", "away from where the axis is")
}

// What the primary's screws are told to do takes the axis home, by the response
// that the session believes in.
func TestTheToldTurnsTakeTheAxisHome(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		scope := scope.Builtin()
		s, err := session.Start(event.Event{ID: "x", Scope: &scope}, nil)
		require.NoError(rt, err)
		hour := rapid.IntRange(0, 11).Draw(rt, "hour")
		finger := optics.AtHour(float64(hour), 100)
		say := func(line string) {
			typed, err := answer.Line(s.State(), line)
			require.NoError(rt, err, line)
			for _, ev := range typed.Events {
				require.NoError(rt, s.Do(ev), line)
			}
		}
		for _, l := range []string{"routine", "none", "still", "dead", "home", "leave", "finer", "no", "", "5"} {
			say(l)
		}
		seen := s.State().Tel.FromDial(optics.FaceCard, finger)
		for _, side := range []float64{1, -1} {
			say("half")
			require.NoError(rt, s.Do(event.Event{Kind: event.KindReading, Face: optics.FaceCard, Saw: event.SawPlace, Right: side * seen.Right, Up: side * seen.Up}))
		}
		tel := s.State().Tel
		off := tel.OffsetSeen(optics.StarLook{Thin: 0.5, Finger: tel.DialToTube(optics.FaceCard, finger)}, optics.InsideFocus)
		e := tel.AxisErrorFromStar(off, off, 5).At
		say("turn")
		say("yes")
		told := s.State().Told()
		require.NotNil(rt, told)
		after, k := e, s.State().Tel.FocalLengthMM/s.State().Tel.PathMM()/2
		for _, m := range told.Moves {
			if m.Lock != "" {
				continue // eased first where the screw would drive the mirror onto it
			}
			i, err := s.State().Index(m.Turn)
			require.NoError(rt, err)
			after = after.Add(s.State().Tracker(optics.Primary).PerTurn(i).At.Scale(k * m.Turns))
		}
		// the first bite is a quarter turn at most
		assert.Less(rt, after.Len(), 0.6*e.Len())
	})
}

func TestTheSecondarysPlace(t *testing.T) {
	for _, c := range []struct {
		outline, picture, says string
		off, today             bool
	}{
		{session.PlaceMiddle, session.PictureCentral, "in its place", false, true},
		{session.PlaceSky, session.PictureCentral, "about 3 mm toward the open end", true, true},
		{session.PlaceBackFar, session.PictureAslant, "more than 3 mm toward the primary", true, true},
		{session.PlaceMiddle, session.PictureAcross, "turned about the tube", true, false},
		{session.PlaceBack, session.PictureAcross, "toward the primary", true, false},
		{"unknown", "unknown", "could not be told", false, true},
	} {
		p := play(t, scope.Builtin()).line("dropped")
		assert.Contains(t, p.State().Ask().Say, "50 mm wide. Its right place is 1.9 mm toward the primary")
		p.line("measure").at(session.StagePlace, "outline").line(c.outline, c.picture).at(session.StageLaserIn, "on")
		f := finding(p.State(), session.StagePlace)
		assert.Contains(t, f.Words, c.says)
		assert.Equal(t, c.off, f.Off, c.says)
		p.line("none", "still", "dead", "home")
		assert.Equal(t, !c.today, p.State().Ask().Options[0].ID == session.VerdictNotToday, c.says)
	}
	play(t, scope.Builtin()).line("poor", "measure", "skip cap is stuck").at(session.StageLaserIn, "on")
}

func TestAnswersByFigures(t *testing.T) {
	for mm, want := range map[float64]string{0: session.PlaceMiddle, 1.9: session.PlaceMiddle, -2: session.PlaceMiddle, 3: session.PlaceSky, -3.2: session.PlaceBack, 5: session.PlaceSkyFar, -8: session.PlaceBackFar} {
		assert.Equal(t, want, sessiontest.OutlineOf(mm), mm)
	}
	for thin, want := range map[float64]string{1: "even", 0.95: "even", 0.8: "four_fifths", 0.65: "two_thirds", 0.5: "half", 0.1: "third"} {
		assert.Equal(t, want, session.SideOf(thin), thin)
	}
	s := play(t, scope.Builtin()).State()
	for at, want := range map[optics.Tube]string{{X: 2}: session.PictureCentral, {Y: -52}: session.PictureAcross, {Y: 20}: session.PictureAslant, {X: 50, Y: 50}: session.PictureAslant} {
		assert.Equal(t, want, sessiontest.PictureOf(s.Tel, at), at)
	}
}

// Whatever is answered, a finer check comes to an end, folds to the same state
// and can be taken back.
func TestFinerWalks(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		keep := &memory{}
		s := start(rt, keep)
		for _, ev := range []event.Event{
			{Kind: event.KindChoice, Choice: session.WhyRoutine}, {Kind: event.KindReading, Face: optics.FaceCard, Saw: event.SawGone}, {Kind: event.KindChoice, Choice: session.CircleStill},
			{Kind: event.KindReading, Face: optics.FacePrimary, Saw: event.SawWithin}, {Kind: event.KindReading, Face: optics.FaceTarget, Saw: event.SawHome},
			{Kind: event.KindFiner}, {Kind: event.KindChoice, Choice: session.VerdictLeave},
		} {
			require.NoError(rt, s.Do(ev))
		}
		require.Equal(rt, session.StageShadow, s.State().Stage().ID)
		walk(rt, s, func(ev event.Event, before session.State, err error) {
			if err != nil {
				require.Equal(rt, shown(before), shown(s.State()))
			}
		})
		events, err := session.Events(keep.lines)
		require.NoError(rt, err)
		folded, err := session.Fold(events)
		require.NoError(rt, err)
		require.Equal(rt, shown(s.State()), shown(folded))
		// always the worst answer: it ends all the same
		for n := 0; !s.State().Over; n++ {
			require.Less(rt, n, 150, "no end in sight at %s %s", s.State().Stage().ID, s.State().Ask().Step)
			ask := s.State().Ask()
			ev := event.Event{Kind: event.KindConfirm}
			switch {
			case ask.Want == session.WantReading:
				ev = event.Event{Kind: event.KindReading, Face: ask.Face, Saw: event.SawPlace, Right: 9, Up: 9}
				if ask.Again {
					ev.Saw = event.SawHome
				}
			case ask.Step == "sides":
				ev = event.Event{Kind: event.KindChoice, Choice: "third"}
			case ask.Want == session.WantChoice:
				ev = event.Event{Kind: event.KindChoice, Choice: ask.Options[0].ID}
			}
			if ask.Stage.ID != session.StageShadow && ask.Stage.ID != session.StageStar && ask.Stage.ID != session.StagePutAway {
				ev = event.Event{Kind: event.KindStop}
				if ask.Stage.ID == session.StageStopping {
					ev = event.Event{Kind: event.KindConfirm}
				}
			}
			if ask.Step == "moved" {
				ev = event.Event{Kind: event.KindChoice, Choice: "no"}
			}
			require.NoError(rt, s.Do(ev), "%s %s", ask.Stage.ID, ask.Step)
		}
	})
}

package session_test

import (
	"encoding/json"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"spotward/optics"
	"spotward/session"
	"spotward/session/answer"
	"spotward/session/event"
	"spotward/session/scope"
)

// memory keeps events as a journal would, without a disk.
type memory struct{ lines []event.Line }

func (m *memory) Keep(events ...event.Event) error {
	for _, ev := range events {
		raw, err := json.Marshal(ev)
		if err != nil {
			return err
		}
		n := len(m.lines)
		m.lines = append(m.lines, event.Line{V: 1, Seq: n, T: time.Unix(int64(n), 0).UTC(), Kind: string(ev.Kind), Raw: raw})
	}
	return nil
}

func start(t require.TestingT, keep session.Keeper) *session.Session {
	scope := scope.Builtin()
	s, err := session.Start(event.Event{ID: "20260101T000000Z-0001", Scope: &scope, Who: "Wren's volunteer"}, keep)
	require.NoError(t, err)
	return s
}

// shown is everything of a state that a face can draw.
func shown(s session.State) map[string]any {
	plan, at := s.Plan()
	ask := s.Ask()
	mm, max, ok := s.AxisError()
	return map[string]any{
		"plan": plan, "at": at, "step": ask.Step, "say": ask.Say, "options": ask.Options, "again": ask.Again,
		"told": ask.Told, "over": s.Over, "record": s.Record(), "error": []any{mm, max, ok}, "laser": s.Laser.On,
	}
}

// anyEvent draws an event: mostly one that answers what is asked, now and then
// one that does not.
func anyEvent(t *rapid.T, s session.State) event.Event {
	ask := s.Ask()
	reading := func(face optics.Face) event.Event {
		mm := rapid.Float64Range(-20, 20)
		ev := event.Event{Kind: event.KindReading, Face: face, Right: mm.Draw(t, "right"), Up: mm.Draw(t, "up")}
		ev.Saw = rapid.SampledFrom([]event.Sight{event.SawPlace, event.SawPlace, event.SawPlace, event.SawWithin, event.SawWithin, event.SawInRing, event.SawHome, event.SawGone, event.SawCantSee}).Draw(t, "saw")
		return ev
	}
	if rapid.IntRange(0, 9).Draw(t, "stray") > 1 {
		switch ask.Want {
		case session.WantConfirm:
			return event.Event{Kind: event.KindConfirm}
		case session.WantChoice:
			return event.Event{Kind: event.KindChoice, Choice: rapid.SampledFrom(ask.Options).Draw(t, "option").ID}
		}
		return reading(ask.Face)
	}
	label := rapid.SampledFrom([]string{"A", "B", "C", "D", ""})
	switch rapid.SampledFrom([]event.Kind{event.KindUndo, event.KindRedo, event.KindBack, event.KindSkip, event.KindTurned, event.KindScrew, event.KindConfirm, event.KindReading, event.KindStop, event.KindLaser, event.KindHand, "of the future"}).Draw(t, "kind") {
	case event.KindUndo:
		return event.Event{Kind: event.KindUndo}
	case event.KindRedo:
		return event.Event{Kind: event.KindRedo}
	case event.KindBack:
		return event.Event{Kind: event.KindBack}
	case event.KindSkip:
		return event.Event{Kind: event.KindSkip, Why: "no time"}
	case event.KindTurned:
		m := rapid.SampledFrom([]optics.Mirror{optics.Primary, optics.Secondary}).Draw(t, "mirror")
		turn := optics.Turn{Mirror: m, Turns: rapid.Float64Range(-0.5, 0.5).Draw(t, "turns")}
		if rapid.Bool().Draw(t, "lock") {
			turn.Lock = label.Draw(t, "which")
		} else {
			turn.Screw = label.Draw(t, "which")
		}
		return event.Event{Kind: event.KindTurned, Turned: []optics.Turn{turn}}
	case event.KindScrew:
		return event.Event{Kind: event.KindScrew, Screw: label.Draw(t, "which"), Is: rapid.SampledFrom([]event.Says{event.SaysStuck, event.SaysFree, event.SaysEnd, event.SaysOtherWay, event.SaysNotDone, "singing"}).Draw(t, "is")}
	case event.KindConfirm:
		return event.Event{Kind: event.KindConfirm}
	case event.KindReading:
		return reading(rapid.SampledFrom([]optics.Face{optics.FacePrimary, optics.FaceTarget, optics.FaceSecondary}).Draw(t, "face"))
	case event.KindStop:
		return event.Event{Kind: event.KindStop}
	case event.KindLaser:
		return event.Event{Kind: event.KindLaser}
	case event.KindHand:
		return event.Event{Kind: event.KindHand}
	}
	return event.Event{Kind: "of the future"}
}

// walksFrom are the lines that are said before a walk: none, to the first move,
// and to where the kit is put away. A walk alone may come to neither.
func walksFrom() [][]string {
	return [][]string{nil, {"routine", "none", "still", "4 12"}, {"routine", "none", "still", "dead", "home", "leave"}}
}

func startAt(t *rapid.T, lines []string, keep session.Keeper) *session.Session {
	s := start(t, keep)
	for _, line := range lines {
		typed, err := answer.Line(s.State(), line)
		require.NoError(t, err)
		require.NoError(t, s.Do(typed.Events...))
	}
	return s
}

func walk(t *rapid.T, s *session.Session, each func(ev event.Event, before session.State, err error)) {
	for range rapid.IntRange(1, 40).Draw(t, "steps") {
		if s.State().Over {
			return
		}
		before, ev := s.State(), anyEvent(t, s.State())
		each(ev, before, s.Do(ev))
	}
}

func TestJournalFoldsToTheSameState(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		keep := &memory{}
		s := start(t, keep)
		walk(t, s, func(event.Event, session.State, error) {})
		events, err := session.Events(keep.lines)
		require.NoError(t, err)
		folded, err := session.Fold(events)
		require.NoError(t, err)
		require.Equal(t, shown(s.State()), shown(folded))
	})
}

func TestWhatIsRefusedChangesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := start(t, nil)
		walk(t, s, func(_ event.Event, before session.State, err error) {
			if err != nil {
				require.Equal(t, shown(before), shown(s.State()))
				require.NotContains(t, err.Error(), "\n")
			}
		})
	})
}

func TestUndoThenRedoIsIdentity(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := start(t, nil)
		walk(t, s, func(event.Event, session.State, error) {})
		if s.State().Over {
			return
		}
		before := shown(s.State())
		if s.Do(event.Event{Kind: event.KindUndo}) != nil {
			return // nothing to take back
		}
		require.NoError(t, s.Do(event.Event{Kind: event.KindRedo}))
		require.Equal(t, before, shown(s.State()))
	})
}

func TestNoDeadEnds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := start(t, nil)
		walk(t, s, func(event.Event, session.State, error) {
			st := s.State()
			if st.Over {
				require.False(t, st.Laser.On, "over with the laser noted as on")
				require.NotEmpty(t, st.Outcome)
				require.NotEmpty(t, st.Tag)
				return
			}
			ask := st.Ask()
			require.NotEmpty(t, ask.Want, "nothing is asked at %s", ask.Stage.ID)
			require.NotEmpty(t, ask.Say)
			if ask.Want == session.WantChoice {
				require.NotEmpty(t, ask.Options)
			}
			if ask.Told != nil {
				require.NotEmpty(t, ask.Told.Moves)
			}
		})
		if !s.State().Over { // and it can always be made safe
			require.NoError(t, s.Do(event.Event{Kind: event.KindStop}))
			if s.State().Ask().Step == "moved" {
				return
			}
			require.NoError(t, s.Do(event.Event{Kind: event.KindConfirm}))
			require.True(t, s.State().Over)
		}
	})
}

func TestUndoToTheVeryStart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := start(t, nil)
		walk(t, s, func(event.Event, session.State, error) {})
		if s.State().Over {
			return
		}
		for n := 0; s.Do(event.Event{Kind: event.KindUndo}) == nil; n++ {
			require.Less(t, n, 200)
		}
		require.Equal(t, session.StageReady, s.State().Stage().ID)
	})
}

// stepOf returns the row of the step that is asked, or nil for the question
// after a session was taken up.
func stepOf(ask session.Ask) *session.Step {
	for i := range ask.Stage.Steps {
		if ask.Stage.Steps[i].ID == ask.Step {
			return &ask.Stage.Steps[i]
		}
	}
	return nil
}

func TestAdviceOnlyWhereAStageHasSome(t *testing.T) {
	advised := 0
	for _, from := range walksFrom() {
		rapid.Check(t, func(t *rapid.T) {
			s := startAt(t, from, nil)
			walk(t, s, func(event.Event, session.State, error) {
				ask := s.State().Ask()
				step := stepOf(ask)
				if step == nil || step.Tell == nil {
					require.Nil(t, ask.Told, "told at %s, %s", ask.Stage.ID, ask.Step)
				}
				_, due := s.State().Advise()
				require.False(t, due, "what is due is told at once")
				if ask.Told != nil {
					advised++
				}
			})
		})
	}
	require.Positive(t, advised, "no walk came to a move")
}

// The laser is noted as on by nothing but a yes to the question that has the
// card up, and as off with the tag, which is asked for after it.
func TestLaserIsOnOnlyBehindItsCaution(t *testing.T) {
	on, tags := 0, 0
	for _, from := range walksFrom() {
		rapid.Check(t, func(t *rapid.T) {
			s := startAt(t, from, nil)
			walk(t, s, func(ev event.Event, before session.State, err error) {
				now := s.State()
				if now.Laser.On && !before.Laser.On && ev.Kind != event.KindUndo && ev.Kind != event.KindRedo {
					ask := before.Ask()
					require.Equal(t, session.StepOn, ask.Step)
					require.Contains(t, ask.Say+ask.Heading.Laser.Long, "card", "%s, %s", ask.Stage.ID, ask.Step)
					on++
				}
				if ask := now.Ask(); !now.Over && ask.Step == session.StepTag {
					require.True(t, strings.HasPrefix(ask.Say, "Laser off and out"), ask.Say)
					require.Equal(t, now.Laser.On, slices.Contains(ask.Deeds, session.DeedLaserOff))
				}
				if now.Tag != "" {
					require.False(t, now.Laser.On, "a tag with the laser noted as on")
					tags++
				}
			})
		})
	}
	require.Positive(t, on)
	require.Positive(t, tags)
}

// The stages with what must be read before hands act cannot be left out, and
// one yes each passes them: nothing is asked twice of those who read.
func TestCautionsCannotBeSkippedNorNag(t *testing.T) {
	for _, id := range []session.StageID{session.StageReady, session.StageLaserIn, session.StagePutAway, session.StageStopping} {
		require.Empty(t, session.StageRow(id).Skip, id)
		require.NotEmpty(t, session.StageRow(id).Beware, id)
	}
	s := start(t, nil)
	asked := map[string]int{}
	for n := 0; !s.State().Over; n++ {
		require.Less(t, n, 60)
		st := s.State()
		ask, ev := st.Ask(), event.Event{Kind: event.KindConfirm}
		skipped := s.Do(event.Event{Kind: event.KindSkip, Why: "no time"})
		require.Equal(t, ask.Stage.Skip != "", skipped == nil, "%s", ask.Stage.ID)
		if skipped == nil {
			continue
		}
		switch ask.Want {
		case session.WantChoice:
			ev = event.Event{Kind: event.KindChoice, Choice: ask.Options[0].ID}
		case session.WantReading:
			if ask.Yes {
				asked[string(ask.Stage.ID)+" "+string(ask.Step)]++
			} else {
				ev = event.Event{Kind: event.KindReading, Face: ask.Face, Saw: event.SawWithin}
			}
		default:
			asked[string(ask.Stage.ID)+" "+string(ask.Step)]++
		}
		require.NoError(t, s.Do(ev))
	}
	for what, times := range asked {
		require.Equal(t, 1, times, what)
	}
	require.NotEmpty(t, asked)
}

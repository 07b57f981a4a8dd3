package session_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/session"
	"spotward/session/answer"
	"spotward/session/event"
	"spotward/session/header"
	"spotward/session/mirrors"
	"spotward/session/scope"
)

// What has to be said, and at which stage: where the hand is about to do the
// thing. Laser classes and what an instrument does to a beam: IEC 60825-1:2014
// by secondary texts. The sun and filters: a planetarium's page of advice;
// eclipse viewers' ISO 12312-2 does not cover telescopes by its own scope. The
// rest is common practice.
func TestCautionsStandWhereTheHandActs(t *testing.T) {
	for _, c := range []struct {
		stage session.StageID
		says  []string // all in one caution
	}{
		{session.StageReady, []string{"Cap", "sun"}},
		{session.StageReady, []string{"Never toward the sun", "filter goes over the front, never at the eyepiece"}},
		{session.StageReady, []string{"batteries", "from children", "swallowed, get emergency care at once"}},
		{session.StageReady, []string{"Local rules and trained people come first"}},
		{session.StageReady, []string{"Heavy tubes", "two people"}},
		{session.StageEmpty, []string{"sun", "before an eye comes"}},
		{session.StageLaserIn, []string{"Never look into the beam or along it", "reflection in a mirror"}},
		{session.StageLaserIn, []string{"Class 2 or 3R only"}},
		{session.StageLaserIn, []string{"card over the open end BEFORE the laser goes on"}},
		{session.StageLaserIn, []string{"Adults only at the open end", "children"}},
		{session.StageLaserIn, []string{"Never toward aircraft, a road or people"}},
		{session.StageFirstLook, []string{"Card up before you lean in", "Do not put your eye where red falls"}},
		{session.StageLabels, []string{"Nothing loose over the open tube", "fall on the primary"}},
		{session.StageSecondary, []string{"Never touch the centre bolt", "Never ease all three at once"}},
		{session.StageSecondary, []string{"Key on its tether", "nothing may fall on the primary"}},
		{session.StageSecondary, []string{"Card over half the end and over any red", "head outside the rim"}},
		{session.StageSecondary, []string{"half a turn past the point where it goes free"}},
		{session.StageLaserFit, []string{"nobody at the open end"}},
		{session.StageLocks, []string{"Nose up, held", "sky end down", "two people"}},
		{session.StageLocks, []string{"Never take a lock out"}},
		{session.StageRough, []string{"Nose up, held"}},
		{session.StageRough, []string{"At the open end", "head outside the rim", "card"}},
		{session.StageHome, []string{"Nose up, held"}},
		{session.StageHome, []string{"hard or free, stop"}},
		{session.StageRetighten, []string{"Two fingers only", "cracks the glass"}},
		{session.StageRetighten, []string{"Nose up, held, until the last lock is snug"}},
		{session.StageSwing, []string{"Laser off, or card over the end", "every walk", "two people"}},
		{session.StagePutAway, []string{"do not tilt the tube", "torch first"}},
		{session.StagePutAway, []string{"batteries from children", "emergency care at once"}},
		{session.StageStopping, []string{"Locks snug before the tube is moved"}},
		{session.StageStopping, []string{"batteries from children", "emergency care at once"}},
		{session.StageStar, []string{"Never toward the sun"}},
		{session.StageShadow, []string{"never look into the beam"}},
	} {
		row := session.StageRow(c.stage)
		require.NotNil(t, row, c.stage)
		said := false
		for _, b := range row.Beware {
			all := true
			for _, part := range c.says {
				all = all && strings.Contains(b, part)
			}
			said = said || all
		}
		assert.True(t, said, "%s does not say %q: %q", c.stage, c.says, row.Beware)
	}
}

// The four things said first: with eased locks the tube is nose up, with the
// secondary in hand it is level, and the laser is on only behind a card.
func TestHeadersKeepHandsAndGlassSafe(t *testing.T) {
	for _, c := range []struct {
		stages []session.StageID
		tube   header.Attitude
	}{
		{[]session.StageID{session.StageLocks, session.StageRough, session.StageHome, session.StageRetighten}, header.TubeNoseUp},
		{[]session.StageID{session.StageReady, session.StageEmpty, session.StageLaserIn, session.StageFirstLook, session.StageLabels, session.StageSecondary, session.StageLaserFit, session.StagePutAway}, header.TubeLevel},
		{[]session.StageID{session.StageStopping}, header.TubeAsItIs},
	} {
		for _, id := range c.stages {
			row := session.StageRow(id)
			headers := []header.Header{row.Header}
			for _, step := range row.Steps {
				if step.Header != nil {
					headers = append(headers, *step.Header)
				}
			}
			for _, h := range headers {
				assert.Equal(t, c.tube, h.Tube, "%s", id)
				assert.NotEmpty(t, h.Stand, "%s", id)
				assert.NotEmpty(t, h.Tool, "%s", id)
				assert.False(t, h.Beam != header.BeamOff && h.Card == header.CardNone, "%s: on only behind a card", id)
			}
		}
	}
	for _, do := range []struct {
		stage session.StageID
		says  string
	}{
		{session.StagePutAway, "Take its battery out"},
		{session.StageStopping, "Its battery out and counted"},
		{session.StageLocks, "A lock never comes out altogether"},
		{session.StageReady, "Count the kit out"},
		{session.StagePutAway, "Count everything back"},
	} {
		assert.Contains(t, strings.Join(session.StageRow(do.stage).Do, " "), do.says, "%s", do.stage)
	}
}

// A standard for eclipse viewers is none for telescopes: no text may lean on
// it.
func TestNoTextNamesTheWrongStandard(t *testing.T) {
	for _, row := range allRows() {
		assert.NotContains(t, strings.Join(append(row.Beware, row.Do...), " "), "12312", "%s", row.ID)
	}
}

func allRows() []*session.Stage {
	var rows []*session.Stage
	for _, id := range []session.StageID{
		session.StageReady, session.StageEmpty, session.StageLaserIn, session.StageFirstLook, session.StageVerdict, session.StageLabels, session.StageSecondary, session.StageLaserFit, session.StageLocks,
		session.StageRough, session.StageHome, session.StageRetighten, session.StageSwing, session.StagePutAway, session.StageStopping, session.StagePlace, session.StageShadow, session.StageStar,
	} {
		rows = append(rows, session.StageRow(id))
	}
	return rows
}

// A laser whose label says more than 5 mW, or nothing, is declined: it is never
// asked to be switched on, and the session ends with nothing turned.
func TestStrongLasersAreDeclined(t *testing.T) {
	for class, declined := range map[string]bool{
		"1": false, "2": false, "3R": false, mirrors.ClassOver: true, mirrors.ClassNone: true, "unknown": true,
	} {
		scope := scope.Builtin()
		scope.Laser.Class = ""
		s, err := session.Start(event.Event{ID: "20260101T000000Z-0001", Scope: &scope}, nil)
		require.NoError(t, err)
		require.NoError(t, s.Do(event.Event{Kind: event.KindChoice, Choice: session.WhyRoutine}))
		require.Equal(t, session.StepClass, s.State().Ask().Step)
		_, err = answer.Line(s.State(), "")
		require.ErrorContains(t, err, "which one?", "Enter claims no class")
		require.NoError(t, s.Do(event.Event{Kind: event.KindChoice, Choice: class}))
		if !declined {
			assert.Equal(t, session.StepOn, s.State().Ask().Step, class)
			continue
		}
		for !s.State().Over {
			assert.Equal(t, session.StagePutAway, s.State().Stage().ID, class)
			assert.False(t, s.State().Laser.On, class)
			ev := event.Event{Kind: event.KindConfirm}
			if ask := s.State().Ask(); ask.Want == session.WantChoice {
				ev = event.Event{Kind: event.KindChoice, Choice: ask.Options[0].ID}
			}
			require.NoError(t, s.Do(ev))
		}
		assert.Equal(t, session.VerdictNotToday, s.State().Verdict, class)
		assert.Equal(t, session.TagHoldBack, s.State().Tag, class)
		assert.Zero(t, s.State().Moves, class)
	}
}

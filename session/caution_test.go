package session_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	. "spotward/session"
)

// What has to be said, and at which stage: where the hand is about to do the
// thing. Laser classes and what an instrument does to a beam: IEC 60825-1:2014
// by secondary texts. The sun and filters: a planetarium's page of advice;
// eclipse viewers' ISO 12312-2 does not cover telescopes by its own scope. The
// rest is common practice.
func TestCautionsStandWhereTheHandActs(t *testing.T) {
	for _, c := range []struct {
		stage StageID
		says  []string // all in one caution
	}{
		{StageReady, []string{"Cap", "sun"}},
		{StageReady, []string{"Never toward the sun", "filter goes over the front, never at the eyepiece"}},
		{StageReady, []string{"Cells", "away from children", "swallowed, go to emergency care at once"}},
		{StageReady, []string{"Local rules and trained people come first"}},
		{StageReady, []string{"Heavy tubes", "two people"}},
		{StageEmpty, []string{"sun", "before an eye comes"}},
		{StageLaserIn, []string{"Never look into the beam or along it", "reflection in a mirror"}},
		{StageLaserIn, []string{"Class 2 or 3R only"}},
		{StageLaserIn, []string{"card over the open end BEFORE the laser goes on"}},
		{StageLaserIn, []string{"Adults only at the open end", "children"}},
		{StageLaserIn, []string{"Never toward aircraft, a road or people"}},
		{StageFirstLook, []string{"Card up before you lean in", "Do not put your eye where red falls"}},
		{StageLabels, []string{"Nothing loose over the open tube", "fall on the primary"}},
		{StageSecondary, []string{"Never touch the centre bolt", "Never ease all three at once"}},
		{StageSecondary, []string{"Key on its tether", "nothing may fall on the primary"}},
		{StageSecondary, []string{"Card over the half where red shows", "head outside the rim"}},
		{StageSecondary, []string{"half a turn past the point where it goes free"}},
		{StageLaserFit, []string{"nobody at the open end"}},
		{StageLocks, []string{"Nose up, held", "sky end down", "two people"}},
		{StageLocks, []string{"Never take a lock out"}},
		{StageRough, []string{"Nose up, held"}},
		{StageRough, []string{"At the open end", "head outside the rim", "card"}},
		{StageHome, []string{"Nose up, held"}},
		{StageHome, []string{"hard or free: stop"}},
		{StageRetighten, []string{"Two fingers only", "cracks the glass"}},
		{StageRetighten, []string{"Nose up, held, until the last lock is snug"}},
		{StageSwing, []string{"Laser off, or card over the end", "every walk", "two people"}},
		{StagePutAway, []string{"Do not tilt the tube", "torch first"}},
		{StagePutAway, []string{"Cells away from children", "emergency care at once"}},
		{StageStopping, []string{"Locks snug before the tube is moved"}},
		{StageStopping, []string{"Cells away from children", "emergency care at once"}},
		{StageStar, []string{"Never toward the sun"}},
		{StageShadow, []string{"never look into the beam"}},
	} {
		row := StageRow(c.stage)
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
		stages []StageID
		tube   Attitude
	}{
		{[]StageID{StageLocks, StageRough, StageHome, StageRetighten}, TubeNoseUp},
		{[]StageID{StageReady, StageEmpty, StageLaserIn, StageFirstLook, StageLabels, StageSecondary, StageLaserFit, StagePutAway}, TubeLevel},
		{[]StageID{StageStopping}, TubeAsItIs},
	} {
		for _, id := range c.stages {
			row := StageRow(id)
			headers := []Header{row.Header}
			for _, step := range row.Steps {
				if step.Header != nil {
					headers = append(headers, *step.Header)
				}
			}
			for _, h := range headers {
				assert.Equal(t, c.tube, h.Tube, "%s", id)
				assert.NotEmpty(t, h.Stand, "%s", id)
				assert.NotEmpty(t, h.Tool, "%s", id)
				assert.False(t, h.Beam != BeamOff && h.Card == CardNone, "%s: on only behind a card", id)
			}
		}
	}
	for _, do := range []struct {
		stage StageID
		says  string
	}{
		{StagePutAway, "Its cell out of it"},
		{StageStopping, "its cell out and counted"},
		{StageLocks, "A lock never comes out altogether"},
		{StageReady, "Count the kit out"},
		{StagePutAway, "Count everything back"},
	} {
		assert.Contains(t, strings.Join(StageRow(do.stage).Do, " "), do.says, "%s", do.stage)
	}
}

// A standard for eclipse viewers is none for telescopes: no text may lean on
// it.
func TestNoTextNamesTheWrongStandard(t *testing.T) {
	for _, row := range allRows() {
		assert.NotContains(t, strings.Join(append(row.Beware, row.Do...), " "), "12312", "%s", row.ID)
	}
}

func allRows() []*Stage {
	var rows []*Stage
	for _, id := range []StageID{
		StageReady, StageEmpty, StageLaserIn, StageFirstLook, StageVerdict, StageLabels, StageSecondary, StageLaserFit, StageLocks,
		StageRough, StageHome, StageRetighten, StageSwing, StagePutAway, StageStopping, StagePlace, StageShadow, StageStar,
	} {
		rows = append(rows, StageRow(id))
	}
	return rows
}

// A laser whose label says more than 5 mW, or nothing, is declined: it is never
// asked to be switched on, and the session ends with nothing turned.
func TestStrongLasersAreDeclined(t *testing.T) {
	for class, declined := range map[string]bool{
		"1": false, "2": false, "3R": false, ClassOver: true, ClassNone: true, "unknown": true,
	} {
		scope := Builtin()
		scope.Laser.Class = ""
		s, err := Start(Event{ID: "20260101T000000Z-0001", Scope: &scope}, nil)
		require.NoError(t, err)
		require.NoError(t, s.Do(Event{Kind: KindChoice, Choice: WhyRoutine}))
		require.Equal(t, StepClass, s.State().Ask().Step)
		require.NoError(t, s.Do(Event{Kind: KindChoice, Choice: class}))
		if !declined {
			assert.Equal(t, StepOn, s.State().Ask().Step, class)
			continue
		}
		for !s.State().Over {
			assert.Equal(t, StagePutAway, s.State().Stage().ID, class)
			assert.False(t, s.State().LaserOn, class)
			ev := Event{Kind: KindConfirm}
			if ask := s.State().Ask(); ask.Want == WantChoice {
				ev = Event{Kind: KindChoice, Choice: ask.Options[0].ID}
			}
			require.NoError(t, s.Do(ev))
		}
		assert.Equal(t, VerdictNotToday, s.State().Verdict, class)
		assert.Equal(t, TagHoldBack, s.State().Tag, class)
		assert.Zero(t, s.State().Moves, class)
	}
}

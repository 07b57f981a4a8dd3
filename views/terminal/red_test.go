package terminal

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/header"
	"spotward/views/desk"
	"spotward/views/schematic"
	"spotward/views/terminal/align"
	"spotward/views/terminal/frame"
)

// A place to look in at is drawn only where it is known where red shows: across
// from it.
func TestNoPlaceToLookInAtBeforeRedIsKnown(t *testing.T) {
	for _, size := range [][2]int{{60, 18}, {80, 24}, {120, 36}, {200, 50}} {
		for _, ascii := range []bool{false, true} {
			p := practising(t, 5, size[0], size[1], Options{ASCII: ascii}, env())
			p.plays(to(session.StageLaserIn, "circle", false))
			assert.Contains(t, strings.Join(strings.Fields(p.View()), " "), "No red on the card")
			assert.NotContains(t, p.View(), "look in", "%v", size)
		}
	}
	for seed := range uint64(6) {
		p := practising(t, seed, 80, 24, Options{}, env())
		p.plays(func(ask session.Ask) bool {
			st := p.align().State()
			red, known := st.RedAt()
			if ask.Face != "" || ask.Header.Stand != header.StandSky {
				return false
			}
			end := align.OpenEnd(st, ask.Header)
			if !known && !st.Red.Gone {
				assert.Empty(t, end.LookWord, "%s", ask.Step)
				assert.NotEqual(t, schematic.CoverHalf, end.Card, "%s", ask.Step)
			} else if known && end.Card == schematic.CoverHalf {
				assert.Equal(t, red.Hour(), end.CoverHour)
			}
			return false
		})
	}
}

// What was read decides: the half round the hour of the spot stays covered.
func TestTheHalfThatStaysCoveredIsTheOneAnswered(t *testing.T) {
	p := practising(t, 5, 80, 24, Options{}, env())
	p.plays(to(session.StageFirstLook, "p", false))
	p.enters("7:30 60mm")
	require.False(t, p.Bad, p.Note)
	st := p.align().State()
	header := header.Header{Stand: header.StandSky, Card: header.CardHalf}
	end := align.OpenEnd(st, header)
	assert.Equal(t, schematic.CoverHalf, end.Card)
	assert.Equal(t, "look in", end.LookWord)
	assert.InDelta(t, 7.5, end.CoverHour, 1)

	next, err := session.Apply(st, event.Event{Kind: event.KindTurned, Turned: []optics.Turn{{Mirror: optics.Secondary, Screw: "A", Turns: 0.25}}})
	require.NoError(t, err)
	assert.Equal(t, schematic.CoverWhole, align.OpenEnd(next, header).Card, "the beam has moved, nobody knows where to")
}

// In practice the card shows the red that is asked for.
func TestRedOnTheCardIsDrawnAndSaid(t *testing.T) {
	shown := 0
	for seed := range uint64(12) {
		p := practising(t, seed, 80, 24, Options{}, env())
		p.plays(to(session.StageLaserIn, "on", false))
		said := p.align().Work.See()
		p.plays(to(session.StageLaserIn, "circle", false))
		s := p.align()
		view, _ := s.Work.Look(optics.FaceCard)
		mark := s.RedOnCard(s.State(), s.State().Ask().Header)
		if !view.Visible {
			assert.Nil(t, mark)
			assert.Contains(t, said, "No red on the card.")
			continue
		}
		shown++
		require.NotNil(t, mark)
		assert.Equal(t, s.State().Tel.ToDial(optics.FaceCard, view.Seen), mark.At)
		assert.Contains(t, said, "Red on the card, ")
	}
	assert.Positive(t, shown)
}

// In the least room the whole question is read, and an example under it.
func TestTheFirstLookIsAskedInFull(t *testing.T) {
	for _, size := range [][2]int{{60, 18}, {80, 24}, {120, 36}} {
		p := practising(t, 5, size[0], size[1], Options{}, env())
		p.plays(to(session.StageFirstLook, "p", false))
		sz, _ := frame.SizesFor(size[0], size[1], false, false)
		text := shownIn(p.View(), schematic.Rect{X: sz.Column.X, Y: align.UnderRing(sz), W: sz.Column.W, H: sz.Rule.Y - align.UnderRing(sz)})
		shown := strings.Join(strings.Fields(strings.Join(text, " ")), " ")
		assert.Contains(t, shown, p.align().State().Ask().Say, "%v", size)
		assert.Contains(t, shown, "4:30 2r", "%v", size)
	}
}

// The card that red is looked for on is drawn beside the question, with what is
// seen in practice above it; only the least screen has no room for it.
func TestTheCardIsDrawnBesideItsQuestion(t *testing.T) {
	for _, size := range [][2]int{{80, 24}, {120, 36}, {200, 50}} {
		for _, ascii := range []bool{false, true} {
			for seed := range uint64(4) {
				w, err := (&desk.Desk{Now: noon}).Practice(scopeNamed(t, "heron"), event.World{Seed: seed, Level: "usual"})
				require.NoError(t, err)
				a, err := newApp(&desk.Desk{Now: noon}, Options{Start: StartWork, Work: w, ASCII: ascii}, env())
				require.NoError(t, err)
				p := &player{t, a}
				p.size(size[0], size[1])
				p.plays(to(session.StageLaserIn, "circle", false))
				sz, _ := frame.SizesFor(size[0], size[1], false, ascii)
				card := strings.Join(shownIn(p.View(), sz.FaceWords), "\n")
				assert.Contains(t, card, "284 mm", "%v, seed %d\n%s", size, seed, p.View())
			}
		}
	}
}

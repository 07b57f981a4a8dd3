package session_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/optics"
	"spotward/optics/picture"
	"spotward/session"
	"spotward/session/answer"
	"spotward/session/event"
	"spotward/session/photo"
	"spotward/session/scope"
)

// sightAt is what a picture shows of a spot at a clock position, with the errors
// that such a picture has.
func sightAt(f optics.Face, hour, mm float64) picture.Sight {
	return picture.Sight{Face: f, At: optics.AtHour(hour, mm), SigmaMM: 0.06, AlongMM: 0.06, AcrossMM: math.Hypot(0.06, picture.RollRad*mm)}
}

// pictured has a picture be the reading; of is what its file holds.
func (p player) pictured(of string, sight picture.Sight) error {
	s := p.State()
	return p.Do(answer.Picture(s, photo.Reading(sight, s.Tel, photo.Of("/home/ada/"+of+".jpg", []byte(of)))).Events[0])
}

func (p player) photo(of string, sight picture.Sight) player {
	p.t.Helper()
	require.NoError(p.t, p.pictured(of, sight))
	return p
}

func firstLook(t *testing.T) player {
	return play(t, scope.Builtin()).line("routine", "none", "still").at(session.StageFirstLook, "p")
}

// A picture's place is taken as typed, with its error along the line and across it,
// and it is said where it is from: in the state, in the record, of what the claim
// rests on. No folder is told.
func TestAPictureIsAReading(t *testing.T) {
	p := firstLook(t).photo("IMG_1", sightAt(optics.FacePrimary, 4, 1.3))
	spot := p.State().OnPrimary()
	at := p.State().Tel.TubeToDial(optics.FacePrimary, spot.At.At)
	assert.InDelta(t, 4, at.Hour(), 1e-9)
	assert.InDelta(t, 1.3, at.Len(), 1e-9)
	require.NotNil(t, spot.Picture)
	assert.Equal(t, "IMG_1.jpg", spot.Picture.Name)

	along := spot.At.At.Scale(1 / spot.At.At.Len())
	c := spot.At.Cov
	assert.InDelta(t, 0.06, math.Sqrt(c.XX*along.X*along.X+2*c.XY*along.X*along.Y+c.YY*along.Y*along.Y), 1e-9)
	assert.InDelta(t, math.Hypot(0.06, 0.07*1.3), math.Sqrt(c.XX*along.Y*along.Y-2*c.XY*along.X*along.Y+c.YY*along.X*along.X), 1e-9)

	last := p.State().Events()[len(p.State().Events())-1]
	assert.NotContains(t, last.Text, "ada")
	p.line("home", "leave")
	r := p.State().Record()
	require.NotNil(t, r.Left.P.Picture)
	assert.Equal(t, int64(len("IMG_1")), r.Left.P.Picture.Bytes)
	assert.Contains(t, r.TagWhy, "By one spot from a picture and one in the hole")
	assert.Nil(t, r.Left.T.Picture)
}

// What is claimed is the surer for a picture than for the same place by eye; a
// second picture before the swing and after it makes it surer yet.
func TestAPictureIsWorthItsError(t *testing.T) {
	claim := func(p player) optics.Claim {
		c, ok := p.line("home").State().Claim()
		require.True(t, ok)
		return c
	}
	seen := claim(firstLook(t).line("4 1"))
	pictured := claim(firstLook(t).photo("a", sightAt(optics.FacePrimary, 4, 1)))
	assert.Less(t, pictured.AtMostMM, seen.AtMostMM)
	assert.InDelta(t, seen.AboutMM, pictured.AboutMM, 0.5)
}

func TestOnePictureTwiceSaysNoMore(t *testing.T) {
	p := firstLook(t).photo("a", sightAt(optics.FacePrimary, 4, 20))
	p.at(session.StageSecondary, session.StepPrimary)
	before := shown(p.State())
	assert.ErrorContains(t, p.pictured("a", sightAt(optics.FacePrimary, 4, 3)), "was read before")
	assert.Equal(t, before, shown(p.State()))
	cued := p.cued()
	p.photo("b", cued)
	assert.ErrorContains(t, p.pictured("b", sightAt(optics.FacePrimary, 4, 3)), "was read before")
	// Taken back, it may be read again.
	p.line("undo").photo("b", cued)
}

// cued is what a picture shows of a spot that has come to its cue.
func (p player) cued() picture.Sight {
	told := p.State().Told()
	require.NotNil(p.t, told)
	stop := told.Moves[len(told.Moves)-1].Stop
	at := p.State().Tel.ToDial(optics.FacePrimary, optics.Seen{Right: stop.Right, Up: stop.Up})
	return sightAt(optics.FacePrimary, at.Hour(), at.Len())
}

func TestWhereNoPictureIsRead(t *testing.T) {
	p := firstLook(t)
	reading := func(change func(*event.Event)) event.Event {
		ev := photo.Reading(sightAt(optics.FacePrimary, 4, 6), p.State().Tel, photo.Of("a.jpg", []byte("a")))
		pic := *ev.Picture
		ev.Picture = &pic
		change(&ev)
		return ev
	}
	require.NoError(t, play(t, scope.Builtin()).line("routine", "none", "still").Do(reading(func(*event.Event) {})))
	for name, change := range map[string]func(*event.Event){
		"another sight":     func(ev *event.Event) { ev.Saw = event.SawGone },
		"no error":          func(ev *event.Event) { ev.Cov = nil },
		"a path":            func(ev *event.Event) { ev.Picture.Name = "../a.jpg" },
		"no name":           func(ev *event.Event) { ev.Picture.Name = "" },
		"an escape":         func(ev *event.Event) { ev.Picture.Name = "\x1b[2J" },
		"a name too long":   func(ev *event.Event) { ev.Picture.Name = strings.Repeat("a", 256) },
		"an empty file":     func(ev *event.Event) { ev.Picture.Bytes = 0 },
		"no hash":           func(ev *event.Event) { ev.Picture.SHA256 = "" },
		"what is no hash":   func(ev *event.Event) { ev.Picture.SHA256 = strings.Repeat("g", 64) },
		"on the wrong face": func(ev *event.Event) { ev.Face = optics.FaceTarget },
	} {
		before := shown(p.State())
		assert.Error(t, p.Do(reading(change)), name)
		assert.Equal(t, before, shown(p.State()), name)
	}
	p.line("dead")
	_, err := p.State().PictureFace()
	assert.ErrorContains(t, err, "can tell the spot on the primary")
	assert.Error(t, p.pictured("t", sightAt(optics.FaceTarget, 4, 1)))

}

// The ring's shadow is read on a picture as the spot is, and what is claimed by it
// is the surer.
func TestTheShadowIsReadOnAPicture(t *testing.T) {
	at := func() player { return home(t).line("finer", "yes").at(session.StageShadow, "shadow") }
	face, err := at().State().PictureFace()
	require.NoError(t, err)
	assert.Equal(t, optics.FaceTarget, face)
	p, eye := at().photo("face", sightAt(face, 7, 1)), at().line("7 1")
	pictured, seen := finding(p.State(), session.StageShadow), finding(eye.State(), session.StageShadow)
	assert.InDelta(t, seen.AxisErrorMM, pictured.AxisErrorMM, 0.3)
	assert.Less(t, pictured.AxisErrorMaxMM, seen.AxisErrorMaxMM)
}

// Where a picture of the shadow shows the axis within what is allowed, and nearer it
// would be likely enough, the primary may be turned for it; by eye nobody could.
func TestAPictureOfTheShadowIsFollowedToTheEnd(t *testing.T) {
	sc := scope.Builtin()
	sc.Primary.Ring, sc.Laser.Hole = scope.Settled{By: scope.ByTemplate}, scope.Settled{By: scope.ByRolling}
	at := func() player {
		return play(t, sc).line("routine", "none", "still", "dead", "home", "leave", "finer", "yes").at(session.StageShadow, session.StepShadow)
	}
	mm := 0.9 * at().State().AllowedMM() * 2 * sc.Telescope().PathMM() / sc.Telescope().FocalLengthMM
	p := at().photo("face", sightAt(optics.FaceTarget, 7, mm))
	p.at(session.StageShadow, session.StepAfter)
	assert.Contains(t, p.State().Ask().Say, "must be nearer")
	assert.False(t, finding(p.State(), session.StageShadow).Off, "it is within what is allowed")
	p.line("leave")
	assert.NotEqual(t, session.StageShadow, p.State().Stage().ID)

	eye := at().line(fmt.Sprintf("7 %.1f", mm))
	assert.NotEqual(t, session.StepAfter, eye.State().Ask().Step)
	near := at().photo("face", sightAt(optics.FaceTarget, 7, mm/5))
	assert.NotEqual(t, session.StepAfter, near.State().Ask().Step, "it is ready as it is")
}

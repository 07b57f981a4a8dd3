package session_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"spotward/optics"
	"spotward/session"
	"spotward/session/answer"
	"spotward/session/header"
	"spotward/session/scope"
)

// A flat face is seen in the mirrors, past the card: nobody is sent behind to read
// it, and the card's caution stands there.
func TestAFlatFaceIsReadFromTheSkyEnd(t *testing.T) {
	for _, flat := range []bool{true, false} {
		sc := scope.Builtin()
		if flat {
			sc.Laser.Face = "flat"
		}
		p := play(t, sc).line("routine", "card 10 40", "still", "4 on")
		seen := 0
		for n := 0; n < 30 && !p.State().Over; n++ {
			ask := p.State().Ask()
			line := ""
			switch {
			case ask.Face == optics.FacePrimary:
				line = "dead"
			case ask.Face == optics.FaceTarget && ask.Stage.ID == session.StageHome:
				line = "4 3"
			case ask.Face == optics.FaceTarget:
				line = "home"
			case ask.Face != "":
				line = "gone"
			}
			if ask.Face == optics.FaceTarget && ask.Stage.ID != session.StageSwing {
				seen++
				assert.Equal(t, flat, ask.Header.Stand == header.StandSky, "%s: %s", ask.Stage.ID, ask.Say)
				assert.Equal(t, flat, ask.Faces != nil, ask.Stage.ID)
				if flat {
					assert.Contains(t, ask.Beware[0], "ard over", ask.Stage.ID)
					assert.NotContains(t, ask.Say, "behind")
				}
			}
			typed, err := answer.Line(p.State(), line)
			if err == nil {
				err = p.Do(typed.Events...)
			}
			if err != nil {
				break
			}
		}
		assert.Positive(t, seen)
	}
}

package virtual_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"spotward/optics"
	"spotward/optics/virtual"
)

func TestTheCardComesBeforeTheLaser(t *testing.T) {
	w := faulty(virtual.Faults{}, 1)
	w.LaserOn(false)
	w.Card(false)
	w.LaserOn(true)
	assert.Equal(t, []virtual.Deed{virtual.LitNoCard}, w.Deeds())
	w.LaserOn(true)
	assert.Len(t, w.Deeds(), 1, "it was on already")
	w.LaserOn(false)
	w.Card(true)
	w.LaserOn(true)
	assert.Len(t, w.Deeds(), 1)
	assert.True(t, w.Lit() && w.Carded())
}

func TestALaserThatIsOnStaysIn(t *testing.T) {
	w := faulty(virtual.Faults{SeatSpreadMM: 8}, 1)
	assert.Empty(t, w.Deeds(), "it was put in off")
	before := w.Truth().Spots.P
	w.Reseat()
	assert.Equal(t, []virtual.Deed{virtual.OutLit}, w.Deeds())
	assert.NotEqual(t, before, w.Truth().Spots.P)
	w.LaserOn(false)
	w.Reseat()
	assert.Len(t, w.Deeds(), 1)
}

func TestSnugLocksHold(t *testing.T) {
	w := faulty(virtual.Faults{LocksEased: true}, 1)
	easeLocks(w, 0.25)
	w.SnugLocks()
	bite := w.Truth().Primary.Bite
	for i := range bite {
		assert.Positive(t, bite[i])
	}
	w.SnugLocks()
	assert.Equal(t, bite, w.Truth().Primary.Bite, "what is snug is left")
	w.LaserOn(false)
	w.Swing()
	assert.Empty(t, w.Deeds())
}

func TestSnugSaysWhichScrewWasLoose(t *testing.T) {
	for seed := range uint64(20) {
		w := faulty(virtual.Faults{LooseSecondaryTurns: 0.12}, seed)
		turns := w.Truth().Secondary.Turns
		loose := 0
		for i := range turns {
			if turns[i] < turns[loose] {
				loose = i
			}
		}
		took := w.Snug(optics.Secondary)
		for i := range took {
			assert.GreaterOrEqual(t, took[loose], took[i])
			assert.InDelta(t, w.Truth().Secondary.Turns[i]-turns[i], took[i], 1e-12)
		}
		assert.Greater(t, took[loose], 0.06)
	}
}

func TestOtherHands(t *testing.T) {
	w := faulty(virtual.Faults{LocksEased: true}, 1)
	w.SetHands(virtual.Hands{OtherWay: 1})
	assert.InDelta(t, -0.25, w.Turn(optics.Primary, 0, 0.25).Turns, 1e-9)
}

package lesson

// The levels of the lessons' telescopes: what each has that an easy one has not.
const (
	LevelNear    = "lesson-near"
	LevelInside  = "lesson-inside"
	LevelFar     = "lesson-far"
	LevelReturn  = "lesson-return"
	LevelGood    = "lesson-good"
	LevelEased   = "lesson-eased"
	LevelWay     = "lesson-way"
	LevelPulling = "lesson-pulling"
	LevelMouth   = "lesson-mouth"
	LevelBore    = "lesson-bore"
	LevelLost    = "lesson-lost"
	LevelSeized  = "lesson-seized"
	LevelShort   = "lesson-short"
	LevelSlack   = "lesson-slack"
	LevelWorn    = "lesson-worn"
	LevelDying   = "lesson-dying"
	LevelTrue    = "lesson-true"
	LevelCrooked = "lesson-crooked"
	LevelSloppy  = "lesson-sloppy"
	LevelLoose   = "lesson-loose"
	LevelLie     = "lesson-lie"
)

// What can be done to the practice telescope beside turning its screws. The words
// are typed and journalled.
const (
	ActCardOff    = "card off"
	ActCardOn     = "card on"
	ActKnock      = "knock"
	ActLaserOff   = "laser off"
	ActLaserOn    = "laser on"
	ActReseat     = "re-seat"
	ActSnugLocks  = "snug locks"
	ActSnugScrews = "snug screws"
	ActSwing      = "swing"
	ActTurnLaser  = "turn laser"
)

package lesson

import (
	"spotward/optics"
	"spotward/session"
)

// nearAndEased are the telescopes of the safe-hands lesson.
var nearAndEased = []uint64{1, 2, 3, 4, 5, 6}

func safeHands() Lesson {
	return Lesson{
		ID: "safe", Title: "safe hands",
		Aim:  "Nobody's eye in the beam, nothing dropped on the primary, and a scope that is safe whenever you leave it.",
		Done: "Every question right the first time, the card up before the laser, and the scope made safe.", Clean: true,
		Tasks: []Task{
			quiz("The laser is in the focuser, still off. What comes before it is switched on?",
				"The beam can leave by the open end, just where one leans in.",
				answer{"card", "a white card over the open end", ""},
				answer{"look", "a look down the tube, whether it is free", "Nobody looks in before the beam is stopped: where it leaves is not known yet."},
				answer{"turn", "turning the laser once round", "That is a test with the laser on. Something has to stop the beam first."}),
			quiz("Red shows on the card, toward 4 o'clock. How do you look at the primary?",
				"The card stays over the half where red shows. Look past the other half, at an angle, your eye outside the rim.",
				answer{"past", "leave the card there, look in past 10 o'clock, eye outside the rim", ""},
				answer{"off", "take the card off, then straight down the tube", "Straight down the tube is where the beam may come out."},
				answer{"same", "lift the card at 4 o'clock and look in there", "Red shows at 4 o'clock: there the beam would meet your eye."}),
			quiz("Where must nobody stand while the laser is on?",
				"Only adults are at the open end at all, and no one with an eye in line with it.",
				answer{"end", "in line with the open end", ""},
				answer{"behind", "behind the scope", "Behind the scope no beam comes out: you read the return spot there."},
				answer{"beside", "beside the focuser", "Beside the focuser you hold the laser. The beam goes into the tube."}),
			quiz("The secondary has a bolt in the middle and three screws round it. What is turned?",
				"The bolt holds the glass over the primary. All three screws eased at once leave nothing but the bolt.",
				answer{"three", "the three screws, never all eased at once; the bolt never", ""},
				answer{"bolt", "the bolt first, to give the screws room", "The bolt alone keeps the glass from falling on the primary. It is never touched."},
				answer{"all", "all three eased first, then taken up evenly", "With all three eased the glass hangs on its bolt, and turns."}),
			quiz("The primary's locks are eased: turned a little loose. How does the tube lie?",
				"With the sky end down the mirror tips on its clips.",
				answer{"up", "nose up 30 to 45 degrees, held", ""},
				answer{"down", "sky end down, so that the screws can be reached", "Sky end down, the mirror leans on its clips with nothing to hold it."},
				answer{"any", "as it likes: the clips hold the mirror", "The clips keep it from falling out. They do not hold it still."}),
			{
				Kind: TaskDeed, World: lessonWorld(LevelNear, 3), Seeds: nearAndEased, Face: optics.FacePrimary, Ends: ActLaserOn,
				Say: "Now do it. The laser is in its holder, off; you are about to see where its spot falls. Say what you do, one thing at a time. F1 or help lists what can be said.",
				Why: "The card first, then the laser. At a telescope nobody is there to remind you.",
			},
			{
				Kind: TaskWork, Say: "The locks are eased, the laser is on, and you are called away. You have two minutes. Type: stop safely. Then do what is asked, a thing at a time, and type what you do, as in card on. F1 lists the words. When all is done, type: yes.",
				World: lessonWorld(LevelEased, 3), Seeds: nearAndEased, From: session.StageHome, Verdict: session.VerdictPrimary,
				Deeds: []string{ActCardOn, ActSnugLocks, ActSnugScrews, ActLaserOff},
				Until: func(s session.State) bool { return s.Over },
				Met:   func(s session.State) bool { return s.Outcome == session.OutcomeStopped },
				Why:   "Stop safely is there at every step. It costs nothing: the session can be taken up again.",
			},
		},
	}
}

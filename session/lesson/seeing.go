package lesson

import (
	"spotward/optics"
	"spotward/session/event"
	"spotward/session/scope"
)

func whichDot() Lesson {
	first := quiz("Look at the secondary: two red spots, a brighter one and a dimmer one. Which of the two has been to the primary and back?",
		"The outgoing spot is the brighter one. Each mirror dims it a little.",
		answer{"dim", "the dimmer one", ""},
		answer{"bright", "the brighter one", "The brighter one comes straight from the laser: no mirror has dimmed it yet."},
		answer{"either", "either: they change places as a screw turns", "A screw moves a spot. It does not make it brighter."})
	first.World, first.Seeds, first.Face, first.Group = lessonWorld(LevelReturn, 5), returnSeeds, optics.FaceSecondary, 0
	return Lesson{
		ID: "dot", Title: "which dot",
		Aim:  "To know the spot that counts from the ones that do not.",
		Done: "Every question right the first time.",
		Tasks: []Task{
			first,
			quiz("Two red dots on the primary. You move your head. One stays where it is on the glass, the other wanders. Which one is read?",
				"The true spot lies on the glass. What wanders is a reflection.",
				answer{"stays", "the one that stays", ""},
				answer{"wanders", "the one that wanders", "What goes with your head is a reflection in front of the glass or behind it."},
				answer{"between", "the middle between the two", "Only one of them is on the glass. Half way to a reflection is no place."}),
			quiz("You are still not sure which is the return spot. What shows it?",
				"A sixteenth of a turn at a primary screw moves the return spot and no other.",
				answer{"turn", "a sixteenth of a turn at one of the primary's screws", ""},
				answer{"laser", "the laser switched off and on", "All the spots go out with it, and all come back."},
				answer{"card", "the card taken off the open end", "The card shows nothing of this, and it keeps the beam off people."}),
			quiz("The spot on the primary flares bright as it comes to the ring, and is dim again inside it. Where is it best?",
				"The ring scatters the light. Bright is not home.",
				answer{"inside", "inside, where it is dim again", ""},
				answer{"bright", "where it is brightest", "There it lies on the ring itself, which scatters the light at you."},
				answer{"outside", "just outside the ring, where it is round", "Outside the ring it is still farther from the middle."}),
			quiz("The beam leaves by a hole in the laser's face, and comes back to that face: the return spot. Home is back down the hole. The return spot has gone dim near the hole. Is it home?",
				"A weak laser is dim anywhere. Home is seen going in: faint rays are left, and one spot on the secondary.",
				answer{"seen", "only if it was seen going down the hole", ""},
				answer{"dim", "yes: dim is home", "A weak battery makes it dim as well, wherever it is."},
				answer{"off", "yes, if it is still dim with the laser turned round", "Turning the laser says nothing about the hole."}),
		},
	}
}

func readTheDial() Lesson {
	read := func(world *event.World, at scope.Clock, f optics.Face, say string, seeds []uint64) Task {
		return Task{
			Kind: TaskReading, World: world, Seeds: seeds, FocuserAt: at, Face: f, Say: say,
			Why: "12 is straight up as you stand there, 6 is the ground, whatever way the scope is turned.",
		}
	}
	return Lesson{
		ID: "dial", Title: "reading the dial",
		Aim:  "To say where a spot is, so that another could put a finger on it.",
		Done: "Each place within half an hour and a quarter of the distance, by the second try.",
		Tasks: []Task{
			read(lessonWorld(LevelNear, 1), "", optics.FacePrimary, "From the sky end: where is the spot on the primary? Say a clock position, and how far from the ring's middle, in ring widths, as in 10:30 2r. One ring width is the whole ring, edge to edge.", nearSeeds),
			read(lessonWorld(LevelFar, 2), "", optics.FacePrimary, "Another scope, and the spot is far out. There the mirror is the better ruler. Say a clock position, and the part of the way from middle to edge, as in 2 1/3.", nearSeeds),
			read(lessonWorld(LevelReturn, 12), "", optics.FaceTarget, "From behind: where is the return spot on the laser's face? Say a clock position, and how far from the middle of the hole. Use mm or printed rings, as in 10 4 rings. The rings are 2 mm apart; from its middle to its edge the hole is 3 mm.", returnSeeds),
			read(lessonWorld(LevelReturn, 13), "9:00", optics.FaceTarget, "This focuser lies on its side. From behind: where is the return spot? Straight up is still 12. From the middle of the hole, as before: rings 2 mm apart, 3 mm to the hole's edge.", returnSeeds),
		},
	}
}

// The seeds of telescopes with a spot off, or a return spot off: any will do, for
// the direction alone is theirs.
var (
	nearSeeds   = []uint64{1, 2, 3, 4, 5, 6, 7, 8}
	returnSeeds = []uint64{5, 6, 7, 8, 9, 10, 12, 13}
)

// seen shows the primary of a telescope beside a question.
func seen(level string, seeds []uint64, t Task) Task {
	t.World, t.Seeds, t.Face = lessonWorld(level, seeds[0]), seeds, optics.FacePrimary
	return t
}

func middleOrInside() Lesson {
	mirror := func(say, right, why, wrong string) Task {
		t := quiz(say, why,
			answer{"on", "go on: inside will do", wrong},
			answer{"middle", "bring it to the very middle", wrong},
			answer{"out", "bring it to the edge of the ring, where it is seen best", "On the edge it is farther from the middle than now, and the ring scatters its light."})
		t.Right = right
		delete(t.Wrong, right)
		return seen(LevelInside, nearSeeds, t)
	}
	const costs = "Half of what is left on the primary stays as axis error. With the spot 2 mm off the middle, the axis stays 1 mm off. "
	return Lesson{
		ID: "middle", Title: "middle or just inside",
		Aim:  "To know that the same picture has two answers.",
		Done: "Every question right the first time.",
		Tasks: []Task{
			mirror("A slow mirror, f/8: its focal length is eight times its width. The spot is inside the ring, half way to its edge. What now?", "on",
				costs+"A slow mirror has room for that.", "A slow mirror has room for half of what is left. More turning only risks what is good."),
			mirror("A fast mirror, f/4.7: its focal length is not five times its width. The spot is inside the ring, half way to its edge. What now?", "middle",
				costs+"A fast mirror allows half a millimetre.", "A fast mirror allows half a millimetre: inside the ring is too little."),
			quiz("The spot is well off the ring, and the return spot is not home. Somebody wants to bring the return spot home first. Good?",
				"It would look perfect, and could be worse than before. First the spot to the ring.",
				answer{"no", "no: first the spot to the ring", ""},
				answer{"yes", "yes: that is the fine part", "It is fine work on a wrong base: every turn of it has to be done again."},
				answer{"both", "either: they are two mirrors, and neither moves the other's spot", "The secondary moves both spots. What the primary was squared to is then gone."}),
			quiz("Two scopes, each with the spot 1 mm off the middle and the return spot home. On which does it matter more?",
				"The allowance goes with the focal ratio. The faster the mirror, the less is allowed.",
				answer{"fast", "on the one of f/4.7", ""},
				answer{"slow", "on the one of f/8: its light goes a longer way", "The way is longer, but its rays meet at a flatter angle, and that forgives more."},
				answer{"same", "on both alike: 1 mm is 1 mm", "What counts is what the mirror allows: more than a millimetre at f/8, half of one at f/4.7."}),
		},
	}
}

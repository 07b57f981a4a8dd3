package lesson

import (
	"fmt"
	"math/rand/v2"

	"spotward/optics"
	"spotward/session/words"
)

// Picture is a picture of the whole telescope.
type Picture string

// The pictures: none, with the parts named, with their numbers alone.
const (
	NoPicture Picture = ""
	Named     Picture = "named"
	Numbered  Picture = "numbered"
	BothEnds  Picture = "ends" // its two ends, as one sees them
)

// PartID is a part of the telescope that all instructions name.
type PartID string

// The parts.
const (
	PartLaser           PartID = "laser"
	PartFocuser         PartID = "focuser"
	PartSecondary       PartID = "secondary"
	PartSecondaryScrews PartID = "secondary_screws"
	PartCard            PartID = "card"
	PartPrimary         PartID = "primary"
	PartRing            PartID = "ring"
	PartPrimaryScrews   PartID = "primary_screws"
	PartLocks           PartID = "locks"
)

// Part is a part of the telescope.
type Part struct {
	ID    PartID
	Word  string // beside it in the picture
	Is    string // the beginning of a sentence that tells it
	Where string // it stands in the picture, for those who do not see it
	Says  string // what it is for
}

var parts = []Part{
	{PartLaser, "laser", "That is the laser", "on top, in the focuser", "it shines a thin red beam into the tube"},
	{PartFocuser, "focuser", "That is the focuser", "a short tube on the tube's side, near the open end", "it holds the laser, and later the eyepiece"},
	{PartSecondary, "secondary", "That is the secondary", "the small slanted mirror below the focuser", "it sends the beam round the corner, to the primary"},
	{PartSecondaryScrews, "screws", "Those are the screws of the secondary", "three heads behind the small slanted mirror, toward the open end", "they tilt the secondary"},
	{PartCard, "card", "That is the card", "white, over the open end", "it stops the beam before it meets an eye"},
	{PartPrimary, "primary", "That is the primary", "the large mirror at the closed end", "it sends the beam back up the tube"},
	{PartRing, "ring", "That is the ring", "on the middle of the large mirror", "it marks the middle of the primary"},
	{PartPrimaryScrews, "screw", "That is a screw of the primary", "behind the large mirror, a large head", "three of them tilt the primary"},
	{PartLocks, "lock", "That is a lock", "behind the large mirror, a small head beside a large one", "three of them hold the primary where the screws have put it"},
}

// theParts is the lesson before all others: no word is asked that was not shown.
func theParts() Lesson {
	show := func(say string) Task {
		return Task{Kind: TaskShow, Picture: Named, Parts: parts, Say: say}
	}
	which := func(id PartID, say string) Task {
		t := Task{Kind: TaskQuestion, Picture: Numbered, Say: say, Right: string(id), Wrong: map[string]string{}, Group: others}
		for _, p := range parts {
			t.Parts = append(t.Parts, p)
			t.Options = append(t.Options, words.Option{ID: string(p.ID), Words: p.Where})
			if p.ID == id {
				t.Why = fmt.Sprintf("%s: %s.", p.Is, p.Says)
			} else {
				t.Wrong[string(p.ID)] = fmt.Sprintf("%s: %s.", p.Is, p.Says)
			}
		}
		return t
	}
	clock := quiz("From the sky end you see the focuser at 2 o'clock. You walk round and stand behind the scope. Where is it now?",
		"Straight up is still 12. Left and right have changed places, as with anybody who faces you.",
		answer{"left_up", "at 10 o'clock", ""},
		answer{"right_up", "at 2 o'clock, as before", "You look the other way along the tube now: what was at your right hand is at your left."},
		answer{"left_down", "at 8 o'clock", "Up and down do not change as you walk round: it is still above the middle."},
		answer{"right_down", "at 4 o'clock", "Up and down do not change as you walk round: it is still above the middle."})
	bar := Task{
		Kind: TaskReading, World: lessonWorld(LevelNear, nearSeeds[0]), Seeds: nearSeeds, Face: optics.FacePrimary,
		Say: "Where is the red spot? Type a clock position and how far it is from the middle of the ring. In mm it is, say, 10:30 20. In ring widths it is 10:30 2r. 1r is the whole ring, edge to edge.",
		Why: "A spot's place is always said like this: a clock position, and a distance from the middle.",
	}
	return Lesson{
		ID: "parts", Title: "the words",
		Aim:  "To know the words of the instructions before anything is done.",
		Done: "Each part and the focuser found at the first try, from both ends. The spot read by the second.",
		Tasks: []Task{
			show("A telescope from its side. The beam goes through the focuser to the secondary and on to the primary. It comes back the same way."),
			show("Screws tilt a mirror. Locks hold it there. They are eased, which is turned a little loose, before a screw is turned. Afterwards they are made snug. From here on numbers stand in place of the words."),
			which(PartSecondary, "Which is the secondary?"),
			which(PartPrimaryScrews, "Which is a screw of the primary?"),
			which(PartLocks, "Which is a lock?"),
			which(PartFocuser, "Which is the focuser?"),
			which(PartSecondaryScrews, "Which are the screws of the secondary?"),
			{Kind: TaskShow, Picture: BothEnds, Say: "Places are told by the clock. 12 is straight up as you stand there, 6 is the ground, 3 is at your right hand. That holds at both ends. A focuser seen at 2 from the sky end is seen at 10 from behind."},
			clock,
			bar,
		},
		vary: numbersOfTheParts,
	}
}

// numbersOfTheParts gives each part another number.
func numbersOfTheParts(tasks []Task, r *rand.Rand) {
	order := r.Perm(len(parts))
	for i := range tasks {
		t := &tasks[i]
		if t.Picture != Numbered {
			continue
		}
		t.Parts, t.Options = nil, nil
		for _, n := range order {
			t.Parts = append(t.Parts, parts[n])
			t.Options = append(t.Options, words.Option{ID: string(parts[n].ID), Words: parts[n].Where})
		}
	}
}

package talk

import (
	"fmt"

	"spotward/optics"
	"spotward/session"
	"spotward/session/reading"
	"spotward/session/words"
	"spotward/views/desk"
	"spotward/views/practice"
)

// word answers a word that asks and does not change the session. It reports
// false for everything else.
func (t *talk) word(line string) bool {
	do, ok := map[string]func(){
		"help": t.help, "h": t.help, "?": t.help,
		"why": t.why, "w": t.why, "call": t.call,
		"where":    t.again,
		"status":   func() { t.standing(t.work.State()) },
		"cautions": t.remind,
		"see":      t.see, "view": t.see, "v": t.see,
	}[reading.Command(line)]
	if ok {
		do()
	}
	return ok
}

// help says what can be said here, and what can be said everywhere.
func (t *talk) help() {
	ask := t.work.Shown().Ask()
	switch ask.Want {
	case session.WantConfirm:
		t.sayWhole("Here: Enter, or yes, when it is done.")
	case session.WantChoice:
		said := "Here: the number of an answer, or Enter for the first."
		if ask.Named() {
			said = "Here: the number of an answer."
		}
		t.sayWhole(said)
		if ask.Dial {
			t.sayWhole("Or how wide, as in: 2 rings, or 8 mm.")
		}
	case session.WantReading:
		t.readingHelp(ask.Face)
		t.pictureHelp()
	}
	if ask.Told != nil {
		t.sayWhole("If something else was turned, say what: B -1/4. A plus is clockwise.")
		t.sayWhole("Or: other way, wrong C, not done, not turned. Or of a screw: stuck B, free B, end B, slipped B, sticky B, stripped B.")
	}
	t.sayWhole("Everywhere: where says it all again. Why says the reason for a move. Status says how things stand. Cautions says what to beware of.")
	t.sayWhole("Undo takes an answer back, redo gives it back, back goes to an earlier stage. Skip and a reason leaves a stage out.")
	t.sayWhole("Watching: you stop by the spot. By amount: you stop by the turn. Call: a sentence to call to somebody at the screw.")
	t.sayWhole("Whole move tells all screws before the next look, one screw tells them one by one.")
	t.sayWhole("Dead laser when it died. Stop safely makes safe. Quit leaves, to go on later.")
	if t.work.Bench != nil {
		t.sayWhole("In practice: see says again what is to be seen. Enter after a move means turned as told.")
		t.sayWhole("Hide hides the advice: you turn what you think right. Show shows it again.")
		t.sayWhole("Any screw may be turned: lock B 1/8. And you can do this: " + practice.ActWords(practice.Acts()) + ".")
	}
}

func (v *voice) readingHelp(f optics.Face) {
	v.sayWhole("Here: a clock position, 12 straight up as you stand, and a distance. Your own words will usually do.")
	v.sayWhole(words.NumberPad)
	switch f {
	case optics.FacePrimary:
		v.sayWhole("As in: 4:30 2r, in ring widths. Or: 4:30 20, in mm. Or: low right 20.")
		v.sayWhole("Or: 4 on, for on the ring. Out at 4, just outside. In 4, inside toward 4. In. Dead. 4 edge. Wall 12.")
	case optics.FaceTarget:
		v.sayWhole("As in: 4:30 8, in mm. Or: 4 2 rings, as printed. Or: low right 8.")
		v.sayWhole("Or: home, when it is seen going down the hole. Home 2, when it is brighter at 2. Home even, when it glows evenly all round.")
	default:
		v.sayWhole("As in: 4:30 12, in mm. Or: low right 12. Or: 4 1/2, a part of the way to the edge.")
	}
	v.sayWhole("Or: gone, cant see, many, same. The equals sign: it stands as the stop cue said.")
}

// why says what a move rests on and what is likely to follow.
func (t *talk) why() {
	told := t.work.Shown().Ask().Told
	if told == nil && t.work.AdviceHidden() {
		t.say("The advice is hidden.")
		st := t.work.Shown()
		learnt := desk.LearntOf(st)
		if learnt.Screws == nil {
			return
		}
		t.sayWhole("The spot: " + learnt.Where)
		for i, label := range st.Tel.Cell(learnt.Mirror).Labels {
			t.say(fmt.Sprintf("Screw %s, a turn clockwise: %s.", label, learnt.Screws[i]))
		}
		return
	}
	if told == nil {
		t.say("No move is told just now.")
		return
	}
	if told.Why != "" {
		t.say(full("Because: " + told.Why))
	}
	if told.Learning {
		t.say("This turn is also there to learn what the screw does.")
	}
	t.say(words.Trust(told.Trust))
	for _, m := range told.Then {
		t.sayWhole("After it, perhaps: " + moveWords(m.Turn))
	}
}

// remind says what the stage asks to be done and to beware of.
func (t *talk) remind() {
	st := t.work.Shown().Ask().Stage
	if len(st.Do)+len(st.Beware) == 0 {
		t.say("There is nothing special to beware of here.")
	}
	t.doing(st)
	t.beware(st)
}

func (t *talk) see() {
	if see := t.work.See(); see != "" {
		t.say("You see: " + see)
		return
	}
	t.say("There is nothing to look at for this question.")
}

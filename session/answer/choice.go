package answer

import (
	"strings"

	"spotward/session"
	"spotward/session/mirrors"
	"spotward/session/words"
)

// answerWords are what people say for an answer, by the id of it: alternatives are
// parted by commas, all words of one must be there.
var answerWords = map[string]string{
	session.WhyRoutine: "routine, check, checking, checkup, regular, usual, normal, nothing special, nothing wrong, just look, quick look, have look, having look, monthly, yearly, weekly, maintenance, before lending, every month, every week, ordinary, standard, service, look over, once over, no reason, no problem, nothing particular, nothing much, just case, party, annual",
	session.WhyPoor:    "poor, bad, fuzzy, blurry, blurred, soft, mushy, unsharp, not sharp, not round, not good, not crisp, smeared, stars, image, images, views, quality, coma, blur, smear, smudgy, not focus, cant focus, out focus, complained, complaint, astigmatism, flares, tails, not clear, unclear, hazy, foggy, view, blob, not point, not points, smudge, sharper",
	session.WhyCarried: "carried, carry, brought, drove, driven, drive, car, transport, transported, moved, travelled, traveled, trip, journey, stairs, van, shipped, transit, trailer, lifted, boot, lorry, bus, train, walked, wheeled, trolley, road, delivered, flown, posted, borrowed, loan, back from",
	session.WhyDropped: "dropped, drop, fell, fallen, knocked, apart, taken out, took out, clean, cleaned, cleaning, washed, reassembled, dismantled, rebuilt, bumped, tipped, toppled, crash, banged, to bits, pieces, disassembled, removed, mirror out, primary out, secondary out, out cell, new mirror, recoated, hit, tripped, tripped over",

	session.CircleStill:   "still, not move, not moves, not moving, not moved, nothing moves, stays, stayed, stationary, steady, no circle, no change, no movement, no motion, put, fixed, hasnt move, hasnt moved, none move, not wobble, same place, same spot, one place, as point, not bit, not all",
	session.CircleSmall:   "small, little, tiny, smallish, slight",
	session.CircleWide:    "wide, big, huge, large, wanders, wandering, everywhere, all over, wild, wildly, massive, enormous, off mirror, giant, wobbles lot, great",
	session.AnswerUnknown: "cannot tell, cant tell, cannot say, cant say, cannot read, cant read, unsure, not sure, not know, no idea, no clue, dunno, unknown, hard say, hard tell, difficult say, unreadable, illegible, cant see, cannot see, cant make out, no red, no spot, not turn, wont turn, cant turn, not rotate, wont rotate, not look, not try, not tried, too bright, too faint, no light, not visible, not see, unclear, cant judge, cannot judge",

	session.VerdictLeave:     "leave, alone, fine, nothing, as is, not touch, good, good enough, well alone, be, enough, no need, not need, not necessary",
	session.VerdictBoth:      "both, two mirrors, all, everything, full, whole, lot, complete, pair, primary secondary, big small, large small, main secondary, big small mirror, large small mirror, main small mirror",
	session.VerdictSecondary: "secondary, diagonal, small mirror, sec, little mirror, small one, smaller mirror, secondary alone, small mirror alone",
	session.VerdictPrimary:   "primary, main, main mirror, big mirror, big one, large mirror",
	session.VerdictNotToday:  "not today, another day, other day, not now, later, tomorrow, no time, other time, another time, next time, some day, some other, next week, next month, weekend, postpone, another, too cold, too late, too tired, give up, raining, rain, cloudy, too dark, going home, late, back another time, not tonight, rather wait",

	session.TagReady:    "ready, lend, lendable, good go, ok, fine, good, okay, fit, usable, works, out, lent",
	session.TagLowPower: "low power, lowpower, low magnification, wide field, low powers",
	session.TagWithNote: "note, with note, remark, noted, notes, comment, warning, ready note",
	session.TagHoldBack: "hold, hold back, keep back, not lend, not ready, not good, not ok, not fine, repair, broken, withdraw, fix, not usable, not fit, keep, stays here, not out, out order, faulty, defective, damaged, unsafe, not working, needs work",

	mirrors.ClassNone: "no label, not label, no sticker, nothing label",
	mirrors.ClassOver: "over, more 5, stronger, 3b, class 4, 1m, 2m",
	"off":             "off, not round, oval, egg, no, not, turned",
	"round":           "round, yes, ok, fine, near enough, good",

	session.EmptyMeasure: "closer, measure, how far",

	mirrors.LabelsAsAsked:  "done, lettered, labelled, labeled, yes, ok, put on, as asked",
	mirrors.LabelsReversed: "anticlockwise, counterclockwise, other way, reversed, wrong way",

	"yes": "yes, y, yep, yeah, yup, sure, ok, okay, have one, got one, got it, there is",
	"no":  "no, n, nope, nah, none, not have, not got, without",

	session.FinerTurn: "turn, yes, y, yep, yeah, ok",
	"even":            "even, all round, equal",
}

// answers returns options with what people say for them.
func answers(options []words.Option) []option {
	all := make([]option, len(options))
	for i, o := range options {
		all[i] = option{Option: o, Whole: wholeWord(o.ID), Harmless: harmless(o.ID)}
		for _, alt := range strings.Split(answerWords[o.ID], ",") {
			if alt = strings.TrimSpace(alt); alt != "" {
				all[i].Said = append(all[i].Said, alt)
			}
		}
	}
	return all
}

// wholeWord reports whether an answer cannot be made good by another one, or
// begins with what may be a plain "no": its beginning is not enough.
func wholeWord(id string) bool {
	switch id {
	case session.VerdictNotToday, session.WhyDropped, mirrors.ClassOver, mirrors.ClassNone:
		return true
	}
	return false
}

// harmless reports whether an answer changes little of what follows.
func harmless(id string) bool {
	switch id {
	case session.WhyRoutine, session.WhyPoor, session.WhyCarried, session.WhyDropped, session.CircleStill, session.CircleSmall, session.CircleWide, session.TagWithNote, session.TagHoldBack:
		return true
	}
	return false
}

// Begins reports whether a word of one letter that faces take as a command begins
// an answer here: then the line is asked back and no face takes it.
func Begins(a session.Ask, word string) bool { return twoMeanings(a.Options, word) != nil }

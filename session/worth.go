package session

import (
	"fmt"
	"slices"
	"strings"

	"spotward/optics"
	"spotward/session/header"
	"spotward/session/mirrors"
)

// covered is how much of the open end the card covers: all of it until it is
// known which half must stay covered. A question about the spot on a mirror says
// itself how to find that out.
func covered(a Ask, o mirrors.Outlet) header.Card {
	if a.Header.Card == header.CardHalf && !o.Known && !o.None && a.Face == "" {
		return header.CardWhole
	}
	return a.Header.Card
}

// beware returns the cautions of a stage, the most pressing first, and that one in
// brief: where a hand is about to turn a screw, that of the screws; where an eye is
// about to look in at the sky end, where the beam leaves.
func (s State) beware(st *Stage, step *Step, beam string) (list []string, brief string) {
	list, brief = st.Beware, st.Brief
	if st.Eyes > 0 && s.Due == nil {
		list = append([]string{list[st.Eyes]}, slices.Delete(slices.Clone(list), st.Eyes, st.Eyes+1)...)
		brief = st.Look
	}
	if step.Beware != nil {
		list, brief = step.Beware, step.Brief
	}
	if s.Laser.Weak {
		list = append([]string{"A weak laser is dim everywhere: dim is not home. Laser off and out, change the battery, then type: fresh battery."}, list...)
		brief = "A weak laser is dim everywhere: see the spot go in."
	}
	if s.Due != nil && s.Due.Ask != "" {
		list, brief = append([]string{s.Due.Ask}, list...), s.Due.Brief
	}
	switch {
	case beam == "":
		return list, brief
	case s.Due != nil && len(list) > 0:
		return append([]string{list[0], beam}, list[1:]...), brief
	}
	return append([]string{beam}, list...), "Leave the card over the red. Eye outside the rim."
}

// note returns what is to be known before the question of a step is answered,
// beyond the question itself.
func (s State) note() string {
	if now := s.foundNow(); now != "" {
		return now
	}
	return strings.TrimSpace(s.before() + " " + s.noteOfStage())
}

// before returns what the records say of scope and kit: before anything is
// turned, and again where a tag is chosen.
func (s State) before() string {
	if s.Stage().ID == StageReady || s.Stage().ID == StagePutAway && s.step().ID == StepTag {
		return strings.Join(s.Before, " ")
	}
	return ""
}

func (s State) noteOfStage() string {
	switch s.Stage().ID {
	case StageReady:
		if s.Tel.LensInside {
			return optics.LensInsideWords
		}
		if s.Scope.MayHaveLens() {
			return fmt.Sprintf("Is the tube much shorter than %s? Then a lens is built into it, and the laser's return is not to be trusted. Put the tube's length into the scope's file.", s.Scope.FocalLength.Text())
		}
	case StageVerdict:
		if s.Tel.LensInside {
			return "" // the verdict itself has said it
		}
		return s.Tel.BudgetWords(s.Method())
	case StagePutAway:
		return s.finerNote()
	case StageShadow, StageStar:
		return s.finerNoteNow()
	}
	return ""
}

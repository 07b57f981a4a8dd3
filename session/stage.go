package session

import (
	"slices"
	"spotward/optics"
	"spotward/session/event"
	"spotward/session/header"
	"spotward/session/words"
)

// StageID names a stage in the journal, in the JSON lines and in the code.
type StageID string

// The stages in their ordinary order. Stopping can be entered from anywhere.
const (
	StageReady     StageID = "ready"
	StageEmpty     StageID = "empty"
	StageLaserIn   StageID = "laser_in"
	StageFirstLook StageID = "first_look"
	StageVerdict   StageID = "verdict"
	StageLabels    StageID = "labels"
	StageSecondary StageID = "secondary"
	StageLaserFit  StageID = "laser_fit"
	StageLocks     StageID = "locks"
	StageRough     StageID = "rough"
	StageHome      StageID = "home"
	StageRetighten StageID = "retighten"
	StageSwing     StageID = "swing"
	StagePutAway   StageID = "put_away"
	StageStopping  StageID = "stopping"

	// Only where they are asked for.
	StagePlace  StageID = "place"
	StageShadow StageID = "shadow"
	StageStar   StageID = "star"
)

// Want says what kind of answer is waited for.
type Want string

// The wants.
const (
	WantConfirm Want = "confirm"
	WantReading Want = "reading"
	WantChoice  Want = "choice"
)

// Stage is one row of the table: everything a face needs to lead a person
// through it, and what its answers do.
type Stage struct {
	ID     StageID
	Title  string       // a few words, for the rail
	Where  header.Stand // group of the rail
	Header header.Header
	Do     []string // what to do, in order
	Beware []string // cautions, where the hand is about to do the thing; the first has at most 112 characters
	Brief  string   // the first of them where there is one row of 56 characters
	Eyes   int      // which of them comes first where nothing is turned, but looked at
	Look   string   // that one in brief
	Skip   string   // what leaving it out means; "" = it may not be left out
	NoBack string   // why one may not go back to before it; "" = one may
	Steps  []Step
}

// Step is one question of a stage.
type Step struct {
	ID       StepID
	Want     Want
	Face     optics.Face                    // of a reading
	Header   *header.Header                 // where it differs from the stage's
	Beware   []string                       // where they differ from the stage's
	Brief    string                         // the first of these in brief
	Say      func(State) string             // what to do now, a sentence or two; nil: to make the moves, then the question
	Question string                         // alone, where moves can come before it
	Opts     func(State) []words.Option     // of a choice, the ordinary way on first
	Due      func(State) bool               // nil: until answered once in this visit
	Deeds    func(State) []Deed             // what answering says was done
	Start    func(*State)                   // before the first answer is taken
	Take     func(*State, event.Event)      // what the answer does beyond what every reading does
	Tell     func(State) (event.Told, bool) // moves to be told before the answer; false: none
	Goal     func(State) optics.Goal        // of a reading
	Dial     bool                           // a choice that also takes a distance in ring widths
	Search   bool                           // of a return spot that may be elsewhere: another place can be named
	Yes      bool                           // a reading in place of which a yes is taken
	Aside    bool                           // a reading that says nothing of the mirrors: Take alone uses it
}

// stages is the table of questions. Nothing changes it.
var stages = []*Stage{
	readyStage(), emptyStage(), laserInStage(), firstLookStage(), verdictStage(), labelsStage(),
	secondaryStage(), laserFitStage(), locksStage(), roughStage(), homeStage(),
	retightenStage(), swingStage(), putAwayStage(), stoppingStage(),
	placeStage(), shadowStage(), starStage(),
}

// StageRow returns the row of the table with that id, or nil.
func StageRow(id StageID) *Stage { return rowOf(stages, id) }

func rowOf(table []*Stage, id StageID) *Stage {
	for _, st := range table {
		if st.ID == id {
			return st
		}
	}
	return nil
}

// firstPlan is what is known of the way before the verdict.
func firstPlan() []StageID {
	return []StageID{StageReady, StageEmpty, StageLaserIn, StageFirstLook, StageVerdict, StagePutAway}
}

// planFromLaser is the same from where the laser goes in.
func planFromLaser() []StageID {
	plan := firstPlan()
	return plan[slices.Index(plan, StageLaserIn):]
}

// endPlan is what comes after the mirrors: with a lens built in, a star shows what
// the laser cannot.
func (s State) endPlan() []StageID {
	if s.Tel.LensInside {
		return []StageID{StageSwing, StageStar, StagePutAway}
	}
	return []StageID{StageSwing, StagePutAway}
}

// planAfter returns the stages that follow a verdict.
func planAfter(s State) []StageID {
	secondary := []StageID{StageSecondary, StageLaserFit, StageSecondary}
	primary := stagesOf(optics.Primary)
	end := s.endPlan()
	var plan []StageID
	if s.Check {
		return []StageID{StagePutAway}
	}
	switch s.Verdict {
	case VerdictSecondary:
		plan = append([]StageID{StageLabels}, secondary...)
	case VerdictPrimary:
		plan = append([]StageID{StageLabels}, primary...)
	case VerdictBoth:
		plan = append(append([]StageID{StageLabels}, secondary...), primary...)
	case VerdictLeave:
		return end[1:]
	default:
		return []StageID{StagePutAway}
	}
	return append(plan, end...)
}

func (s State) inPlan(id StageID) bool {
	for _, p := range s.way.plan {
		if p == id {
			return true
		}
	}
	return false
}

package teach

import (
	"math"

	"spotward/optics"
	"spotward/session/lesson"
	"spotward/session/reading"
	"spotward/views/practice"
	"spotward/views/schematic"
	"spotward/views/teach"
	"spotward/views/terminal/align"
	"spotward/views/terminal/frame"
)

// lessonLook is what is to be seen for a task of a lesson that is no work.
type lessonLook struct {
	tel  optics.Telescope
	face optics.Face
	View practice.View
	was  *optics.Dial // before a screw was turned, or the laser
	seen *optics.Dial // where the spot stood when it was last seen, if it was
}

// lookFor returns what is to be seen for the task in hand; nil is nothing.
func lookFor(c *teach.Class) *lessonLook {
	task, _ := c.Task()
	b := c.Bench()
	if task.Face == "" || task.Kind == lesson.TaskWork || b == nil {
		return nil
	}
	face := faceOf(task, b)
	l := &lessonLook{tel: b.World().Described(), face: face, View: b.Look(face)}
	if task.Kind == lesson.TaskWay {
		now, went := l.Now(), b.Went()
		l.was = &optics.Dial{Right: now.Right - went.Right, Up: now.Up - went.Up}
	}
	return l
}

// faceOf is what one sees for a task: with a card over the whole open end no more
// than the card, whatever is asked.
func faceOf(task lesson.Task, b *practice.Bench) optics.Face {
	if task.Kind == lesson.TaskDeed && b.World().Carded() {
		return optics.FaceCard
	}
	return task.Face
}

// after has the place where the spot was seen before what was just done, so that
// the two can be compared.
func (l *lessonLook) after(before *lessonLook) *lessonLook {
	if l == nil || before == nil {
		return l
	}
	l.seen = before.seen
	if before.View.Visible {
		at := before.Now()
		l.seen = &at
	}
	if l.View.Visible {
		l.was = l.seen
	}
	return l
}

func (l *lessonLook) Now() optics.Dial { return l.tel.ToDial(l.face, l.View.Seen) }

func (l *lessonLook) context() reading.Context {
	return reading.Context{Tel: l.tel, Face: l.face}
}

// bare is the thing as one would see it; of a way, with where the spot was.
func (l *lessonLook) bare(sz frame.Sizes) schematic.FaceSpec {
	spec := align.SightOf(l.tel, l.face, l.View, sz)
	if l.was != nil && spec.Now != nil {
		spec.Trail = []schematic.Mark{{At: *l.was, Word: "before"}}
		spec.Now.Word = "now"
		spec.RimMM = align.RimOf(spec, l.tel, l.face)
		align.Measured(&spec, l.tel, l.face, sz)
	}
	return spec
}

// own is one's own drawing, with the place that is typed.
func (l *lessonLook) own(sz frame.Sizes, typed *optics.Dial) schematic.FaceSpec {
	spec := align.SeenFrom(l.tel, l.face, sz)
	spec.Standing, spec.GroundWord, spec.FocuserWord, spec.Within = nil, "", "", align.RingWords(sz)
	spec.Object = align.Quiet(spec.Object)
	if typed != nil {
		spec.Ghost = &schematic.Mark{At: *typed}
	}
	// As large as what one would see, so that the two can be held side by side.
	spec.RimMM = math.Max(l.bare(sz).RimMM, schematic.RimFor(spec, align.Rims(l.tel, l.face)...))
	align.Measured(&spec, l.tel, l.face, sz)
	return spec
}

// answered is the thing with its hours: where the spot was, and where it was
// said to be.
func (l *lessonLook) answered(sz frame.Sizes, typed *optics.Dial) schematic.FaceSpec {
	spec := l.bare(sz)
	full := align.SeenFrom(l.tel, l.face, sz)
	spec.Bare, spec.Standing, spec.GroundWord, spec.FocuserWord = false, full.Standing, full.GroundWord, full.FocuserWord
	if typed != nil {
		spec.Ghost = &schematic.Mark{At: *typed, Word: "yours"}
	}
	if spec.Now != nil && l.was == nil && l.face != optics.FaceSecondary {
		spec.Now.Word = "there"
	}
	if l.was != nil && spec.Now != nil {
		spec.Legs = []schematic.Leg{{From: *l.was, To: spec.Now.At}}
	}
	spec.RimMM = align.RimOf(spec, l.tel, l.face)
	align.Measured(&spec, l.tel, l.face, sz)
	return spec
}

package lesson

import (
	"hash/fnv"
	"math/rand/v2"
	"slices"
)

// Drawn returns the lesson as that seed has it: its answers and tasks in some
// order, its telescopes some of those that will do. The same seed draws the same
// lesson.
func (l Lesson) Drawn(seed uint64) Lesson {
	id := fnv.New64a()
	id.Write([]byte(l.ID))
	r := rand.New(rand.NewPCG(seed, id.Sum64()))
	l.Seed = seed
	l.Tasks = slices.Clone(l.Tasks)
	if l.vary != nil {
		l.vary(l.Tasks, r)
	}
	for from := 0; from < len(l.Tasks); {
		to := from + 1
		for g := l.Tasks[from].Group; g != 0 && to < len(l.Tasks) && l.Tasks[to].Group == g; {
			to++
		}
		group := l.Tasks[from:to]
		r.Shuffle(len(group), func(i, j int) { group[i], group[j] = group[j], group[i] })
		from = to
	}
	for i := range l.Tasks {
		l.Tasks[i].draw(r)
	}
	return l
}

// draw puts a task's answers in some order, and picks its telescope.
func (t *Task) draw(r *rand.Rand) {
	t.Options = slices.Clone(t.Options)
	if t.Picture != Numbered { // there the numbers are the picture's
		r.Shuffle(len(t.Options), func(i, j int) { t.Options[i], t.Options[j] = t.Options[j], t.Options[i] })
	}
	if len(t.Seeds) > 0 {
		w := *t.World
		w.Seed = t.Seeds[r.IntN(len(t.Seeds))]
		t.World = &w
	}
}

// manyDraws is more than enough to find another telescope or order.
const manyDraws = 100

// Another returns the lesson drawn from seed or from one soon after it, so that
// it is another one than that drawn from last: other telescopes, or another order.
func (l Lesson) Another(seed, last uint64) Lesson {
	before := l.Drawn(last)
	for range manyDraws {
		if drawn := l.Drawn(seed); !sameTasks(drawn, before) {
			return drawn
		}
		seed++
	}
	return l.Drawn(seed)
}

// sameTasks reports whether two draws of a lesson begin alike: a task that has
// come in the same place, on the same telescope, with its answers in one order.
func sameTasks(l, m Lesson) bool {
	for i, t := range l.Tasks {
		o := m.Tasks[i]
		if t.Say != o.Say || t.World != nil && o.World != nil && *t.World != *o.World {
			continue
		}
		if slices.Equal(t.Options, o.Options) && (len(t.Options) > 0 || t.World != nil) {
			return true
		}
	}
	return false
}

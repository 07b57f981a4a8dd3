package session

// NipRound returns which round of tightening the locks comes next, counted from
// 1, and of how many, from where they stand eased as usual. It reports false
// where none is due.
func (s State) NipRound() (n, of int, due bool) {
	left := 0
	usual := State{locks: locks{eased: [4]float64{easeTurns}}}
	for i := range s.Tel.Primary.Locks {
		left = max(left, s.nipsLeft(i))
	}
	of = max(left, usual.nipsLeft(0))
	return of - left + 1, of, left > 0
}

// nipsLeft is how many rounds lock i takes until it is tight.
func (s State) nipsLeft(i int) int {
	n := 0
	for step := s.nipOf(i); step > 0; step = s.nipOf(i) {
		s.locks.eased[i] -= step
		n++
	}
	return n
}

package adviser

// Mark tells one belief from another: trackers with the same mark give the same
// advice. It can be the key of a map, within one program.
type Mark struct {
	bank                        *hypothesis
	travel, lastTo, least, most [maxScrews]float64
	says                        [maxScrews]ScrewSays
	told                        [maxScrews]bool
	seen                        bool
}

// Mark returns the tracker's mark. A bank is never changed once made, so that
// where it stands in memory is enough.
func (k Tracker) Mark() Mark {
	return Mark{&k.bank[0], k.travel, k.lastTo, k.least, k.most, k.says, k.told, k.seen}
}

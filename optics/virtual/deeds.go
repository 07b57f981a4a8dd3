package virtual

// Deed is something that was done and is worth a kind word afterwards.
type Deed string

// The deeds. They have their real consequence when they happen; here they are
// only remembered, in the order they were done.
const (
	LitUncarded   Deed = "the beam left by the open end and no card was over it"
	SwungLit      Deed = "the tube was swung with the laser on and no card over the end"
	LockNotEased  Deed = "a screw was tightened against a lock that still held"
	LockForced    Deed = "a lock was turned past its end"
	LockLoose     Deed = "a lock was eased until it wobbled"
	BoltForced    Deed = "a screw was tightened against a taut centre bolt: none had been eased"
	EasedTooFar   Deed = "a screw was eased more than half a turn past free"
	AllEased      Deed = "all the secondary's screws were eased at once: only the bolt holds it over the primary"
	ScrewForced   Deed = "a screw was turned past its end"
	SwungUnlocked Deed = "the tube was swung with no lock holding the primary"
	LitNoCard     Deed = "the laser was switched on before the card was up"
	OutLit        Deed = "the laser was taken out while it was on"
)

// Deeds returns what was done so far that is worth a word, oldest first.
func (w *World) Deeds() []Deed { return append([]Deed(nil), w.deeds...) }

func (w *World) did(d Deed, happened bool) {
	if happened {
		w.deeds = append(w.deeds, d)
	}
}

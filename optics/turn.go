package optics

// Turn is one screw or lock turned: exactly one of Screw and Lock is set.
type Turn struct {
	Mirror Mirror  `json:"mirror"`
	Screw  string  `json:"screw,omitempty"`
	Lock   string  `json:"lock,omitempty"`
	Turns  float64 `json:"turns"` // clockwise positive, facing the head
}

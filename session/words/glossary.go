package words

// Term is a word of the trade and what it means here.
type Term struct{ Word, Means string }

// Glossary is the words that every instruction uses, a page of them.
func Glossary() []Term {
	return []Term{
		{"sky end, behind", "the tube's open end; its closed end"},
		{"primary", "the large mirror at the closed end"},
		{"secondary", "the small slanted mirror near the open end"},
		{"focuser", "the drawtube on the tube's side: it holds the laser"},
		{"ring", "the ring stuck on the primary's centre; 1r is its width"},
		{"outgoing spot", "where the beam first meets the primary"},
		{"return spot", "where the beam comes back"},
		{"face", "the laser's front, where the return spot should fall"},
		{"home", "the return spot goes down the hole in the face"},
		{"screw", "one of those that tilt a mirror"},
		{"lock", "a screw that holds the primary where it was set"},
		{"cell", "the frame that a mirror sits in"},
		{"snug", "tight by two fingers on the key, no more"},
		{"stop cue", "where the spot stands when a screw has done its part"},
		{"axis error", "how far the primary aims past the field's centre, mm"},
		{"swing", "the tube raised to about 50 degrees, and back"},
		{"tag", "what it may be lent for: ready, low power, hold back"},
	}
}

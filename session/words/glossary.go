package words

// Term is a word of the trade and what it means here.
type Term struct{ Word, Means string }

// Glossary is the words that every instruction uses: a page of them, a row each on
// the smallest screen (42 characters).
func Glossary() []Term {
	return []Term{
		{"sky end, behind", "the tube's open end; its closed end"},
		{"primary", "the large mirror at the closed end"},
		{"secondary", "the small slanted mirror near the open end"},
		{"focuser", "the drawtube: it holds the laser"},
		{"ring", "the mark on the primary; 1r is its width"},
		{"outgoing spot", "where the beam first meets the primary"},
		{"return spot", "where the beam comes back"},
		{"face", "the plate at the laser's front"},
		{"home", "the return spot goes down the face's hole"},
		{"screw", "one of those that tilt a mirror"},
		{"lock", "a screw that holds the primary in place"},
		{"cell", "the frame that a mirror sits in"},
		{"snug", "tight by two fingers on the key, no more"},
		{"stop cue", "where the spot stands when you stop"},
		{"axis error", "how far off the primary aims, in mm"},
		{"swing", "the tube raised to 50 degrees, and back"},
		{"tag", "ready, ready for low power, or hold back"},
	}
}

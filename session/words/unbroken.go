package words

import (
	"regexp"
	"strings"
)

// What stands for a blank or a hyphen where no row may end.
const (
	keptBlank  = "\u2423" // the open box
	keptHyphen = "\u2011"
)

// kept are what is typed in more words than one, as it stands in a sentence, and
// figures with their unit. It goes by figures, capitals and stops, not by words.
var kept = regexp.MustCompile(strings.Join([]string{
	`(?:\b[a-z]{1,6} )?\b[A-Z](?: [-+]?\d+(?:[:./]\d+)*)*\b`,                                         // lock B -1/4, stuck B
	`(?:\b[A-Za-z]{1,8} )?[-+]?\d+(?:[:./]\d+)*[a-z]?(?: \d+(?:[:./]\d+)*[a-z]?)*(?: [a-z]{1,5})?\b`, // two 9 12, 4:30 2r, 4 on, 16 mm
	`: [A-Za-z]+ [A-Za-z]+(?:[.,;]|$)`,                                                               // type: cant see.
	`, [A-Za-z]{1,8} [A-Za-z]{1,8}(?:[.,;]|$)`,                                                       // or home, home even
}, "|"))

// Unbroken returns text in which what can be typed holds together: no row may end
// within it. Plain makes it as it was.
func Unbroken(text string) string {
	text = kept.ReplaceAllStringFunc(text, func(found string) string {
		if from := strings.IndexByte(found, ' '); found[0] == ':' || found[0] == ',' {
			return found[:from+1] + Together(found[from+1:])
		}
		return Together(found)
	})
	return strings.ReplaceAll(text, "-", keptHyphen)
}

// Together returns what is typed so that no row ends within it.
func Together(typed string) string {
	return strings.NewReplacer(" ", keptBlank, "-", keptHyphen).Replace(typed)
}

// Plain returns text with blanks and hyphens in place of what Unbroken put there.
func Plain(text string) string {
	return strings.NewReplacer(keptBlank, " ", keptHyphen, "-").Replace(text)
}

package reading

import "strings"

// class is what a word stands for in loose talk, whatever its ending.
type class string

// classes gives the class of each word that loose talk knows. A word that is in
// none of them and no filler is not understood.
var classes = lexicon(`
not: not no isnt wasnt arent never nor neither dont doesnt nope nah aint
cant: cant cannot couldnt wont wouldnt unable impossible refuses
hasnt: hasnt havent hadnt didnt
nothing: nothing none nowhere nought
nearly: nearly almost hardly close near barely partly partially mostly
home: home
hole: hole
ring: ring rings donut doughnut annulus
face: face target plate screen
card: card
paper: paper
mirror: mirror primary glass
secondary: secondary
mouth: mouth drawtube focuser
edge: edge edges rim lip border
wall: wall walls
tube: tube
centre: centre center centred centered centrally central bullseye
middle: middle mid
in: in inside within into
on: on upon onto
touching: touching touches straddling straddles overlapping overlaps grazing clipping
out: out outside beyond
off: off beside
past: past over
through: through
vanished: vanished vanishes disappeared disappears swallowed
went: gone went goes go going dropped drops fell falls dives
lost: lost lose losing
see: see seen sees visible find tell make makeout notice
sign: sign trace dot spot spots dots red light beam thing reflection return glow
any: any anything anywhere either more else all
bright: sun bright brighter brightest glare dazzling dazzles glaring
dim: dim faint fainter dark
rays: ray rays
even: even evenly
same: same unchanged identical
move: move slid slipped-off shift pulled moved drifted moves moving movement shift shifted shifts budge budged change changed changes
turn: turn turned turns turning rotate rotated rotates
other: other wrong opposite reverse
way: way direction
backwards: backwards backward reversed
instead: instead
or: or either
mistake: mistake accident error accidentally mistakenly oops whoops sorry
done: done did finished complete completed made
yet: yet
forgot: forgot forgotten skipped
better: better closer nearer worse further farther improved away
bit: bit hair tad little slightly tiny smidge smidgen fraction somewhat slight whisker touch few
half: half halfway
just: just only barely merely
too: too
far: far much
stuck: stuck jammed seized frozen blocked solid rusted immovable wedged
stiff: stiff stiffly tight hard
sticky: sticky jerky jerks jumps jumping jerkily grabs grabbing
free: free freely loose loosely slack spins spinning spin wobbly floppy
resistance: resistance grip tension bite
end: end stop limit bottomed maxed
slipped: slipped slips slipping
stripped: stripped rounded damaged mangled chewed worn
thread: thread threads
key: key wrench driver screwdriver hex allen spanner tool tools
lock: lock locks
screw: screw screws bolt bolts
head: head
reach: reach
missing: missing lost mislaid misplaced
cap: cap torch tape cell battery laser holder
heavy: heavy
room: room space
swing: swing swung tilt
cue: cue mark
missed: missed misses miss
said: said say told predicted expected foretold asked
yes: yes yeah yep yup ok okay k aye sure fine y
no: n
jumped: jumped jump jumpy
wait: wait hang sec second hold moment
know: know idea clue sure certain dunno
two: many several double
which: which what where how why who when should
alone: alone
`)

// fillers are words that say nothing, wherever they stand.
var fillers = wordSet(`a an the is its it it's are was were be been being am im i id ill ive we my me you that thats this these theres of
about around approx approximately roughly circa maybe perhaps probably possibly think guess reckon now longer anymore feels felt feel could quite make makes scope telescope do does currently so well um uh er
will hmm please thanks very pretty exactly precisely directly straight to got has have had looks look seems seem like appears to just-about then
and but again ish there's really actually sort kind from-here already with can for at by up-to thing as bang there here still back right all`)

// placeFillers are words beside a place that change nothing of it.
var placeFillers = wordSet(`spot dot point light red beam return returning reflection one dim dimmer dimmest bright brighter brightest found
see sitting sits sit lies lying stands standing located position somewhere moved moves went goes come comes came landed ended gone
yes yeah yep ok okay done closer nearer better worse further still side hand corner area region just there here clock out away off
distance off-centre total only show shows shown say said reading reads measured far two primary mirror`)

// choiceFillers are words beside an answer that change nothing of it.
var choiceFillers = wordSet(`a an the is its it was were are been be i id ill we my me you that this these of for about just only please go with to and in out on at by from
do did does doing ok okay yes yeah make get got have has had take took taken want would like think say said answer option number choice one thanks someone somebody they he she people who last time week month night year
really very so then well um uh actually simply mirror mirrors mirror's scope telescope tube them him her too again now back down off into some part mere little-bit new old quick short first-time let lets us should could will be can came come came's went
going seems seem looks look-like show shows spot dot circle it'd image there here as any much bit up over round way lend job today's tag give given add attach goes go field site club place look stand stands time ready-to-be needs need be put work align fix both-of please`)

func lexicon(text string) map[string]class {
	all := map[string]class{}
	for _, line := range strings.Split(strings.TrimSpace(text), "\n") {
		name, list, _ := strings.Cut(line, ": ")
		for _, w := range strings.Fields(list) {
			if _, ok := all[w]; !ok {
				all[w] = class(name)
			}
		}
	}
	return all
}

func wordSet(text string) map[string]bool {
	all := map[string]bool{}
	for _, w := range strings.Fields(text) {
		all[w] = true
	}
	return all
}

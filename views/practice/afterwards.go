package practice

import "fmt"

// Afterwards says kindly, once all is done, how the readings compare with where
// the spots really were, and what was done that would have mattered on a real
// telescope.
func (b *Bench) Afterwards() []string {
	lines := b.readingLines()
	truth := b.world.Truth()
	if truth.Err == nil {
		lines = append(lines, fmt.Sprintf("The telescope's true axis error is %.1f mm.", truth.ErrorMM))
	}
	told := map[string]bool{}
	for _, deed := range b.world.Deeds() {
		if text := string(deed); !told[text] {
			told[text] = true
			lines = append(lines, "For next time: "+text+".")
		}
	}
	return lines
}

func (b *Bench) readingLines() []string {
	placed, good, swapped, far, part := 0, 0, 0, 0, 0.0
	for _, c := range b.readings {
		if !c.Placed {
			continue
		}
		placed++
		switch {
		case c.Good():
			good++
		case c.Swapped():
			swapped++
		}
		if min(c.Read.Len(), c.There.Len()) > eyesMM {
			far++
			part += c.PartOff()
		}
	}
	if placed == 0 {
		return nil
	}
	lines := []string{fmt.Sprintf("You read the spot %d times. Within half an hour and a quarter of the distance: %d.", placed, good)}
	switch part /= float64(max(1, far)); {
	case part < -habitPart:
		lines = append(lines, fmt.Sprintf("Distances were read short, by %.0f in a hundred: most people do.", -100*part))
	case part > habitPart:
		lines = append(lines, fmt.Sprintf("Distances were read long, by %.0f in a hundred.", 100*part))
	}
	if swapped > 0 {
		lines = append(lines, fmt.Sprintf("Left and right changed places in %d. It happens to everybody: say which way the spot went, and it shows.", swapped))
	}
	return lines
}

// habitPart is how far off distances must be on the whole to be worth a word.
const habitPart = 0.1

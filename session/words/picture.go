package words

import (
	"fmt"
	"math"

	"spotward/optics"
)

// FromPicture says of a reading that it was measured on a picture.
const FromPicture = "from the picture"

// PictureText returns a place on face f that was measured on a picture: "4:10,
// 6.3 mm from the ring's centre, from the picture". The hour is to ten minutes,
// about as straight as a phone is held.
func PictureText(f optics.Face, d optics.Dial) string {
	if mm := MmText(d.Len()); mm != "0" {
		return fmt.Sprintf("%s, %s mm %s, %s", TenMinutes(d), mm, FromWords(f), FromPicture)
	}
	return "at " + middleWords(f) + ", " + FromPicture
}

// TenMinutes returns a direction as a clock position to ten minutes: "4:10".
func TenMinutes(d optics.Dial) string {
	tens := int(math.Round(6*d.Hour())) % 72
	hour := tens / 6
	if hour == 0 {
		hour = 12
	}
	return fmt.Sprintf("%d:%d0", hour, tens%6)
}

package photo

import (
	"bytes"
	"encoding/binary"
)

// signature is what files of a kind begin with, from an offset on.
type signature struct {
	at   int
	text string
	kind string
}

// signatures are those of the kinds that phones, cameras and people come with,
// as their formats set them.
var signatures = [...]signature{
	{0, "\xff\xd8\xff", "JPEG"},
	{0, "\x89PNG\r\n\x1a\n", "PNG"},
	{0, "GIF8", "GIF"},
	{8, "WEBP", "WebP"},
	{0, "BM", "BMP"},
	{0, "II*\x00", "TIFF or raw"},
	{0, "MM\x00*", "TIFF or raw"},
	{0, "IIRO", "raw"},
	{0, "IIU\x00", "raw"},
	{0, "FUJIFILMCCD-RAW", "raw"},
	{0, "\xff\x0a", "JPEG XL"},
	{0, "\x00\x00\x00\x0cJXL ", "JPEG XL"},
	{0, "\x00\x00\x00\x0cjP  ", "JPEG 2000"},
	{0, "%PDF", "PDF"},
	{8, "AVI ", "video"},
	{0, "\x1a\x45\xdf\xa3", "video"}, // Matroska, WebM
	{0, "\x00\x00\x01\xba", "video"}, // MPEG
	{0, "FLV", "video"},
}

// brands are the first brands of files in boxes (ISO/IEC 14496-12) that are
// still pictures; any other brand is a video's.
var brands = map[string]string{
	"heic": "HEIC", "heix": "HEIC", "heim": "HEIC", "heis": "HEIC", "hevc": "HEIC", "hevx": "HEIC", "mif1": "HEIC", "msf1": "HEIC",
	"avif": "AVIF", "avis": "AVIF", "crx ": "raw",
}

// kindOf returns what kind of file this is: "JPEG", "PNG", another format's
// name, "video", "nothing" for an empty one, "" for what is not known.
func kindOf(data []byte) string {
	if len(data) == 0 {
		return "nothing"
	}
	if len(data) >= 12 && string(data[4:8]) == "ftyp" {
		if kind, known := brands[string(data[8:12])]; known {
			return kind
		}
		return "video"
	}
	if len(data) >= 8 && (string(data[4:8]) == "moov" || string(data[4:8]) == "mdat" || string(data[4:8]) == "wide") {
		return "video"
	}
	for _, s := range signatures {
		if len(data) >= s.at && bytes.HasPrefix(data[s.at:], []byte(s.text)) {
			return s.kind
		}
	}
	return ""
}

// jpegScans counts the scans of a JPEG, those of a preview in it as well.
func jpegScans(data []byte) int { return bytes.Count(data, []byte{0xff, 0xda}) }

// jpegOrientation returns the orientation tag of a JPEG, 0 if it has none.
func jpegOrientation(data []byte) int {
	for at := 2; at+4 <= len(data) && data[at] == 0xff; {
		marker, length := data[at+1], int(binary.BigEndian.Uint16(data[at+2:]))
		if marker == 0xff { // filling
			at++
			continue
		}
		if marker == 0xda || length < 2 || at+2+length > len(data) {
			return 0
		}
		segment := data[at+4 : at+2+length]
		if tiff, is := bytes.CutPrefix(segment, []byte("Exif\x00\x00")); marker == 0xe1 && is {
			return tiffOrientation(tiff)
		}
		at += 2 + length
	}
	return 0
}

// pngOrientation returns the orientation tag of a PNG, 0 if it has none.
func pngOrientation(data []byte) int {
	for at := int64(8); at+12 <= int64(len(data)); {
		length := int64(binary.BigEndian.Uint32(data[at:]))
		if at+12+length > int64(len(data)) {
			return 0
		}
		if string(data[at+4:at+8]) == "eXIf" {
			return tiffOrientation(data[at+8 : at+8+length])
		}
		at += 12 + length
	}
	return 0
}

// tiffOrientation returns the orientation in a block of TIFF tags (Exif 2.32,
// 4.6.4: tag 0x0112, of type SHORT, 1 to 8), 0 if it has none.
func tiffOrientation(tiff []byte) int {
	if len(tiff) < 8 {
		return 0
	}
	var order binary.ByteOrder
	switch string(tiff[:4]) {
	case "II*\x00":
		order = binary.LittleEndian
	case "MM\x00*":
		order = binary.BigEndian
	default:
		return 0
	}
	at := int64(order.Uint32(tiff[4:]))
	if at+2 > int64(len(tiff)) {
		return 0
	}
	count := int64(order.Uint16(tiff[at:]))
	for i := range count {
		entry := at + 2 + 12*i
		if entry+12 > int64(len(tiff)) {
			return 0
		}
		e := tiff[entry : entry+12]
		if order.Uint16(e) == 0x0112 && order.Uint16(e[2:]) == 3 {
			if v := int(order.Uint16(e[8:])); v >= 1 && v <= 8 {
				return v
			}
			return 0
		}
	}
	return 0
}

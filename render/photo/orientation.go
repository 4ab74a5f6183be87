package photo

import (
	"bytes"
	"encoding/binary"
)

// orientation returns how a camera was held, 1 to 8; 1 where the file does not say. It stands
// in the first directory of what Exif keeps, itself laid out as TIFF 6.0.
func orientation(kind string, data []byte) int {
	var tiff []byte
	switch kind {
	case "jpeg":
		tiff = exifOfJPEG(data)
	case "png":
		tiff = exifOfPNG(data)
	case "webp":
		tiff = exifOfWebP(data)
	}
	return orientationOf(bytes.TrimPrefix(tiff, exifHead))
}

// exifHead stands before the TIFF in a JPEG, and by mistake elsewhere.
var exifHead = []byte("Exif\x00\x00")

// exifOfJPEG looks through the segments before the picture for an APP1 of Exif's.
func exifOfJPEG(data []byte) []byte {
	const app1, startOfScan = 0xe1, 0xda
	for i := 2; i+4 <= len(data) && data[i] == 0xff; {
		mark, n := data[i+1], int(binary.BigEndian.Uint16(data[i+2:]))
		if mark == 0xff { // filling before a mark
			i++
			continue
		}
		if mark == startOfScan || n < 2 || i+2+n > len(data) {
			return nil
		}
		if body := data[i+4 : i+2+n]; mark == app1 && bytes.HasPrefix(body, exifHead) {
			return body
		}
		i += 2 + n
	}
	return nil
}

// exifOfPNG looks for the chunk eXIf (PNG, third edition, 11.3.4.6).
func exifOfPNG(data []byte) []byte {
	for i := 8; i+12 <= len(data); {
		n := int64(binary.BigEndian.Uint32(data[i:]))
		if int64(i)+12+n > int64(len(data)) {
			return nil
		}
		if string(data[i+4:i+8]) == "eXIf" {
			return data[i+8 : i+8+int(n)]
		}
		i += 12 + int(n)
	}
	return nil
}

// exifOfWebP looks for the chunk EXIF of the RIFF (RFC 9649, 2.7.1.5).
func exifOfWebP(data []byte) []byte {
	for i := 12; i+8 <= len(data); {
		n := int64(binary.LittleEndian.Uint32(data[i+4:]))
		if int64(i)+8+n > int64(len(data)) {
			return nil
		}
		if string(data[i:i+4]) == "EXIF" {
			return data[i+8 : i+8+int(n)]
		}
		i += 8 + int(n+n%2)
	}
	return nil
}

// orientationOf reads tag 274, a short, out of the first directory of a TIFF.
func orientationOf(tiff []byte) int {
	const tag, short = 274, 3
	if len(tiff) < 8 {
		return 1
	}
	var order binary.ByteOrder = binary.BigEndian
	if tiff[0] == 'I' {
		order = binary.LittleEndian
	}
	if string(tiff[:2]) != "II" && string(tiff[:2]) != "MM" || order.Uint16(tiff[2:]) != 42 {
		return 1
	}
	at := int64(order.Uint32(tiff[4:]))
	if at+2 > int64(len(tiff)) {
		return 1
	}
	count := int64(order.Uint16(tiff[at:]))
	for k := range count {
		e := at + 2 + 12*k
		if e+12 > int64(len(tiff)) {
			return 1
		}
		if order.Uint16(tiff[e:]) == tag && order.Uint16(tiff[e+2:]) == short {
			if o := int(order.Uint16(tiff[e+8:])); o >= 1 && o <= 8 {
				return o
			}
		}
	}
	return 1
}

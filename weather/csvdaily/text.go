package csvdaily

import (
	"encoding/binary"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf16"
	"unicode/utf8"

	"golang.org/x/text/encoding/charmap"
)

// decode turns a file into text: by its byte-order mark, by the zero bytes of UTF-16, as UTF-8 where it
// is valid, else as Windows-1252 where that decodes cleanly. It says which it was.
func decode(raw []byte) (text, encoding string, err error) {
	switch {
	case len(raw) == 0:
		return "", "", errors.New("the file is empty")
	case strings.HasPrefix(string(raw[:min(3, len(raw))]), "\ufeff"):
		text, encoding = string(raw[3:]), "UTF-8 with a byte-order mark"
		if !utf8.ValidString(text) {
			return "", "", errors.New("the file begins with the mark of UTF-8 but is not UTF-8 throughout; save it again as CSV UTF-8")
		}
	case len(raw) >= 2 && raw[0] == 0xff && raw[1] == 0xfe:
		text, encoding, err = wide(raw[2:], binary.LittleEndian)
	case len(raw) >= 2 && raw[0] == 0xfe && raw[1] == 0xff:
		text, encoding, err = wide(raw[2:], binary.BigEndian)
	case len(raw) >= 4 && raw[0] != 0 && raw[1] == 0 && raw[2] != 0 && raw[3] == 0:
		text, encoding, err = wide(raw, binary.LittleEndian)
	case len(raw) >= 4 && raw[0] == 0 && raw[1] != 0 && raw[2] == 0 && raw[3] != 0:
		text, encoding, err = wide(raw, binary.BigEndian)
	case utf8.Valid(raw):
		text, encoding = string(raw), "UTF-8"
	default:
		text, encoding, err = windows(raw)
	}
	if err != nil {
		return "", "", err
	}
	if i := strings.IndexFunc(text, binaryRune); i >= 0 {
		return "", "", fmt.Errorf("line %d holds the control character %U: this is not a CSV text file", 1+strings.Count(text[:i], "\n"), []rune(text[i : i+1])[0])
	}
	return text, encoding, nil
}

func binaryRune(r rune) bool { return r < ' ' && r != '\n' && r != '\r' && r != '\t' || r == 0x7f }

// wide decodes UTF-16.
func wide(raw []byte, order binary.ByteOrder) (text, encoding string, err error) {
	if len(raw)%2 != 0 {
		return "", "", errors.New("the file is UTF-16 but ends in half a letter: it was cut off, fetch it again")
	}
	words := make([]uint16, len(raw)/2)
	for i := range words {
		words[i] = order.Uint16(raw[2*i:])
	}
	runes := utf16.Decode(words)
	if slices.Contains(runes, utf8.RuneError) {
		return "", "", errors.New("the file looks like UTF-16 but does not decode; save it again as CSV UTF-8")
	}
	return string(runes), "UTF-16", nil
}

// windows decodes Windows-1252, which leaves five bytes without a letter.
func windows(raw []byte) (text, encoding string, err error) {
	out, err := charmap.Windows1252.NewDecoder().Bytes(raw)
	if err != nil {
		return "", "", fmt.Errorf("the file is not UTF-8, and as Windows-1252 it fails: %w; save it again as CSV UTF-8", err)
	}
	text = string(out)
	if i := strings.IndexRune(text, utf8.RuneError); i >= 0 {
		return "", "", fmt.Errorf("line %d: the file is neither UTF-8 nor Windows-1252; save it again as CSV UTF-8", 1+strings.Count(text[:i], "\n"))
	}
	return text, "Windows-1252", nil
}

// separators that are tried, the commonest first.
var separators = []rune{',', ';', '\t', '|'}

// separator finds what parts the fields: the one that gives the most of the first lines as many
// fields as the header has, at least two; of equals the one that gives more fields.
func separator(text string) rune {
	const sample = 20
	best, bestEven, bestWidth := ',', 0, 0
	for _, sep := range separators {
		in := csv.NewReader(lines(text))
		in.Comma, in.FieldsPerRecord, in.LazyQuotes = sep, -1, true
		width, even := 0, 0
		for range sample {
			fields, err := in.Read()
			if err != nil {
				break
			}
			if width == 0 {
				width = len(fields)
			}
			if len(fields) == width {
				even++
			}
		}
		if width > 1 && (even > bestEven || even == bestEven && width > bestWidth) {
			best, bestEven, bestWidth = sep, even, width
		}
	}
	return best
}

// lines reads text with the line ends of old Macintosh files made into those of others.
func lines(text string) io.Reader {
	if strings.Contains(text, "\r") && !strings.Contains(text, "\n") {
		text = strings.ReplaceAll(text, "\r", "\n")
	}
	return strings.NewReader(text)
}

package book

import (
	"encoding/hex"
	"fmt"
	"io"
	"time"
)

// NewID makes a UUIDv7 (RFC 9562): the time in milliseconds, then random bits from r. Ids made later
// sort later.
func NewID(at time.Time, r io.Reader) (string, error) {
	var b [16]byte
	if _, err := io.ReadFull(r, b[6:]); err != nil {
		return "", fmt.Errorf("make id: %w", err)
	}
	ms := uint64(at.UnixMilli())
	for i := range 6 {
		b[i] = byte(ms >> (40 - 8*i))
	}
	b[6] = b[6]&0x0f | 0x70
	b[8] = b[8]&0x3f | 0x80
	h := hex.EncodeToString(b[:])
	return h[:8] + "-" + h[8:12] + "-" + h[12:16] + "-" + h[16:20] + "-" + h[20:], nil
}

func validID(s string) bool {
	if len(s) != 36 || s[8] != '-' || s[13] != '-' || s[18] != '-' || s[23] != '-' {
		return false
	}
	for i := range len(s) {
		if i == 8 || i == 13 || i == 18 || i == 23 {
			continue
		}
		if c := s[i]; (c < '0' || c > '9') && (c < 'a' || c > 'f') {
			return false
		}
	}
	return true
}

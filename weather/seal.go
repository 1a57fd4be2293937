package weather

import (
	"crypto/sha256"
	"encoding/hex"
	"hash"
	"io"
)

// FileNote says what file a reading came from, so that it can be known again.
type FileNote struct {
	Name     string `json:"name"`
	Size     int64  `json:"size"`   // bytes
	SHA256   string `json:"sha256"` // of the file as it was brought, compressed or not
	Format   string `json:"format"`
	Encoding string `json:"encoding,omitempty"` // how its letters are written, where that was to be found out
	Lines    int    `json:"lines"`
	Unit     string `json:"unit"`
	UnitHow  string `json:"unit_how"` // how the unit is known
	// Notes tell what the reader took for granted or did, where that changes how the record is read.
	Notes []string `json:"notes,omitempty"`
}

// Seal is a reader that keeps the size and the SHA-256 of what went through it.
type Seal struct {
	r    io.Reader
	hash hash.Hash
	size int64
}

// NewSeal reads through from r.
func NewSeal(r io.Reader) *Seal { return &Seal{r: r, hash: sha256.New()} }

// Read passes on what the reader below gives.
func (s *Seal) Read(p []byte) (int, error) {
	n, err := s.r.Read(p)
	s.hash.Write(p[:n])
	s.size += int64(n)
	return n, err
}

// Mark writes the size and sum of what was read so far into the note.
func (s *Seal) Mark(f *FileNote) {
	f.Size, f.SHA256 = s.size, hex.EncodeToString(s.hash.Sum(nil))
}

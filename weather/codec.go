package weather

import (
	"encoding/binary"
	"fmt"
	"slices"

	"haywarden/agronomy/unit"
)

const blockVersion = 1

// Encode writes a block as bytes: a version, the number of days, then each element's values (little
// endian) and marks. Equal blocks give equal bytes, so that a file imported twice changes nothing.
func (b *Block) Encode() []byte {
	n := len(b.Days)
	out := make([]byte, 0, 3+int(elements)*n*3)
	out = append(out, blockVersion)
	out = binary.LittleEndian.AppendUint16(out, uint16(n))
	for e := range elements {
		for i := range b.Days {
			out = binary.LittleEndian.AppendUint16(out, uint16(b.Days[i].Value[e]))
		}
		for i := range b.Days {
			out = append(out, byte(b.Days[i].Mark[e]))
		}
	}
	return out
}

// DecodeBlock reads what Encode wrote.
func DecodeBlock(station string, year int, data []byte) (*Block, error) {
	n := unit.DaysIn(year)
	want := 3 + int(elements)*n*3
	if len(data) != want || data[0] != blockVersion || int(binary.LittleEndian.Uint16(data[1:])) != n {
		return nil, fmt.Errorf("weather of %s in %d: stored block is damaged (%d bytes, %d wanted)", station, year, len(data), want)
	}
	b := &Block{Station: station, Year: year, Days: make([]Obs, n)}
	at := 3
	for e := range elements {
		for i := range b.Days {
			b.Days[i].Value[e] = int16(binary.LittleEndian.Uint16(data[at+2*i:]))
		}
		at += 2 * n
		for i := range b.Days {
			if data[at+i] >= byte(marks) {
				return nil, fmt.Errorf("weather of %s in %d: stored block is damaged (mark %d is not known to this version)", station, year, data[at+i])
			}
			b.Days[i].Mark[e] = Mark(data[at+i])
		}
		at += n
	}
	return b, nil
}

// Equal reports whether two blocks hold the same year.
func (b *Block) Equal(o *Block) bool {
	return o != nil && b.Station == o.Station && b.Year == o.Year && slices.Equal(b.Days, o.Days)
}

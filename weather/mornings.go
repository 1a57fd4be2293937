package weather

import (
	"errors"
	"fmt"
	"slices"

	"haywarden/agronomy/unit"
)

// The hours of the day at which an observer counts as one of the morning. Such a reading of the highest
// temperature and of rain is mostly of the day before; the lowest temperature is of that morning.
// [source.MorningReading]
const (
	morningFrom = 5
	morningTo   = 10
)

// Morning says what to do with values that were read in the morning. The zero value leaves them under
// the day of reading and tells how many there are.
type Morning struct {
	Shift  bool // move them to the day before
	ReadAt *int // the hour, 0 to 24, at which values were read of which the file does not tell it
}

// ReadAt notes the hour, 0 to 24, at which the value of the year's day i was read.
func (y *Year) ReadAt(i int, e Element, hour int) {
	switch e {
	case TMin:
		y.rec.readAt[hour]++
	case TMax, Rain:
		if y.hours[e] == nil {
			y.hours[e] = make([]int8, len(y.block.Days))
		}
		y.hours[e][i] = int8(hour + 1)
	case Snow, Depth:
	}
}

// morning reports whether the value of a day was read in the morning, and whether its hour is known.
func (r *Reading) morning(d unit.Day, e Element, m Morning) (morning, known bool) {
	hour := -1
	if y := r.rec.years[d.Year()]; y != nil && y.hours[e] != nil {
		hour = int(y.hours[e][d.YearDay()-1]) - 1
	}
	if hour < 0 && m.ReadAt != nil {
		hour = *m.ReadAt
	}
	return hour >= morningFrom && hour <= morningTo, hour >= 0
}

// Mornings finds the highest temperatures and rains that were read in the morning, moves them to the day
// before if asked to, and notes in the report what it found and did. A value whose place is taken by one
// read later that day is left out: it tells of less than a day. It is an error to ask for a move where
// nobody knows when the values were read.
func (r *Reading) Mornings(m Morning) error {
	shift := mover{r: r, m: m}
	read, known := shift.count()
	switch {
	case m.Shift && known == 0:
		return errors.New("highest temperature and rain were to be moved to the day before, but the file does not say when they were read; declare the hour")
	case read == 0:
		return nil
	case !m.Shift:
		r.note(fmt.Sprintf("%s values of highest temperature and rain were read between %02d and %02d h and are mostly of the day before; they stand under the day of reading, and can be moved", grouped(read), morningFrom, morningTo))
		return nil
	}
	shift.move()
	note := fmt.Sprintf("%s values of highest temperature and rain, read between %02d and %02d h, were moved to the day before", grouped(read-shift.lost), morningFrom, morningTo)
	if shift.lost > 0 {
		note += fmt.Sprintf("; %s were left out, since that day has a later reading of its own", grouped(shift.lost))
	}
	r.recount()
	r.note(note)
	return nil
}

// note adds a note that is about this station alone.
func (r *Reading) note(text string) {
	r.Report.File.Notes = append(slices.Clip(r.Report.File.Notes), text)
}

// recount makes the report again from what is kept now.
func (r *Reading) recount() {
	look := doubtsOf(r.Blocks)
	r.Report = newReport(r.Report.File, r.rec, r.Blocks, r.dropped, look)
}

type mover struct {
	r    *Reading
	m    Morning
	lost int
}

// each calls f for every highest temperature and rain that was reported, in the order of days.
func (s *mover) each(f func(d unit.Day, e Element, o *Obs)) {
	for _, b := range slices.Clone(s.r.Blocks) {
		start := unit.DateOf(b.Year, 1, 1)
		for i := range b.Days {
			for _, e := range [2]Element{TMax, Rain} {
				if b.Days[i].Mark[e] != Absent {
					f(start+unit.Day(i), e, &b.Days[i])
				}
			}
		}
	}
}

func (s *mover) count() (read, known int) {
	s.each(func(d unit.Day, e Element, _ *Obs) {
		morning, told := s.r.morning(d, e, s.m)
		if morning {
			read++
		}
		if told {
			known++
		}
	})
	return read, known
}

func (s *mover) move() {
	type place struct {
		d unit.Day
		e Element
	}
	moved, lost := map[place]bool{}, map[place]bool{}
	s.each(func(d unit.Day, e Element, o *Obs) {
		if morning, _ := s.r.morning(d, e, s.m); !morning {
			return
		}
		value, mark := o.Value[e], o.Mark[e]
		o.Reject(e, Absent)
		to := s.r.on(d - 1)
		if to == nil || to.Mark[e] != Absent {
			s.lost++
			lost[place{d, e}] = true
			return
		}
		if mark == Reported {
			mark = Shifted
		}
		to.Value[e], to.Mark[e] = value, mark
		moved[place{d, e}] = true
	})
	var dropped []Rejected
	for _, x := range s.r.dropped {
		at := place{x.Day, x.Element}
		if lost[at] {
			continue
		}
		if moved[at] {
			x.Day--
		}
		dropped = append(dropped, x)
	}
	s.r.dropped = dropped
	s.r.Blocks = slices.DeleteFunc(s.r.Blocks, (*Block).empty)
}

// on finds the day's place, in a year that is begun where it is new; nil before all years.
func (r *Reading) on(d unit.Day) *Obs {
	if d.Year() < FirstYear {
		return nil
	}
	at, found := slices.BinarySearchFunc(r.Blocks, d.Year(), func(b *Block, year int) int { return b.Year - year })
	if !found {
		r.Blocks = slices.Insert(r.Blocks, at, NewBlock(r.Station.ID, d.Year()))
	}
	return r.Blocks[at].On(d)
}

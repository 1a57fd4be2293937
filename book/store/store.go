// Package store keeps a book: its facts, its weather and what was forecast, in an SQLite file (the
// default) or in a PostgreSQL database. One schema and one set of queries serve both, and the suite in
// storetest holds both to the same behaviour.
//
// Nothing that was stored is changed afterwards. A change is one transaction: all of it is kept, or
// none; a change that returned without error is on the disk.
package store

import (
	"context"
	"time"

	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/weather"
)

// Store keeps facts, weather and forecasts. [DB] is the one implementation; the interface is for those
// who wrap it.
type Store interface {
	// Append adds facts. Facts that are there already with the same content add nothing, whatever the
	// time they were received at; one that is there with other content is an [ErrConflict], and then
	// nothing of the batch is kept.
	Append(ctx context.Context, facts []book.Fact) (Added, error)
	// AppendAt is Append for facts that were made from the book as it was at a revision: where it has been
	// changed since, it is [ErrChanged] and nothing is kept.
	AppendAt(ctx context.Context, facts []book.Fact, revision int64) (Added, error)
	// Facts lists facts by the time they were received, then by id.
	Facts(ctx context.Context, filter Filter) ([]book.Fact, error)
	// Revision is a number that grows with each change to what is kept, and only then.
	Revision(ctx context.Context) (int64, error)

	// PutWeather stores the years of a weather file. A year equal to the newest one stored adds nothing;
	// one that differs is kept beside it.
	PutWeather(ctx context.Context, in Import) (Imported, error)
	// PutWeathers stores what a file of several stations brings, one import a station, in one change: all
	// of it or nothing.
	PutWeathers(ctx context.Context, ins []Import) ([]Imported, error)
	// Weather gives for each year of a station the newest block received by a time, by year. The zero
	// time stands for now.
	Weather(ctx context.Context, station string, known time.Time) ([]*weather.Block, error)
	// Imports lists what weather files brought to a station, oldest first.
	Imports(ctx context.Context, station string) ([]ImportRecord, error)
	// Stations lists the stations with weather received by a time, as last described by then, by id. The
	// zero time stands for now.
	Stations(ctx context.Context, known time.Time) ([]weather.Station, error)

	// WeatherRevision is the revision of the book at its newest change of weather or forecasts, 0 where it
	// holds none: while it stays, so does all weather known.
	WeatherRevision(ctx context.Context) (int64, error)

	// PutForecast stores a forecast, kept by its place and the time of its issue, and reports whether it
	// was added: the same again adds nothing, and one that differs from what is stored of that issue is
	// kept beside it.
	PutForecast(ctx context.Context, f weather.Forecast, received time.Time) (added bool, err error)
	// Forecasts gives the forecasts for a place received by a time, newest issue first, each issue as it
	// was stored last by then. The zero time stands for now.
	Forecasts(ctx context.Context, place string, known time.Time) ([]weather.Forecast, error)
	// LatestForecast gives the newest of them that was issued by a day, nil where there is none. The day is
	// that of the zone the time of issue is written in; the zero day stands for no limit.
	LatestForecast(ctx context.Context, place string, by unit.Day, known time.Time) (*weather.Forecast, error)
}

var _ Store = (*DB)(nil)

// Added says what became of appended facts.
type Added struct {
	New      []string // ids now in the book, in the order given
	Already  []string // ids that were there with the same content
	Revision int64    // of the book afterwards
}

// Filter chooses facts. The zero filter chooses all.
type Filter struct {
	Farm    string    // only facts of this farm, its own fact and withdrawals included
	Shared  bool      // with Farm: also the facts of the whole book, which a view of the farm needs
	Known   time.Time // only facts received by then; zero: no limit
	Through unit.Day  // only facts that happened by then; zero: no limit
}

// Import is a weather file as read.
type Import struct {
	Source   string    // where it came from: a file's name, an address
	SHA256   string    // of the file, in hexadecimal
	Received time.Time // by the book's clock
	Station  weather.Station
	Blocks   []*weather.Block
	// Partial says that the blocks may be silent on days and elements: there, what is stored stays.
	Partial bool
	Report  []byte // what reading found, as the caller writes it
}

// Imported says what became of an import, by year.
type Imported struct {
	Added     []int // years not stored before
	Changed   []int // years that differ from what was stored
	Unchanged []int // years stored already
	Revision  int64 // of the book afterwards
}

// ImportRecord is what is kept of an import beside its blocks.
type ImportRecord struct {
	Station   string
	Source    string
	SHA256    string
	Received  time.Time
	Added     int // years
	Changed   int // years
	Unchanged int // years
	Report    []byte
}

// Options say how a book is opened.
type Options struct {
	// Create makes a book where there is none. Without it a missing book is an [ErrMissing].
	Create bool
	// First are the facts that a new book begins with; where there is a book they are not used. A new file
	// holds them from before it has its name.
	First []book.Fact
	// Now is the clock that dates a new book and names the copy made before an upgrade; [time.Now]
	// where it is nil.
	Now func() time.Time
	// Program is the version of the running program, stored in what it makes or upgrades.
	Program string
	// Wait is how long a change waits for another process that is writing; 5 seconds where it is zero.
	Wait time.Duration
}

func (o Options) withDefaults() Options {
	if o.Now == nil {
		o.Now = time.Now
	}
	if o.Program == "" {
		o.Program = "(unnamed)"
	}
	if o.Wait == 0 {
		o.Wait = 5 * time.Second
	}
	return o
}

// Engine names a database.
type Engine string

// The engines.
const (
	SQLite     Engine = "SQLite"
	PostgreSQL Engine = "PostgreSQL"
)

// Info describes an open book.
type Info struct {
	Location string // path of the file, or address of the database without its password
	Engine   Engine
	Schema   int       // version of the layout of the tables
	Created  time.Time // when the book was made
	Program  string    // version of the program that made or last upgraded it
}

// Ghcnforms writes a plain daily CSV (date, tmax_c, tmin_c, prcp_mm, snow_mm, snwd_mm) in the two forms
// in which GHCN-Daily, NOAA's world archive of daily station weather, gives out a record: fixed width
// (.dly) and by-station CSV. So any record can be brought to the readers in the form they meet outside.
//
//	go run ./internal/tools/ghcnforms -id USW00014839 -form fixed milwaukee.csv > USW00014839.dly
//	go run ./internal/tools/ghcnforms -id USW00014839 -form by-station -from 2016 \
//	    -elements TMAX,TMIN,PRCP milwaukee.csv > USW00014839_2016_2020.csv
//
// The long real series that the tests read is the public record of GHCN-Daily station USW00014839,
// Milwaukee Mitchell Airport, 1971-2020 (US Government work; Menne et al. 2012, J. Atmos. Oceanic
// Technol. 29:897). It is not committed. Whoever has a network can take it straight from NOAA NCEI,
// https://www.ncei.noaa.gov/pub/data/ghcn/daily/all/USW00014839.dly (address from memory), cut it to those years and put it
// into the folder that HAYWARDEN_DATA names; from a copy of the record as a CSV of days, in degrees C
// and mm, this program makes the same file. Tests that want it are skipped where it is not there.
package main

import (
	"bytes"
	"flag"
	"fmt"
	"io"
	"os"
	"strings"
)

func main() {
	if err := run(os.Args[1:], os.Stdin, os.Stdout); err != nil {
		fmt.Fprintln(os.Stderr, "ghcnforms:", err)
		os.Exit(1)
	}
}

// run converts the file named in args, or in where none is named, to out.
func run(args []string, in io.Reader, out io.Writer) error {
	flags := flag.NewFlagSet("ghcnforms", flag.ContinueOnError)
	id := flags.String("id", "", "station ID, 11 letters and digits")
	form := flags.String("form", "fixed", "fixed (.dly) or by-station (CSV)")
	from := flags.Int("from", 0, "first year written")
	only := flags.String("elements", "", "elements written, in this order, such as TMAX,TMIN,PRCP; all columns without it")
	if err := flags.Parse(args); err != nil {
		return err
	}
	if len(*id) != 11 {
		return fmt.Errorf("-id %q: a station ID of 11 letters and digits wanted", *id)
	}
	if flags.NArg() > 0 {
		f, err := os.Open(flags.Arg(0))
		if err != nil {
			return err
		}
		defer func() { _ = f.Close() }() // it was only read
		in = f
	}
	var elements []string
	if *only != "" {
		elements = strings.Split(*only, ",")
	}
	r, err := read(in, elements, *from)
	if err != nil {
		return err
	}
	var b bytes.Buffer
	switch *form {
	case "fixed":
		r.writeFixed(&b, *id)
	case "by-station":
		r.writeByStation(&b, *id)
	default:
		return fmt.Errorf("-form %q: fixed or by-station wanted", *form)
	}
	_, err = b.WriteTo(out)
	return err
}

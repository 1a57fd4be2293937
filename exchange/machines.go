package exchange

import (
	"io"
	"slices"

	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/tabular"
)

// Machines is a table of machines and crews.
type Machines struct {
	File
	Farms []MachineRow
}

// MachineRow is one farm's machines and crew on a day, gathered from the rows of both.
type MachineRow struct {
	Row  int // the first of them
	Farm string
	Day  unit.Day // 0: no row says one
	Kit  book.Machines
}

var machineColumns = []Column{
	{Name: "farm", Also: []string{"farm name", "operation"}, Needed: true},
	{Name: "date", Also: []string{"day", "as of"}},
	{Name: "machine", Also: []string{"machine name", "what"}, Needed: true},
	{Name: "kind", Also: []string{"machine kind", "type"}, Needed: true},
	{Name: "width", Also: []string{"width ft", "working width"}, in: []spelling{{"m", []string{"width m"}}}, Needed: true},
	{Name: "speed", Also: []string{"speed mph"}},
	{Name: "efficiency", Also: []string{"field efficiency"}, in: []spelling{{"%", []string{"efficiency pct"}}}},
	{Name: "price", Also: []string{"price paid", "cost"}},
	{Name: "salvage", Also: []string{"trade-in"}},
	{Name: "years", Also: []string{"years kept"}},
	{Name: "hours_year", Also: []string{"hours a year"}, check: "hours a year"},
	{Name: "power", Also: []string{"power hp", "pto hp", "horsepower"}},
	{Name: "tractor", Also: []string{"tractor cost", "tractor $ h"}},
	{Name: "crew_hours", Also: []string{"hours a day"}, check: "crew hours"},
	{Name: "from", Also: []string{"first day"}},
	{Name: "to", Also: []string{"last day"}},
}

// MachineColumns lists the columns of a table of machines.
func MachineColumns() []Column { return slices.Clone(machineColumns) }

// What the column kind says of rows that are no machine.
const (
	crewKind = "crew"
	busyKind = "busy"
)

var machineKinds = func() []call[string] {
	also := map[string][]string{
		"mower-conditioner": {"mower", "mower conditioner, sickle"}, "rotary-mower-conditioner": {"disc mower", "disk mower", "disc mower-conditioner", "rotary mower"},
		"rake": {"merger", "tedder"}, "large-square-baler": {"big square baler"}, "round-baler": {"large round baler"},
		"pull-chopper": {"chopper", "pull-type chopper"}, "self-propelled-chopper": {"sp chopper", "forage harvester"},
	}
	var calls []call[string]
	for _, k := range book.MachineKinds() {
		calls = append(calls, call[string]{k, also[k]})
	}
	return append(calls, call[string]{crewKind, nil}, call[string]{busyKind, []string{"away"}})
}()

// ReadMachines reads machines and crews, a row a machine: farm, machine, kind and width are
// needed. Rows of one
// farm and date are one list, which takes the place of an older one whole. A row of kind crew tells the
// hours of work a day; one of kind busy what takes the crew elsewhere, from and to which day.
func ReadMachines(r io.Reader, name string) (Machines, error) {
	s, err := open(r, name, machineColumns)
	if err != nil {
		return Machines{}, err
	}
	var order []*MachineRow
	at := map[string]*MachineRow{}
	named := map[string]int{}
	for {
		more, err := s.next()
		if err != nil {
			return Machines{}, err
		}
		if !more {
			break
		}
		farm := s.name("farm")
		day, _ := s.date("date", false)
		key := tabular.Plain(farm) + " " + day.String()
		if at[key] == nil {
			at[key] = &MachineRow{Row: s.row.Place, Farm: farm, Day: day}
			order = append(order, at[key])
		}
		s.machineRow(&at[key].Kit, key, named)
	}
	out := Machines{File: s.file}
	for _, m := range order {
		out.Farms = append(out.Farms, *m)
	}
	return out, nil
}

// machineRow reads a machine, the crew or a busy time into the list it belongs to.
func (s *sheet) machineRow(kit *book.Machines, key string, named map[string]int) {
	switch kind := oneOf(s, "kind", machineKinds, true); kind {
	case "":
	case crewKind:
		v := s.quantity("crew_hours", "h")
		switch {
		case kit.CrewHours != 0:
			s.fault("crew_hours", "the farm has a crew in another row; take one out")
		case v == nil:
			if s.raw("crew_hours") == "" {
				s.fault("crew_hours", "is empty; 0.5 to 24 hours a day wanted")
			}
		default:
			kit.CrewHours = *v
			s.accept(book.Machines{CrewHours: *v}.Check())
		}
	case busyKind:
		from, ok1 := s.date("from", true)
		to, ok2 := s.date("to", true)
		b := book.Busy{What: s.name("machine"), From: from, To: to}
		kit.Busy = append(kit.Busy, b)
		if ok1 && ok2 && b.What != "" {
			s.accept(b.Check())
		}
	default:
		m := s.machine(kind)
		kit.Machines = append(kit.Machines, m)
		key += " " + tabular.Plain(m.Name)
		if first := named[key]; first != 0 && m.Name != "" {
			s.fault("machine", "the farm has it in row %d; take one out", first)
		}
		named[key] = s.row.Place
	}
}

func (s *sheet) machine(kind string) book.Machine {
	found := len(s.list)
	m := book.Machine{Name: s.name("machine"), Kind: kind, Efficiency: or(s.share("efficiency"), 0)}
	for _, c := range []struct {
		col, unit string
		to        *float64
	}{
		{"width", "ft", &m.WidthFt}, {"speed", "mph", &m.SpeedMph}, {"price", "$", &m.Price}, {"salvage", "$", &m.Salvage}, {"years", "yr", &m.Years},
		{"hours_year", "", &m.HoursYear}, {"power", "hp", &m.PowerHP}, {"tractor", "$/h", &m.Tractor},
	} {
		*c.to = or(s.quantity(c.col, c.unit), 0)
	}
	if s.raw("width") == "" {
		s.fault("width", "is empty; 0.5 to 100 ft wanted")
	}
	if len(s.list) == found {
		s.accept(m.Check())
	}
	return m
}

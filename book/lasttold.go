package book

// Herd is the farm's herd as last told; not ok where none was.
func (f *FarmView) Herd() (Dated[Herd], bool) { return last(f.Herds) }

// Kit is the farm's machines and crew as last told; not ok where none were.
func (f *FarmView) Kit() (Dated[Machines], bool) { return last(f.Machines) }

// HowCareful is the farm's caution as last told, else the whole book's; own tells which. Empty where
// neither was told. No farm is the book alone.
func (v *View) HowCareful(f *FarmView) (how string, own bool) {
	if f != nil {
		if c, ok := last(f.Caution); ok {
			return c.Body.How, true
		}
	}
	c, _ := last(v.Caution)
	return c.Body.How, false
}

func last[T any](all []Dated[T]) (Dated[T], bool) {
	if len(all) == 0 {
		return Dated[T]{}, false
	}
	return all[len(all)-1], true
}

package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"haywarden/reckon"
)

// newProveCommand checks the program against what was printed.
func newProveCommand(m *Main) *cobra.Command {
	var asJSON, all bool
	c := &cobra.Command{
		Use:   "prove [NAME]",
		Short: "Check every method against its printed answers",
		Long: `Runs every worked example and table that ships with the program: method, source, the printed
value, ours and the difference. Published answers, reference libraries, tables a method was
fitted to and our own arithmetic are counted apart. Exits 1 when one is not reproduced.`,
		Example: "  haywarden prove\n  haywarden prove rfv\n  haywarden prove stick -v",
		Args:    cobra.MaximumNArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			only := ""
			if len(args) == 1 {
				only = args[0]
			}
			proven, err := reckon.Prove(only)
			if err != nil {
				return err
			}
			return m.tellProofs(proven, asJSON, all)
		},
	}
	c.Flags().BoolVar(&asJSON, "json", false, "print JSON, numbers not rounded")
	c.Flags().BoolVarP(&all, "verbose", "v", false, "show every value of a long table")
	return c
}

// tellProofs prints proofs; any that failed is an error.
func (m *Main) tellProofs(proven []reckon.Proven, asJSON, all bool) error {
	err := show(m.Stdout, asJSON,
		func() ([]byte, error) { return reckon.ProofJSON(proven) },
		func() (string, error) { return reckon.ProofText(proven, all), nil })
	if err != nil {
		return err
	}
	if n := reckon.Failed(proven); n > 0 {
		return fmt.Errorf("%d of %d printed values are not reproduced", n, len(proven))
	}
	return nil
}

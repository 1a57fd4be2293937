package main

import (
	"fmt"
	"io"
	"os"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"haywarden/agronomy/method"
	"haywarden/reckon"
)

// newReckonCommand answers one named calculation, or tells what can be asked.
func newReckonCommand(m *Main) *cobra.Command {
	var asJSON bool
	c := &cobra.Command{
		Use:   "reckon [NAME [KEY=VALUE ...]]",
		Short: "Work out one number with its published method",
		Long: `Without a name: lists what can be reckoned. With a name alone: tells what it takes, what it
answers and where it is published. With inputs: answers.

A number may carry its own unit (height=71cm). Lists are comma-separated; list=@file.csv takes
the column of that name from a CSV file with a header, and @file.csv alone takes every list
whose name is a column, or, where a reckoning takes a table (trials), the whole file.`,
		Example: "  haywarden reckon\n  haywarden reckon rfv\n  haywarden reckon rfv adf=30 ndf=40 --json",
		ValidArgsFunction: func(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
			return complete(args)
		},
		RunE: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				return show(m.Stdout, asJSON, reckon.ListJSON, func() (string, error) { return reckon.ListText(), nil })
			}
			asked, err := reckon.Find(args[0])
			if err != nil {
				return err
			}
			if len(args) == 1 {
				return show(m.Stdout, asJSON,
					func() ([]byte, error) { return reckon.DescribeJSON(asked) },
					func() (string, error) { return reckon.DescribeText(asked) })
			}
			return m.answer(asked, args[1:], asJSON)
		},
	}
	c.Flags().BoolVar(&asJSON, "json", false, "print JSON, numbers not rounded")
	return c
}

func (m *Main) answer(asked *method.Method, args []string, asJSON bool) error {
	start := time.Now()
	a, err := reckon.Ask(asked, args, func(name string) (io.ReadCloser, error) { return os.Open(name) })
	if err != nil {
		return err
	}
	m.Log.Debug("reckoned", "name", asked.Name, "took", time.Since(start))
	return show(m.Stdout, asJSON, a.JSON, func() (string, error) { return a.Text(), nil })
}

// show prints the JSON or the text of one thing.
func show(w io.Writer, asJSON bool, inJSON func() ([]byte, error), inText func() (string, error)) error {
	if asJSON {
		b, err := inJSON()
		if err != nil {
			return err
		}
		_, err = w.Write(b)
		return err
	}
	s, err := inText()
	if err != nil {
		return err
	}
	_, err = io.WriteString(w, s)
	return err
}

// complete offers the names, and after a name the keys not yet given, to a shell.
func complete(args []string) ([]string, cobra.ShellCompDirective) {
	if len(args) == 0 {
		var names []string
		for _, d := range reckon.Disciplines() {
			for _, a := range d.Methods {
				names = append(names, fmt.Sprintf("%s\t%s", a.Name, a.Title))
			}
		}
		return names, cobra.ShellCompDirectiveNoFileComp
	}
	asked, err := reckon.Find(args[0])
	if err != nil {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	given := map[string]bool{}
	for _, arg := range args[1:] {
		key, _, _ := strings.Cut(arg, "=")
		given[key] = true
	}
	var keys []string
	for _, in := range asked.Inputs {
		if !given[in.Key] {
			keys = append(keys, fmt.Sprintf("%s=\t%s", in.Key, in.About))
		}
	}
	return keys, cobra.ShellCompDirectiveNoFileComp | cobra.ShellCompDirectiveNoSpace
}

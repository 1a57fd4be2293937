package main

import (
	"errors"
	"fmt"
	"log/slog"
	"runtime/debug"
	"strings"

	"github.com/spf13/cobra"
)

// newRoot assembles the command line. began turns true once a command has been understood and
// starts to work: any error before that is one of usage.
func newRoot(m *Main) (root *cobra.Command, began *bool) {
	began = new(bool)
	var level slog.Level
	var logJSON bool
	root = &cobra.Command{
		Use:   "haywarden",
		Short: "Look after forage legume stands",
		Long: `Haywarden helps an adviser look after stands of alfalfa, red clover and their mixtures
that other people farm: when to cut, what a stand is worth, what to do next and why.
Every number it gives names the publication it comes from.`,
		Example:       "  haywarden reckon rfv adf=30 ndf=40\n  haywarden prove",
		Version:       version(),
		SilenceErrors: true, // Main tells them, in one line
		SilenceUsage:  true,
		Args:          knownCommand,
		RunE:          func(c *cobra.Command, _ []string) error { return c.Help() },
		PersistentPreRun: func(*cobra.Command, []string) {
			m.Log = newLogger(m, level, logJSON)
		},
	}
	root.SetIn(m.Stdin)
	root.SetOut(m.Stdout)
	root.SetErr(m.Stderr)
	root.SetFlagErrorFunc(func(c *cobra.Command, err error) error {
		return fmt.Errorf("%s: %w; `%s --help` shows the flags", c.CommandPath(), err, c.CommandPath())
	})
	root.PersistentFlags().TextVar(&level, "log", slog.LevelWarn, "how much to log to standard error: debug, info, warn or error")
	root.PersistentFlags().BoolVar(&logJSON, "log-json", false, "write the log as JSON")
	// One line a command, in the order of a working day.
	root.AddCommand(
		newDemoCommand(m),
		newRoundCommand(m),
		newRouteCommand(m),
		newWinterCommand(m),
		newStandCommand(m),
		newHerdCommand(m),
		newFeedCommand(m),
		newAllocateCommand(m),
		newBudgetCommand(m),
		newFertilizerCommand(m),
		newSoilCommand(m),
		newPricesCommand(m),
		newWeighCommand(m),
		newImportCommand(m),
		newWeatherCommand(m),
		newHeldCommand(m),
		newPlanCommand(m),
		newBacktestCommand(m),
		newTrialCommand(m),
		newPaperCommand(m),
		newBookCommand(m),
		newServeCommand(m),
		newReckonCommand(m),
		newProveCommand(m),
	)
	watch(root, began)
	return root, began
}

// knownCommand refuses a word that is no command, in one line with the nearest one.
func knownCommand(c *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	c.SuggestionsMinimumDistance = 2
	near := c.SuggestionsFor(args[0])
	if len(near) == 0 {
		return fmt.Errorf("no command is called %q; `%s --help` lists them", args[0], c.CommandPath())
	}
	return fmt.Errorf("no command is called %q; did you mean %s?", args[0], strings.Join(near, " or "))
}

// watch makes every command say that it has begun, and sets errors of a wrong number of arguments in
// one line. A command that only holds others shows its help, and refuses a word that is none of them.
func watch(c *cobra.Command, began *bool) {
	if c.HasSubCommands() && !c.Runnable() {
		c.Args = knownCommand
		c.RunE = func(c *cobra.Command, _ []string) error { return c.Help() }
	}
	if run := c.RunE; run != nil {
		c.RunE = func(c *cobra.Command, args []string) error {
			*began = true
			return run(c, args)
		}
	}
	if check := c.Args; check != nil {
		c.Args = func(c *cobra.Command, args []string) error {
			err := check(c, args)
			switch {
			case err == nil:
				return nil
			case c.HasSubCommands():
				return errors.New(strings.Join(strings.Fields(err.Error()), " "))
			}
			return fmt.Errorf("%s: %s; it is written `%s`", c.CommandPath(), strings.Join(strings.Fields(err.Error()), " "), c.UseLine())
		}
	}
	for _, child := range c.Commands() {
		watch(child, began)
	}
}

func newLogger(m *Main, level slog.Level, asJSON bool) *slog.Logger {
	options := &slog.HandlerOptions{Level: level}
	if asJSON {
		return slog.New(slog.NewJSONHandler(m.Stderr, options))
	}
	return slog.New(slog.NewTextHandler(m.Stderr, options))
}

// version tells the revision the program was built from.
func version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return "unknown"
	}
	for _, s := range info.Settings {
		if s.Key == "vcs.revision" {
			return s.Value
		}
	}
	return info.Main.Version
}

// Command haywarden looks after forage legume stands: it keeps their book, makes the round and
// reckons single numbers. Each command is a file of its own; root.go lists them.
package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"os"
	"os/signal"
	"syscall"

	"haywarden/reckon"
)

// Exit codes.
const (
	exitOK      = 0
	exitFailure = 1 // what was asked could not be done
	exitUsage   = 2 // what was asked cannot be understood or reckoned with
)

// Main is the program with the outside world it may touch; tests pass their own.
type Main struct {
	Stdin  io.Reader
	Stdout io.Writer
	Stderr io.Writer
	Log    *slog.Logger // set from the flags before a command runs
}

func main() {
	// A reader that closes the pipe must not end the program in the middle of its work: writing fails
	// instead, and the work is ended as it should be.
	signal.Ignore(syscall.SIGPIPE)
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	m := &Main{Stdin: os.Stdin, Stdout: os.Stdout, Stderr: os.Stderr}
	code := m.Run(ctx, os.Args[1:])
	stop()
	os.Exit(code)
}

// Run carries out one command line and returns the exit code. Whatever goes wrong is told in one
// line on Stderr.
func (m *Main) Run(ctx context.Context, args []string) (code int) {
	defer func() {
		if fault := recover(); fault != nil {
			fmt.Fprintf(m.Stderr, "haywarden: a fault in the program: %v; please report it with the command you gave\n", fault)
			code = exitFailure
		}
	}()
	root, began := newRoot(m)
	root.SetArgs(asArguments(args))
	err := root.ExecuteContext(ctx)
	switch {
	case err == nil:
		return exitOK
	case errors.Is(err, errPartial):
		fmt.Fprintf(m.Stderr, "haywarden: %v\n", err)
		return exitPartial
	case errors.Is(err, syscall.EPIPE):
		return exitFailure // whoever read has left, and is told nothing
	}
	fmt.Fprintf(m.Stderr, "haywarden: %v\n", err)
	var bad *reckon.BadInput
	var usage *usageError
	if !*began || errors.As(err, &bad) || errors.As(err, &usage) {
		return exitUsage
	}
	return exitFailure
}

// usageError is a command line that a command cannot make sense of.
type usageError struct{ text string }

func (e *usageError) Error() string { return e.text }

func usage(format string, args ...any) error { return &usageError{fmt.Sprintf(format, args...)} }

//go:build unix

package store_test

import (
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// nobody is a user that owns nothing.
const nobody = 65534

// TestWhatCannotBeWrittenIsSaidWhenOpening opens books as a user who may not write everywhere. A test
// that runs as root, whom nothing stops, does so in a process of another user.
func TestWhatCannotBeWrittenIsSaidWhenOpening(t *testing.T) {
	// A test's own folder is not open to other users.
	dir, err := os.MkdirTemp("/tmp", "haywarden-unwritable-")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		for _, sub := range []string{"locked", "."} {
			if err := os.Chmod(filepath.Join(dir, sub), 0o755); err != nil {
				t.Error(err)
			}
		}
		if err := os.RemoveAll(dir); err != nil {
			t.Error(err)
		}
	})
	self := runnable(t, dir)
	book := func(name string, mode os.FileMode) string {
		path := filepath.Join(dir, name)
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		closed(t, path)
		if err := os.Chmod(path, mode); err != nil {
			t.Fatal(err)
		}
		return path
	}
	open := func(folder string) {
		t.Helper()
		if err := os.Chmod(filepath.Join(dir, folder), 0o777); err != nil {
			t.Fatal(err)
		}
	}
	locked, readable, hidden := book("locked/a.book", 0o666), book("open/readable.book", 0o444), book("open/hidden.book", 0)
	fine := book("open/fine.book", 0o666)
	open("open")
	if err := os.Chmod(filepath.Dir(locked), 0o555); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ name, path, want string }{
		{"all may be written", fine, "opened"},
		{"the folder may not be written to", locked, "the folder " + filepath.Dir(locked) + " cannot be written to"},
		{"the folder may not be written to, and the book is missing", filepath.Join(dir, "locked/new.book"), "the folder " + filepath.Dir(locked) + " cannot be written to"},
		{"the folder is missing", filepath.Join(dir, "nowhere/new.book"), "there is no folder " + filepath.Join(dir, "nowhere")},
		{"the file may only be read", readable, "this book cannot be written"},
		{"the file may not even be read", hidden, "this book cannot be written"},
	} {
		t.Run(c.name, func(t *testing.T) {
			child := exec.CommandContext(t.Context(), self, c.path)
			child.Env, child.Dir = append(os.Environ(), childEnv+"=open"), dir
			if os.Geteuid() == 0 {
				child.SysProcAttr = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: nobody, Gid: nobody}}
			}
			out, err := child.CombinedOutput()
			if err != nil || !strings.Contains(string(out), c.want) {
				t.Errorf("%v: %s\nwant %q", err, out, c.want)
			}
		})
	}
}

// runnable is this test as a file that any user may run.
func runnable(t *testing.T, dir string) string {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	if err := os.Chmod(dir, 0o755); err != nil {
		t.Fatal(err)
	}
	if os.Geteuid() != 0 {
		return self
	}
	from, err := os.Open(self)
	if err != nil {
		t.Fatal(err)
	}
	defer from.Close()
	to, err := os.OpenFile(filepath.Join(dir, "store.test"), os.O_CREATE|os.O_WRONLY, 0o755)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := io.Copy(to, from); err != nil {
		t.Fatal(err)
	}
	if err := to.Close(); err != nil {
		t.Fatal(err)
	}
	return to.Name()
}

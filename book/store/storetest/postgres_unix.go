//go:build unix

package storetest

import (
	"bytes"
	"cmp"
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io"
	"net/url"
	"os"
	"os/exec"
	"os/user"
	"path/filepath"
	"slices"
	"strconv"
	"sync"
	"sync/atomic"
	"syscall"
	"testing"
	"time"
)

// Cluster is a private PostgreSQL server.
type Cluster struct {
	dir      string
	server   *exec.Cmd
	lifeline io.Closer
	said     bytes.Buffer
	schemas  atomic.Int64
}

// serve runs the server until its input ends, which it does when the test closes it and also when the
// test is killed; then it takes server and files away.
const serve = `"$1" -D "$2/data" -k "$2" -c listen_addresses= -c fsync=off -c max_connections=90 >"$2/log" 2>&1 &
server=$!
cat >/dev/null
kill -QUIT $server
wait $server
rm -rf "$2"`

// shared is the server of [PostgreSQL]; it ends with the process.
var shared = sync.OnceValues(start)

// PostgreSQL returns the address of an empty schema in a server of this test's own, which is started
// when it is first asked for, in a folder of its own, and is reached only through a socket there. Where
// PostgreSQL is not installed the test is skipped, or fails if the environment says HAYWARDEN_DEMAND=1.
func PostgreSQL(tb testing.TB) string {
	tb.Helper()
	c, err := shared()
	if err != nil {
		giveUp(tb, err)
	}
	return c.Fresh(tb)
}

// StartPostgreSQL starts a server for the time of one test, which may stop it.
func StartPostgreSQL(tb testing.TB) *Cluster {
	tb.Helper()
	c, err := start()
	if err != nil {
		giveUp(tb, err)
	}
	tb.Cleanup(func() { c.Stop(tb) })
	return c
}

// lacking is an error for want of something on this machine.
type lacking string

func (e lacking) Error() string { return string(e) }

func giveUp(tb testing.TB, err error) {
	tb.Helper()
	if _, ok := errors.AsType[lacking](err); ok {
		Lacking(tb, err.Error())
	}
	tb.Fatal(err)
}

func start() (*Cluster, error) {
	bin, err := binaries()
	if err != nil {
		return nil, err
	}
	as := &syscall.SysProcAttr{Setpgid: true}
	if os.Geteuid() == 0 {
		if as.Credential, err = unprivileged(); err != nil {
			return nil, err
		}
	}
	// The socket's path may have 107 characters, which a test's own folder can exceed.
	dir, err := os.MkdirTemp("/tmp", "haywarden-pg-")
	if err != nil {
		return nil, err
	}
	if as.Credential != nil {
		if err := os.Chown(dir, int(as.Credential.Uid), int(as.Credential.Gid)); err != nil {
			return nil, err
		}
	}
	// A language's order, where letters do not sort as their bytes do: the harder case for a store.
	initdb := exec.Command(filepath.Join(bin, "initdb"), "-D", filepath.Join(dir, "data"), "-U", "postgres", "-A", "trust", //nolint:noctx // seconds
		"-E", "UTF8", "--locale=C.UTF-8", "--locale-provider=icu", "--icu-locale=en-US", "--no-sync", "--no-instructions")
	initdb.Dir, initdb.SysProcAttr = dir, as
	if out, err := initdb.CombinedOutput(); err != nil {
		return nil, fmt.Errorf("make a PostgreSQL cluster: %w: %s", err, out)
	}
	c := &Cluster{dir: dir, server: exec.Command("/bin/sh", "-c", serve, "sh", filepath.Join(bin, "postgres"), dir)} //nolint:noctx // it ends with its input
	c.server.Dir, c.server.SysProcAttr, c.server.Stderr = dir, as, &c.said
	if c.lifeline, err = c.server.StdinPipe(); err != nil {
		return nil, err
	}
	if err := c.server.Start(); err != nil {
		return nil, err
	}
	return c, c.await()
}

// await waits until the server answers.
func (c *Cluster) await() error {
	db, err := sql.Open("pgx", c.address(""))
	if err != nil {
		return err
	}
	defer db.Close()
	for range 1000 {
		if err = db.Ping(); err == nil { //nolint:noctx // a socket of this machine
			return nil
		}
		time.Sleep(20 * time.Millisecond)
	}
	log, _ := os.ReadFile(filepath.Join(c.dir, "log")) // nothing to add where there is no log
	return fmt.Errorf("PostgreSQL does not answer: %w\n%s", err, log)
}

// Stop stops the server and removes its files.
func (c *Cluster) Stop(tb testing.TB) {
	tb.Helper()
	if c.server.ProcessState != nil {
		return // stopped before
	}
	if err := c.lifeline.Close(); err != nil {
		tb.Error(err)
	}
	if err := c.server.Wait(); err != nil {
		tb.Errorf("stop PostgreSQL: %v\n%s", err, c.said.Bytes())
	}
}

// Fresh makes an empty schema and returns its address.
func (c *Cluster) Fresh(tb testing.TB) string {
	tb.Helper()
	db, err := sql.Open("pgx", c.address(""))
	if err != nil {
		tb.Fatal(err)
	}
	defer db.Close()
	schema := "s" + strconv.FormatInt(c.schemas.Add(1), 10)
	if _, err := db.ExecContext(context.Background(), "create schema "+schema); err != nil { //nolint:gosec // a number
		tb.Fatal(err)
	}
	return c.address(schema)
}

func (c *Cluster) address(schema string) string {
	q := url.Values{"host": {c.dir}}
	if schema != "" {
		q.Set("search_path", schema)
	}
	return "postgres://postgres@/postgres?" + q.Encode()
}

// binaries finds the folder of the newest PostgreSQL.
func binaries() (string, error) {
	if p, err := exec.LookPath("initdb"); err == nil {
		return filepath.Dir(p), nil
	}
	found, err := filepath.Glob("/usr/lib/postgresql/*/bin/initdb")
	if err != nil || len(found) == 0 {
		return "", lacking("PostgreSQL is not installed: no initdb on PATH or in /usr/lib/postgresql")
	}
	version := func(p string) int {
		n, _ := strconv.Atoi(filepath.Base(filepath.Dir(filepath.Dir(p)))) // what is no number sorts first
		return n
	}
	return filepath.Dir(slices.MaxFunc(found, func(a, b string) int { return cmp.Compare(version(a), version(b)) })), nil
}

func unprivileged() (*syscall.Credential, error) {
	for _, name := range []string{"postgres", "nobody"} {
		u, err := user.Lookup(name)
		if err != nil {
			continue
		}
		uid, errUID := strconv.ParseUint(u.Uid, 10, 32)
		gid, errGID := strconv.ParseUint(u.Gid, 10, 32)
		if errUID == nil && errGID == nil {
			return &syscall.Credential{Uid: uint32(uid), Gid: uint32(gid)}, nil
		}
	}
	return nil, lacking("PostgreSQL does not run as root, and there is no user postgres or nobody")
}

//go:build unix

package storetest

import (
	"bytes"
	"cmp"
	"context"
	"database/sql"
	"fmt"
	"net/url"
	"os"
	"os/exec"
	"os/user"
	"path/filepath"
	"slices"
	"strconv"
	"syscall"
	"testing"
	"time"
)

// Cluster is a private PostgreSQL server.
type Cluster struct {
	dir     string
	schemas int
}

// serve runs the server until its input ends, which it does when the test ends and also when the test is
// killed; then it takes server and files away.
const serve = `"$1" -D "$2/data" -k "$2" -c listen_addresses= -c fsync=off -c max_connections=60 >"$2/log" 2>&1 &
server=$!
cat >/dev/null
kill -QUIT $server
wait $server
rm -rf "$2"`

// StartPostgreSQL starts a server of its own in a folder of its own, reached only through a socket
// there, for the time of a test. Where PostgreSQL is not installed the test is skipped, or fails if the
// environment says HAYWARDEN_DEMAND=1.
func StartPostgreSQL(tb testing.TB) *Cluster {
	tb.Helper()
	bin, err := binaries()
	if err != nil {
		Lacking(tb, err.Error())
	}
	// The socket's path may have 107 characters, which a test's own folder can exceed.
	dir, err := os.MkdirTemp("/tmp", "haywarden-pg-")
	if err != nil {
		tb.Fatal(err)
	}
	as := &syscall.SysProcAttr{Setpgid: true}
	if os.Geteuid() == 0 {
		// PostgreSQL refuses to run as root.
		if as.Credential, err = unprivileged(); err != nil {
			Lacking(tb, err.Error())
		}
		if err := os.Chown(dir, int(as.Credential.Uid), int(as.Credential.Gid)); err != nil {
			tb.Fatal(err)
		}
	}
	// A language's order, where letters do not sort as their bytes do: the harder case for a store.
	initdb := exec.CommandContext(tb.Context(), filepath.Join(bin, "initdb"), "-D", filepath.Join(dir, "data"), "-U", "postgres", "-A", "trust",
		"-E", "UTF8", "--locale=C.UTF-8", "--locale-provider=icu", "--icu-locale=en-US", "--no-sync", "--no-instructions")
	initdb.Dir, initdb.SysProcAttr = dir, as
	if out, err := initdb.CombinedOutput(); err != nil {
		tb.Fatalf("make a PostgreSQL cluster: %v\n%s", err, out)
	}
	c := &Cluster{dir: dir}
	server := exec.Command("/bin/sh", "-c", serve, "sh", filepath.Join(bin, "postgres"), dir) //nolint:noctx // it ends with its input
	server.Dir, server.SysProcAttr = dir, as
	var said bytes.Buffer
	server.Stderr = &said
	stop, err := server.StdinPipe()
	if err != nil {
		tb.Fatal(err)
	}
	if err := server.Start(); err != nil {
		tb.Fatal(err)
	}
	tb.Cleanup(func() {
		if err := stop.Close(); err != nil {
			tb.Error(err)
		}
		if err := server.Wait(); err != nil {
			tb.Errorf("stop PostgreSQL: %v\n%s", err, said.Bytes())
		}
	})
	c.await(tb)
	return c
}

// await waits until the server answers.
func (c *Cluster) await(tb testing.TB) {
	tb.Helper()
	db := c.connect(tb)
	defer db.Close()
	ctx, cancel := context.WithTimeout(tb.Context(), 30*time.Second)
	defer cancel()
	for {
		err := db.PingContext(ctx)
		if err == nil {
			return
		}
		if ctx.Err() != nil {
			log, _ := os.ReadFile(filepath.Join(c.dir, "log")) // nothing to add where there is no log
			tb.Fatalf("PostgreSQL does not answer: %v\n%s", err, log)
		}
		time.Sleep(20 * time.Millisecond)
	}
}

func (c *Cluster) connect(tb testing.TB) *sql.DB {
	tb.Helper()
	db, err := sql.Open("pgx", c.address(""))
	if err != nil {
		tb.Fatal(err)
	}
	return db
}

// Fresh makes an empty schema and returns its address.
func (c *Cluster) Fresh(tb testing.TB) string {
	tb.Helper()
	db := c.connect(tb)
	defer db.Close()
	c.schemas++
	schema := "s" + strconv.Itoa(c.schemas)
	if _, err := db.ExecContext(tb.Context(), "create schema "+schema); err != nil { //nolint:gosec // a number
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
	if !slices.Contains(sql.Drivers(), "pgx") {
		return "", fmt.Errorf("this test was built without PostgreSQL (build it with -tags postgres)")
	}
	if p, err := exec.LookPath("initdb"); err == nil {
		return filepath.Dir(p), nil
	}
	found, err := filepath.Glob("/usr/lib/postgresql/*/bin/initdb")
	if err != nil || len(found) == 0 {
		return "", fmt.Errorf("PostgreSQL is not installed: no initdb on PATH or in /usr/lib/postgresql")
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
	return nil, fmt.Errorf("PostgreSQL does not run as root, and there is no user postgres or nobody")
}

package store_test

import (
	"database/sql"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"haywarden/book/store"
)

func TestArgumentsAreBoundByNumber(t *testing.T) {
	onBothEngines(t, func(t *testing.T, db *store.DB) {
		var a, b string
		if err := db.Reader().QueryRowContext(t.Context(), "select cast($2 as text), cast($1 as text)", "first", "second").Scan(&a, &b); err != nil {
			t.Fatal(err)
		}
		if a != "second" || b != "first" {
			t.Errorf("select $2, $1 gives %s, %s: the driver binds by place, and the generated queries by number", a, b)
		}
	})
}

func TestEveryTableHasAPrimaryKey(t *testing.T) {
	const lite = `select m.name, (select count(*) from pragma_table_info(m.name) c where c.pk > 0)
		from sqlite_schema m where m.type = 'table' and m.name not like 'sqlite_%'`
	const pg = `select t.table_name, (select count(*) from information_schema.table_constraints c
			where c.table_schema = t.table_schema and c.table_name = t.table_name and c.constraint_type = 'PRIMARY KEY')
		from information_schema.tables t where t.table_schema = current_schema()`
	onBothEngines(t, func(t *testing.T, db *store.DB) {
		query := lite
		if db.Info().Engine == store.PostgreSQL {
			query = pg
		}
		rows, err := db.Reader().QueryContext(t.Context(), query)
		if err != nil {
			t.Fatal(err)
		}
		defer rows.Close()
		tables := 0
		for ; rows.Next(); tables++ {
			var name string
			var columns int
			if err := rows.Scan(&name, &columns); err != nil {
				t.Fatal(err)
			}
			if columns == 0 {
				t.Errorf("table %s has no primary key", name)
			}
		}
		if err := rows.Err(); err != nil {
			t.Fatal(err)
		}
		if tables < 7 { // book, facts, stations, weather_blocks, weather_imports, forecasts, book_schema
			t.Errorf("%d tables were looked at, want 7 at least", tables)
		}
	})
}

func TestTheLayoutIsTheLastMigration(t *testing.T) {
	files, err := filepath.Glob("migrations/*.sql")
	if err != nil {
		t.Fatal(err)
	}
	for i, f := range files {
		if want := fmt.Sprintf("%05d_", i+1); !strings.HasPrefix(filepath.Base(f), want) {
			t.Errorf("%s: its name should begin with %s", f, want)
		}
	}
	if len(files) != store.SchemaVersion {
		t.Errorf("%d migrations, and layout %d: raise schemaVersion with each", len(files), store.SchemaVersion)
	}
}

func TestMigrationsKeepToWhatBothEnginesShare(t *testing.T) {
	for _, folder := range []string{"migrations", "queries"} {
		err := filepath.WalkDir(folder, func(path string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() {
				return err
			}
			data, err := os.ReadFile(path)
			if err != nil {
				return err
			}
			for n, line := range strings.Split(string(data), "\n") {
				sql, _, _ := strings.Cut(line, "--")
				for _, word := range []string{"::", "now()", "timestamptz", "jsonb", "serial", "autoincrement", " between ", "ilike", "any(", "->>", "?", "identity"} {
					if strings.Contains(strings.ToLower(sql), word) {
						t.Errorf("%s:%d: %q is not understood by both engines, or not alike", path, n+1, word)
					}
				}
			}
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
}

// The SQLite driver is C turned into Go, and works only with the C library, turned into Go, that it was
// made with: the version in its own go.mod, and no later one that another module might ask for. (A test
// carries no list of the modules it was built from, so the go command is asked.)
func TestTheSQLiteDriverHasTheLibraryItWasMadeWith(t *testing.T) {
	const library = "modernc.org/libc"
	list := func(format, module string) string {
		out, err := exec.CommandContext(t.Context(), "go", "list", "-m", "-f", format, module).Output()
		if err != nil {
			t.Fatalf("go list -m %s: %v", module, err)
		}
		return strings.TrimSpace(string(out))
	}
	mod, err := os.ReadFile(list("{{.GoMod}}", "modernc.org/sqlite"))
	if err != nil {
		t.Fatal(err)
	}
	_, rest, ok := strings.Cut(string(mod), library+" ")
	if !ok {
		t.Fatalf("the driver's go.mod does not name %s", library)
	}
	want := strings.Fields(rest)[0]
	if got := list("{{if .Replace}}{{.Replace.Version}}{{else}}{{.Version}}{{end}}", library); got != want {
		t.Errorf("%s %s is built in, and the driver was made with %s", library, got, want)
	}
}

func TestSettingsOfTheConnections(t *testing.T) {
	db := mustOpen(t, filepath.Join(t.TempDir(), "a.book"), options)
	for _, c := range []struct {
		pool         *sql.DB
		pragma, want string
	}{
		{db.Writer(), "journal_mode", "wal"},
		{db.Writer(), "synchronous", "2"}, // FULL: an acknowledged change outlives a power failure
		{db.Writer(), "foreign_keys", "1"},
		{db.Writer(), "busy_timeout", "5000"},
		{db.Writer(), "application_id", "1214347639"},
		{db.Reader(), "query_only", "1"},
		{db.Reader(), "busy_timeout", "5000"},
	} {
		var got string
		if err := c.pool.QueryRowContext(t.Context(), "pragma "+c.pragma).Scan(&got); err != nil {
			t.Fatal(err)
		}
		if got != c.want {
			t.Errorf("%s is %s, want %s", c.pragma, got, c.want)
		}
	}
	if _, err := db.Reader().ExecContext(t.Context(), "update book set revision = 7"); err == nil {
		t.Error("the reading pool writes")
	}
}

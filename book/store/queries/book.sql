-- name: Book :one
select application, created, program, revision from book where one = 1;

-- name: NextRevision :one
-- Holds the book's row until the transaction ends, so that on PostgreSQL, too, one change is made at a
-- time and two of them can never wait for each other.
update book set revision = revision + 1 where one = 1 returning revision;

-- name: InsertFact :execrows
insert into facts (id, home, farm, subject, kind, day, received, author, supersedes, body)
values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10)
on conflict (id) do nothing;

-- name: Fact :one
select * from facts where id = $1;

-- name: Facts :many
select * from facts
where received <= @known and day <= @through
order by received, id;

-- name: FactsOfHome :many
select * from facts
where home in (@home, @also) and received <= @known and day <= @through
order by received, id;

-- name: NewestStation :one
select s.* from stations s
where s.id = @id
  and not exists (select 1 from stations n where n.id = s.id and n.revision > s.revision);

-- name: NewestStations :many
select s.* from stations s
where s.received <= @known
  and not exists (
    select 1 from stations n
    where n.id = s.id and n.received <= @known and n.revision > s.revision
  );

-- name: InsertStation :exec
insert into stations (id, revision, received, name, latitude, longitude, elevation, whole_f)
values ($1, $2, $3, $4, $5, $6, $7, $8);

-- name: NewestBlocks :many
-- For each year the block stored last among those received by then. A station's blocks are few, and
-- the newest is found by revision: the clock may have been set back between two imports.
select b.year, b.days from weather_blocks b
where b.station = @station and b.received <= @known
  and not exists (
    select 1 from weather_blocks n
    where n.station = b.station and n.year = b.year and n.received <= @known and n.revision > b.revision
  )
order by b.year;

-- name: InsertBlock :exec
insert into weather_blocks (station, year, revision, received, days)
values ($1, $2, $3, $4, $5);

-- name: ImportsOfFile :one
select count(*) from weather_imports where station = @station and sha256 = @sha256;

-- name: InsertImport :exec
insert into weather_imports (revision, station, source, sha256, received, years_added, years_changed, years_unchanged, report)
values ($1, $2, $3, $4, $5, $6, $7, $8, $9);

-- name: Imports :many
select * from weather_imports where station = @station order by revision;

-- name: AllBlocks :many
select year, days from weather_blocks where station = @station order by year, revision;

-- name: WeatherRevision :one
select cast(coalesce(max(revision), 0) as bigint) as revision
from (select revision from weather_imports union all select revision from forecasts) as brought;

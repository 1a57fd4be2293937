-- name: ForecastOfIssue :one
select f.body from forecasts f
where f.place = @place and f.issued = @issued
  and not exists (
    select 1 from forecasts n
    where n.place = f.place and n.issued = f.issued and n.revision > f.revision
  );

-- name: InsertForecast :exec
insert into forecasts (place, issued, revision, received, day, body)
values ($1, $2, $3, $4, $5, $6);

-- name: Forecasts :many
-- For each time of issue the forecast stored last among those received by then.
select f.* from forecasts f
where f.place = @place and f.received <= @known
  and not exists (
    select 1 from forecasts n
    where n.place = f.place and n.issued = f.issued and n.received <= @known and n.revision > f.revision
  )
order by f.issued desc;

-- name: LatestForecast :one
select * from forecasts
where place = @place and received <= @known and day <= @through
order by issued desc, revision desc
limit 1;

-- name: AllForecasts :many
select * from forecasts order by place, issued, revision;

-- What each weather file brought, and the report that was made of it.

-- +goose Up
create table weather_imports (
    revision bigint not null,
    station text not null check (station <> ''),
    source text not null check (source <> ''),
    sha256 text not null check (length(sha256) = 64),
    received text not null check (length(received) = 30),
    years_added bigint not null check (years_added >= 0),
    years_changed bigint not null check (years_changed >= 0),
    years_unchanged bigint not null check (years_unchanged >= 0),
    report bytea not null,
    primary key (revision, station)
);

create index weather_imports_of_station on weather_imports (station, revision);

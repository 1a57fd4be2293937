-- Both engines run this file, so it keeps to what they share: ids made by the program, days as
-- YYYY-MM-DD and instants as RFC 3339 in UTC with nine decimals (fixed width: text order is time order
-- under every collation), bytea for bytes.

-- +goose Up
create table book (
    one bigint not null primary key check (one = 1),
    application text not null,
    created text not null,
    program text not null,
    revision bigint not null
);

insert into book (one, application, created, program, revision) values (1, 'haywarden', '', '', 0);

create table facts (
    id text not null primary key check (length(id) = 36),
    home text not null,
    farm text not null,
    subject text not null check (subject <> ''),
    kind text not null check (kind <> ''),
    day text not null check (length(day) = 10),
    received text not null check (length(received) = 30),
    author text not null check (author <> ''),
    supersedes text references facts (id) deferrable initially deferred,
    body text not null
);

create index facts_in_order on facts (received, id);

create index facts_of_home on facts (home, received, id);

create index facts_superseded on facts (supersedes) where supersedes is not null;

create table stations (
    id text not null check (id <> ''),
    revision bigint not null,
    received text not null check (length(received) = 30),
    name text not null,
    latitude double precision not null,
    longitude double precision not null,
    elevation double precision not null,
    whole_f boolean not null,
    primary key (id, revision)
);

create table weather_blocks (
    station text not null check (station <> ''),
    year bigint not null,
    revision bigint not null,
    received text not null check (length(received) = 30),
    days bytea not null,
    primary key (station, year, revision)
);

-- What was forecast, kept by place and time of issue. day is that of the issue at the place, by which
-- a question asked for a date leaves out what was forecast after it.

-- +goose Up
create table forecasts (
    place text not null check (place <> ''),
    issued text not null check (length(issued) = 30),
    revision bigint not null,
    received text not null check (length(received) = 30),
    day text not null check (length(day) = 10),
    body text not null,
    primary key (place, issued, revision)
);

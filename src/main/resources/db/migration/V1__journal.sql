-- The journal is the one thing that may never be lost: one row for each entry, appended, never changed, never deleted.
-- The body is the event as JSON; the checksum covers every other column, so that a damaged row is noticed when it is read.
create table entry (
    seq      integer primary key,
    at       text    not null,
    scope    integer not null,
    raw      text    not null,
    body     text    not null,
    checksum integer not null
) strict;

-- A saved state, so that opening need not fold the whole journal. It can be deleted at any time: it is made anew.
create table snapshot (
    seq      integer primary key,
    format   integer not null,
    body     blob    not null,
    checksum integer not null
) strict;

pragma user_version = 1;

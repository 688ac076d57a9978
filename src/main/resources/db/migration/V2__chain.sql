-- From here on each entry's checksum covers the checksum of the entry before it, so that a row put in, taken out or changed
-- with its own checksum made right is noticed as well. Earlier entries keep the checksums they have: rows are never changed.
create table chain (
    since integer not null
) strict;

insert into chain select coalesce(max(seq), 0) + 1 from entry;

-- Saved states lie in a file of their own now: saving one must not touch the file of the journal.
drop table snapshot;

pragma user_version = 2;

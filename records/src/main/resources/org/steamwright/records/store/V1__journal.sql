-- The journal, its tree, and the facts as they stand. One text for both engines; what differs is a placeholder.

create table store (
  one ${whole} not null primary key check (one = 1),
  entries ${whole} not null,
  submissions ${whole} not null,
  subjects ${whole} not null,
  latest_at ${text} not null
) ${table};
insert into store (one, entries, submissions, subjects, latest_at) values (1, 0, 0, 0, '');

create table subject (
  nr ${whole} not null primary key,
  id ${text} not null unique,
  kind ${text} not null
) ${table};

create table submission (
  nr ${whole} not null primary key,
  id ${text} not null unique,
  author_name ${text} not null,
  author_role ${text} not null,
  at ${text} not null,
  utc_offset ${text} not null,
  clock_set_back ${whole} not null check (clock_set_back in (0, 1)),
  size ${whole} not null,
  root ${bytes} not null
) ${table};
create index submission_size on submission (size);

create table journal (
  nr ${whole} not null primary key,
  submission ${whole} not null references submission (nr) deferrable initially deferred,
  subject ${whole} not null references subject (nr),
  property ${text} not null,
  old_value ${text} not null,
  new_value ${text} not null,
  why ${text} not null,
  stated ${text} not null,
  late ${whole} not null check (late in (0, 1)),
  hash ${bytes} not null
) ${table};
create index journal_subject on journal (subject, nr);

-- roots of complete subtrees of 16, 256, 4096, ... entries; the others follow from at most eight of these
create table tree (
  level ${whole} not null,
  place ${whole} not null,
  hash ${bytes} not null,
  primary key (level, place)
) ${keyed};

create table fact (
  subject ${whole} not null references subject (nr),
  property ${text} not null,
  value ${text} not null,
  entry ${whole} not null references journal (nr),
  primary key (subject, property)
) ${keyed};

-- Orders by which a large record is paged, and what follows from each visit: assessed once, kept until its facts change. All of it is derived.

create index subject_kind on subject (kind, nr);

alter table due add column late_from ${text} not null default '';
create index due_late on due (late_from, subject);

-- visits whose results have to be made anew, and how many entries there were when that came about
create table waiting (
  subject ${whole} not null primary key references subject (nr),
  entries ${whole} not null
) ${table};

create table result (
  subject ${whole} not null primary key references subject (nr),
  made_from ${text} not null,
  state ${text} not null,
  day ${text} not null,
  standing ${text} not null,
  as_found ${whole} not null check (as_found in (0, 1)),
  as_found_failed ${whole} not null check (as_found_failed in (0, 1)),
  is_correction ${whole} not null check (is_correction in (0, 1)),
  turn_around ${whole} not null,
  exceptions ${whole} not null,
  sha256 ${text} not null
) ${table};
create index result_day on result (day, state, as_found, as_found_failed, standing, is_correction, turn_around);
create index result_state on result (state, subject);

create table figure (
  subject ${whole} not null references subject (nr),
  figure ${text} not null,
  serial ${text} not null,
  cycle ${text} not null,
  comparison ${text} not null,
  day ${text} not null,
  run ${whole} not null,
  value ${real} not null,
  bound ${real} not null,
  unit ${text} not null,
  primary key (subject, figure, serial, cycle, comparison)
) ${keyed};
create index figure_line on figure (figure, serial, cycle);

create table line (
  figure ${text} not null,
  serial ${text} not null,
  cycle ${text} not null,
  family ${text} not null,
  last ${real} not null,
  pressing ${text} not null,
  sha256 ${text} not null,
  primary key (figure, serial, cycle)
) ${keyed};
create index line_pressing on line (figure, pressing, serial, cycle);
create index line_family on line (figure, family, cycle, last);
create index line_serial on line (serial);

-- Users of an office and the log of their log-ins. Not part of the journal: it is exported and never forgets, and secrets must do neither.

create table account (
  id ${text} not null primary key,
  name ${text} not null,
  folded ${text} not null unique,
  role ${text} not null,
  clinic ${text} not null,
  password ${text} not null,
  second_factor ${text} not null,
  last_step ${whole} not null,
  failures ${whole} not null,
  locked_until ${text} not null,
  sessions_from ${text} not null,
  active ${whole} not null check (active in (0, 1)),
  must_change ${whole} not null check (must_change in (0, 1))
) ${table};

create table recovery_code (
  account ${text} not null references account (id),
  sha256 ${text} not null,
  used_at ${text} not null,
  primary key (account, sha256)
) ${keyed};

create table log_in (
  nr ${whole} not null primary key,
  at ${text} not null,
  account ${text} not null,
  address ${text} not null,
  act ${text} not null,
  result ${text} not null
) ${table};
create index log_in_account on log_in (account, nr);

${log_in_is_added_to}

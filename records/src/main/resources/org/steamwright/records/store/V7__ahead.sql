-- Visits that still want something: not signed yet, or out as an interim report. All of it is derived.

create table ahead (
  subject ${whole} not null primary key references subject (nr),
  state ${text} not null,
  day ${text} not null,
  awaits ${text} not null
) ${table};
create index ahead_state on ahead (state, day, subject);
create index ahead_awaits on ahead (awaits, subject);

-- Words to find subjects by, uses for reverse look-ups, due dates. All of it follows from the facts and can be made again.

alter table store add column derivation ${whole} not null default 0;

create table word (
  subject ${whole} not null references subject (nr),
  property ${text} not null,
  folded ${text} not null,
  primary key (subject, property, folded)
) ${keyed};
create index word_folded on word (folded, subject);

create table used (
  role ${text} not null,
  folded ${text} not null,
  subject ${whole} not null references subject (nr),
  property ${text} not null,
  primary key (role, folded, subject, property)
) ${keyed};

create table due (
  subject ${whole} not null references subject (nr),
  reason ${text} not null,
  day ${text} not null,
  certainty ${text} not null,
  note ${text} not null,
  primary key (subject, reason)
) ${keyed};
create index due_day on due (day, subject);

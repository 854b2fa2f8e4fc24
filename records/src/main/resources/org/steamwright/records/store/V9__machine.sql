-- Figures and lines by the machine that a visit means, in the place of its serial number, which two makers may have given. All
-- of it is derived: the results are thrown away, and every visit waits to be looked at anew.

drop table line;
drop table figure;
delete from result;
delete from waiting;
insert into waiting (subject, entries) select s.nr, t.entries from subject s, store t where s.kind = 'visit';

create table figure (
  subject ${whole} not null references subject (nr),
  figure ${text} not null,
  machine ${text} not null,
  serial ${text} not null,
  cycle ${text} not null,
  comparison ${text} not null,
  day ${text} not null,
  run ${whole} not null,
  value ${real} not null,
  bound ${real} not null,
  unit ${text} not null,
  primary key (subject, figure, machine, cycle, comparison)
) ${keyed};
create index figure_line on figure (figure, machine, cycle);

create table line (
  figure ${text} not null,
  machine ${text} not null,
  cycle ${text} not null,
  serial ${text} not null,
  family ${text} not null,
  last ${real} not null,
  pressing ${text} not null,
  sha256 ${text} not null,
  primary key (figure, machine, cycle)
) ${keyed};
create index line_pressing on line (figure, pressing, serial, machine, cycle);
create index line_family on line (figure, family, cycle, last);
create index line_machine on line (machine);
create index line_serial on line (serial);

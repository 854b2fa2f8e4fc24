-- Why a visit could not be assessed; blank for one that was. Derived, as the rest of its result is.

alter table result add column why ${text} not null default '';
create index result_standing on result (standing, state, subject);

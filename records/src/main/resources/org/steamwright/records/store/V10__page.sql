-- Any page of what is due is cut out of this order alone, however deep it lies in the list.

drop index due_day;
create index due_day on due (day, subject, reason);

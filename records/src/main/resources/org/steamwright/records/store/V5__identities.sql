-- By what a user of an office is known to the office's provider of identities. Not part of the journal, as the accounts are not.

create table account_identity (
  account ${text} not null primary key references account (id),
  issuer ${text} not null,
  subject ${text} not null,
  mail ${text} not null
) ${keyed};
create unique index account_identity_subject on account_identity (issuer, subject) where subject <> '';
create unique index account_identity_mail on account_identity (issuer, mail) where mail <> '';

-- Private keys, locked by their owners' secrets. Not part of the journal: a secret may change and an old lock must go.

create table locked_key (
  id ${text} not null primary key,
  owner ${text} not null,
  salt ${bytes} not null,
  nonce ${bytes} not null,
  locked ${bytes} not null,
  sha256 ${bytes} not null
) ${table};

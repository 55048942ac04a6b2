-- The facts and what follows from them, as one team would keep them for one program that judges.
drop table if exists fact, held, revocation, report, standing, movement, plot;

create table fact (fact_id text primary key, record bytea not null);

create table held (
  subject text,
  fact_id text,
  primary key (subject, fact_id)
);
create index held_by_fact on held (fact_id);

create table revocation (
  fact_id text,
  by_fact_id text,
  note text not null,
  primary key (fact_id, by_fact_id)
);

create table report (
  receiver text,
  sender text,
  record bytea not null,
  primary key (receiver, sender)
);
create index report_by_sender on report (sender);

create table standing (subject text primary key, record bytea not null);

create table movement (
  told_by text,
  parent text,
  child text,
  fact_id text,
  mass_kg double precision not null,
  primary key (told_by, parent, child, fact_id)
);
create index movement_by_parent on movement (parent);
create index movement_by_child on movement (child);

create table plot (
  cell text,
  subject text,
  record bytea not null,
  primary key (cell, subject)
);
create index plot_by_subject on plot (subject);

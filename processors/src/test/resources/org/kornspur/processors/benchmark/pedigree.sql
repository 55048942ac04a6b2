-- The pedigree as a team would keep it in a relational database: one row a crop or lot,
-- one row a movement of seed, found by either end, and the standing beside the subject.
drop schema if exists pedigree_comparison cascade;
create schema pedigree_comparison;
set search_path = pedigree_comparison;

create table subject (
  subject_id integer primary key,
  kind       text    not null,
  name       text    not null unique,
  state      text    not null
);

create table movement (
  parent_id   integer          not null references subject,
  child_id    integer          not null references subject,
  fact_id     text             not null,
  mass_kg     double precision not null,
  moved_by    text             not null,
  happened_at timestamptz      not null,
  primary key (child_id, parent_id, fact_id)
);
create index movement_by_parent on movement (parent_id, child_id);

create table post_control (
  fact_id            text    primary key,
  lot_id             integer not null references subject,
  plants_examined    integer not null,
  identity_confirmed boolean not null
);

-- Why a subject is not fit: the ancestor that failed and the fact that says so.
create table inherited_trouble (
  subject_id integer not null references subject,
  origin_id  integer not null references subject,
  fact_id    text    not null references post_control,
  primary key (subject_id, origin_id, fact_id)
);
